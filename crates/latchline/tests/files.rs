//! Files of users: never lost, never half written, never written over by what they did not ask for.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests may read and write files, and fail"
)]

use crate::common::{Folder, Ran, ran};
use std::process::{Child, Command, Stdio};

/// The starter site with a thin margin to accept.
fn with_thin_margin() -> Folder {
    let folder = Folder::with_starter();
    folder.edit("site.toml", "[conditions]", "[policy]\nthin_margin = \"9.9 V\"\n\n[conditions]");
    folder
}

fn spawn(folder: &Folder, arguments: &[&str]) -> Child {
    folder.command(arguments).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap()
}

fn ended(child: Child) -> Ran {
    ran(child.wait_with_output().unwrap())
}

/// Entries of `site.toml` and nothing else in the folder.
fn is_tidy(folder: &Folder) -> bool {
    folder.names().iter().all(|name| !name.starts_with('.'))
}

/// Runs a command that waits for a catalogue in the middle of its work, and edits a file meanwhile: the catalogue
/// is a named pipe, which is opened after the site was read.
#[cfg(unix)]
fn edited_meanwhile(folder: &Folder, arguments: &[&str], edited: &str) -> Ran {
    let made = Command::new("mkfifo").arg(folder.path("parts.toml")).status().unwrap();
    assert!(made.success());
    let child = spawn(folder, arguments);
    let mut pipe = std::fs::OpenOptions::new().write(true).open(folder.path("parts.toml")).unwrap();
    folder.write(edited, format!("{}# saved in an editor meanwhile\n", folder.read(edited)));
    std::io::Write::write_all(&mut pipe, b"# no parts\n").unwrap();
    drop(pipe);
    let ran = ended(child);
    std::fs::remove_file(folder.path("parts.toml")).unwrap();
    ran
}

#[test]
#[cfg(unix)]
fn an_edit_saved_while_a_command_runs_is_never_lost() {
    for arguments in [
        &["accept", "site.toml", "thin-margin", "--reason", "known"][..],
        &["addresses", "site.toml", "--freeze"],
        &["fix", "site.toml", "--finding", "1", "--write"],
    ] {
        let folder = with_thin_margin();
        folder.edit("site.toml", "# catalogues = [\"my-parts.toml\"]", "catalogues = [\"parts.toml\"]");
        // Something that is quickly mended: a lock on too thin a cable.
        folder.edit("site.toml", "length = \"6 m\", hold_time", "length = \"60 m\", hold_time");
        let before = folder.read("site.toml");
        let ran = edited_meanwhile(&folder, arguments, "site.toml");
        assert_eq!(ran.status, 2, "{arguments:?}: {}{}", ran.out, ran.err);
        assert!(ran.err.contains("has changed since it was read; nothing was written"), "{}", ran.err);
        assert_eq!(folder.read("site.toml"), format!("{before}# saved in an editor meanwhile\n"));
        assert!(is_tidy(&folder), "{:?}", folder.names());
    }
}

#[test]
fn the_installed_site_is_never_replaced_by_its_change() {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "."]).status, 0);
    let before = folder.read("designed.toml");
    for (language, wanted) in [("en", "is an input; name another file"), ("de", "ist eine Eingabe")] {
        let ran = folder.run(&[
            "design",
            "survey.xlsx",
            "--from",
            "designed.toml",
            "-o",
            "designed.toml",
            "--force",
            "--language",
            language,
        ]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{}", ran.err);
        assert!(ran.err.contains(wanted), "{}", ran.err);
        assert_eq!(folder.read("designed.toml"), before);
    }
}

#[test]
fn what_changes_a_site_file_asks_for_its_name() {
    let folder = Folder::new();
    for arguments in [&["fix", "-"][..], &["accept", "-", "thin-margin", "--reason", "known"]] {
        let ran = folder.run(arguments);
        assert_eq!(ran.status, 2, "{}", ran.err);
        assert!(ran.err.contains("name the site file") && !ran.err.contains("missing"), "{}", ran.err);
        let german = folder.run(&[arguments, &["--language", "de"]].concat());
        assert!(german.err.contains("die Anlagendatei nennen"), "{}", german.err);
    }
}

/// Whoever says "accepted" is in the file; whoever is not says so with a status.
#[test]
fn of_two_acceptances_at_once_none_vanishes() {
    let (mut both, mut refused) = (0, 0);
    for round in 0..30 {
        let folder = with_thin_margin();
        let accept =
            |code: &str, reason: &str| spawn(&folder, &["accept", "site.toml", code, "--reason", reason]);
        let children = [accept("thin-margin", "first"), accept("bus-voltage-wet", "second")];
        let ended = children.map(ended);
        let text = folder.read("site.toml");
        let mut accepted = 0;
        for (ran, reason) in ended.iter().zip(["first", "second"]) {
            let is_there = text.contains(&format!("reason = \"{reason}\""));
            match ran.status {
                0 => accepted += usize::from(is_there && ran.out.contains("accepted")),
                2 => {
                    assert!(!is_there && ran.out.is_empty(), "{text}");
                    assert!(ran.err.contains("has changed since it was read"), "{}", ran.err);
                    refused += 1;
                }
                status => panic!("{status}: {}", ran.err),
            }
        }
        let succeeded = ended.iter().filter(|ran| ran.status == 0).count();
        assert_eq!(accepted, succeeded, "round {round}: all that succeeded are in the file\n{text}");
        assert!(succeeded >= 1, "round {round}");
        both += usize::from(succeeded == 2);
        assert!(is_tidy(&folder), "{:?}", folder.names());
    }
    assert_eq!(both + refused, 30);
}

#[test]
#[cfg(unix)]
fn permissions_stay_and_owner_and_group_too_where_the_system_lets() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};
    let folder = with_thin_margin();
    let path = folder.path("site.toml");
    // Only the superuser gives files away.
    let is_root = chown(&path, Some(4242), Some(4343)).is_ok();
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o640)).unwrap();
    let before = std::fs::metadata(&path).unwrap();
    let ran = folder.run(&["accept", "site.toml", "thin-margin", "--reason", "known"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    let after = std::fs::metadata(&path).unwrap();
    assert_ne!(before.ino(), after.ino(), "a whole new file took its place");
    assert_eq!(after.permissions().mode() & 0o7777, 0o640);
    assert_eq!((before.uid(), before.gid()), (after.uid(), after.gid()));
    assert!(!is_root || after.uid() == 4242);
}

#[test]
#[cfg(unix)]
fn links_are_followed_and_what_they_cannot_is_said() {
    let folder = with_thin_margin();
    std::fs::hard_link(folder.path("site.toml"), folder.path("copy.toml")).unwrap();
    let before = folder.read("copy.toml");
    let ran = folder.run(&["accept", "site.toml", "thin-margin", "--reason", "known"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(
        ran.err.contains("\"site.toml\" has 2 names (hard links); the others still hold the old text"),
        "{}",
        ran.err
    );
    assert_eq!(folder.read("copy.toml"), before);
    // A link stays a link, and what it leads to is changed.
    std::os::unix::fs::symlink("copy.toml", folder.path("link.toml")).unwrap();
    assert_eq!(folder.run(&["accept", "link.toml", "thin-margin", "--reason", "known"]).status, 0);
    assert!(folder.path("link.toml").symlink_metadata().unwrap().is_symlink());
    assert!(folder.read("copy.toml").contains("reason = \"known\""));
    // One that leads nowhere.
    std::os::unix::fs::symlink("gone/away.toml", folder.path("dangling.toml")).unwrap();
    for arguments in [&["new", "dangling.toml"][..], &["new", "dangling.toml", "--force"]] {
        let ran = folder.run(arguments);
        assert_eq!(ran.status, 2);
        assert!(ran.err.contains("it is a link to \"gone/away.toml\", which is not there"), "{}", ran.err);
    }
    assert!(folder.path("dangling.toml").symlink_metadata().unwrap().is_symlink());
}

#[test]
fn a_file_with_a_name_of_240_characters_can_be_edited() {
    let folder = with_thin_margin();
    let name = format!("{}.toml", "n".repeat(235));
    std::fs::rename(folder.path("site.toml"), folder.path(&name)).unwrap();
    let ran = folder.run(&["accept", &name, "thin-margin", "--reason", "known"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(folder.read(&name).contains("reason = \"known\""));
    assert_eq!(folder.names(), [name]);
}

/// Each line keeps its own end, and new ones take that of their neighbours.
#[test]
fn mixed_line_ends_stay_line_by_line() {
    let folder = with_thin_margin();
    let plain = folder.read("site.toml");
    let mixed: String = plain
        .lines()
        .enumerate()
        .map(|(number, line)| format!("{line}{}", if number % 3 == 0 { "\r\n" } else { "\n" }))
        .collect();
    folder.write("site.toml", &mixed);
    let ran = folder.run(&["accept", "site.toml", "thin-margin", "--reason", "known"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let after = folder.read("site.toml");
    assert!(after.starts_with(&mixed), "every line before is as it was");
    assert!(after.contains("reason = \"known\""));
}

/// Rows that are changed in place keep the ends of the rows that they were.
#[test]
fn rows_that_are_changed_keep_their_line_ends() {
    let folder = with_thin_margin();
    let mixed: String = folder
        .read("site.toml")
        .lines()
        .enumerate()
        .map(|(number, line)| format!("{line}{}", if number % 3 == 0 { "\r\n" } else { "\n" }))
        .collect();
    folder.write("site.toml", &mixed);
    let ran = folder.run(&["addresses", "site.toml", "--freeze"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let after = folder.read("site.toml");
    assert!(after.contains("number = "), "{after}");
    let key = |line: &str| line.split_once(" = ").map(|(key, _)| key.to_string());
    let ends = |text: &str| -> Vec<(String, bool)> {
        let lines = text.split_inclusive('\n');
        lines.filter_map(|line| Some((key(line)?, line.ends_with("\r\n")))).collect()
    };
    let (before, after) = (ends(&mixed), ends(&after));
    assert!(before.iter().any(|(_, windows)| *windows) && before.iter().any(|(_, windows)| !*windows));
    for row in before.iter().filter(|row| before.iter().filter(|other| other.0 == row.0).count() == 1) {
        assert!(after.contains(row), "{row:?}");
    }
}

/// A disk that takes no more in the middle of a file, as in the tests of the pack.
#[test]
#[cfg(unix)]
fn new_with_force_never_leaves_half_a_file() {
    let folder = Folder::new();
    folder.write("site.toml", "# mine\n");
    let line = format!("trap '' XFSZ; ulimit -f 2; exec '{}' new --force", env!("CARGO_BIN_EXE_latchline"));
    let ran = Command::new("sh").args(["-c", &line]).current_dir(folder.path(".")).output().unwrap();
    assert_eq!(ran.status.code(), Some(2));
    assert_eq!(folder.read("site.toml"), "# mine\n");
    assert_eq!(folder.names(), ["site.toml"]);
    assert_eq!(folder.run(&["new", "--force"]).status, 0);
    assert!(folder.read("site.toml").starts_with("# A small house"));
}

/// A result never takes the place of an input, whatever is forced, nor of a foreign file unless it is.
#[test]
fn no_result_is_written_over_what_it_was_made_from_or_what_is_not_its_own() {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "."]).status, 0);
    assert_eq!(folder.run(&["new", "starter.toml"]).status, 0);
    folder.write("parts.toml", "# no parts\n");
    folder.edit("starter.toml", "# catalogues = [\"my-parts.toml\"]", "catalogues = [\"parts.toml\"]");
    folder.write("notes.txt", "mine\n");
    folder.write("notes.svg", "<svg>mine</svg>\n");
    std::fs::create_dir(folder.path("pictures")).unwrap();
    folder.write("pictures/elevation.svg", "<svg>mine</svg>\n");
    let names = folder.names();
    let read = |name: &String| std::fs::read(folder.path(name)).unwrap_or_default();
    let before: Vec<Vec<u8>> = names.iter().map(read).collect();
    let reach = ["reach", "ostrel-48", "--cable", "pair-0.8", "--spacing", "3", "--feeder", "5"];
    let with_reach = |more: &[&'static str]| [&reach[..], more].concat();
    let inputs = [
        vec!["check", "starter.toml", "--output", "starter.toml"],
        vec!["check", "starter.toml", "--output", "parts.toml"],
        vec!["headroom", "starter.toml", "--output", "parts.toml"],
        with_reach(&["--catalogue", "parts.toml", "--output", "parts.toml"]),
        vec!["design", "survey.xlsx", "-o", "survey.xlsx"],
    ];
    for arguments in inputs {
        let force = arguments.len();
        let forced: Vec<&str> = arguments.iter().copied().chain(["--force"]).collect();
        for arguments in [&forced[..force], &forced] {
            let ran = folder.run(arguments);
            assert_eq!(ran.status, 2, "{arguments:?}: {}{}", ran.out, ran.err);
            assert!(ran.err.contains("is an input") || ran.err.contains("exists already"), "{}", ran.err);
        }
    }
    let foreign = [
        vec!["check", "starter.toml", "--output", "notes.txt"],
        vec!["check", "starter.toml", "--format", "json", "--output", "notes.txt"],
        vec!["headroom", "starter.toml", "--output", "notes.txt"],
        with_reach(&["--output", "notes.txt"]),
        with_reach(&["--chart", "notes.svg"]),
        vec!["draw", "starter.toml", "-o", "notes.svg"],
        vec!["draw", "starter.toml", "-o", "pictures"],
        vec!["design", "survey.xlsx", "-o", "starter.toml"],
        vec!["new", "starter.toml"],
        vec!["new", "--survey", "survey.xlsx"],
    ];
    for arguments in foreign {
        let ran = folder.run(&arguments);
        assert_eq!(ran.status, 2, "{arguments:?}: {}{}", ran.out, ran.err);
        assert!(ran.err.contains("--force") && ran.out.is_empty(), "{arguments:?}: {}", ran.err);
    }
    assert_eq!(folder.names(), names, "nothing was made");
    for (name, bytes) in names.iter().zip(before) {
        assert_eq!(read(name), bytes, "{name}");
    }
    assert_eq!(folder.read("pictures/elevation.svg"), "<svg>mine</svg>\n");
    let forced =
        folder.run(&["check", "starter.toml", "--format", "short", "--output", "notes.txt", "--force"]);
    assert_eq!(forced.status, 0, "{}", forced.err);
    assert!(folder.read("notes.txt").starts_with("starter.toml:"));
}

#[test]
fn results_of_earlier_runs_are_made_again_without_force() {
    let folder = Folder::with_starter();
    for arguments in [
        &["check", "site.toml", "--format", "json", "--output", "result.json"][..],
        &["check", "site.toml", "--format", "sarif", "--output", "result.sarif"],
        &["check", "site.toml", "--door", "front", "--format", "json", "--output", "door.json"],
        &[
            "reach",
            "ostrel-48",
            "--cable",
            "pair-0.8",
            "--spacing",
            "3",
            "--feeder",
            "5",
            "--format",
            "json",
            "--output",
            "reach.json",
            "--chart",
            "reach.svg",
        ],
        &["draw", "site.toml", "-o", "site.svg"],
        &["draw", "site.toml", "-o", "site.dxf"],
        &["draw", "site.toml", "-o", "pictures"],
    ] {
        for _ in 0..2 {
            let ran = folder.run(arguments);
            assert_eq!(ran.status, 0, "{arguments:?}: {}{}", ran.out, ran.err);
        }
    }
    assert!(is_tidy(&folder), "{:?}", folder.names());
}

#[test]
#[cfg(unix)]
fn pipes_and_devices_are_written_into_and_stay_what_they_are() {
    use std::os::unix::fs::FileTypeExt;
    let folder = Folder::with_starter();
    assert_eq!(folder.run(&["check", "site.toml", "--output", "/dev/null"]).status, 0);
    assert!(std::fs::metadata("/dev/null").unwrap().file_type().is_char_device());
    let full = folder.run(&["check", "site.toml", "--output", "/dev/full"]);
    assert_eq!(full.status, 2, "{}", full.err);
    assert!(std::fs::metadata("/dev/full").unwrap().file_type().is_char_device());
}

/// The status is that of the command, whether or not its reader stayed to the end.
#[test]
#[cfg(unix)]
fn the_status_does_not_depend_on_whether_the_reader_went() {
    let folder = with_thin_margin();
    let faulty = folder.read("site.toml").replace("[\"A-1\", \"A-2\", \"A-3\"]", "[\"A-1\", \"A-2\"]");
    folder.write("faulty.toml", faulty);
    for arguments in [
        &["check", "site.toml"][..],
        &["check", "site.toml", "--fail-on", "warning"],
        &["check", "site.toml", "--format", "json", "--fail-on", "advice"],
        &["check", "faulty.toml"],
        &["addresses", "site.toml"],
        &["explain"],
        &["catalogue", "--whole"],
        &["--help"],
        &["--version"],
        &["schema", "site"],
    ] {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let gone = folder.command(arguments).stdout(writer).stderr(Stdio::null()).status().unwrap();
        assert_eq!(gone.code(), Some(folder.run(arguments).status), "{arguments:?}");
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let ran = folder.command(arguments).stdout(full).stderr(Stdio::null()).status().unwrap();
        assert_eq!(ran.code(), Some(2), "{arguments:?}: what could not be written is no success");
    }
    // A command that changes a file ends its work.
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let arguments = ["accept", "site.toml", "thin-margin", "--reason", "known"];
    assert_eq!(folder.command(&arguments).stdout(writer).status().unwrap().code(), Some(0));
    assert!(folder.read("site.toml").contains("reason = \"known\""));
}

/// Where the output takes nothing, each command says so in words and what became of the files, truly.
#[test]
#[cfg(target_os = "linux")]
fn a_full_output_is_told_with_what_became_of_the_files() {
    let run = |folder: &Folder, arguments: &[&str]| {
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        ran(folder.command(arguments).stdout(full).output().unwrap())
    };
    for (arguments, written) in [
        (&["accept", "site.toml", "thin-margin", "--reason", "known"][..], "site.toml"),
        (&["addresses", "site.toml", "--freeze"], "site.toml"),
        (&["fix", "site.toml", "--all", "--write"], ""),
        (&["fix", "site.toml", "--all"], ""),
        (&["check", "site.toml"], ""),
        (&["pack", "site.toml", "--output", "pack"], "pack"),
        (&["new", "other.toml"], "other.toml"),
        (&["new", "--survey", "survey.xlsx"], "survey.xlsx"),
        (&["new", "-"], ""),
        (&["--version"], ""),
    ] {
        let folder = with_thin_margin();
        folder.edit("site.toml", "length = \"6 m\", hold_time", "length = \"60 m\", hold_time");
        let (before, names) = (folder.read("site.toml"), folder.names());
        let ran = run(&folder, arguments);
        assert_eq!(ran.status, 2, "{arguments:?}: {}", ran.err);
        let lines: Vec<&str> = ran.err.lines().filter(|line| !line.starts_with("note:")).collect();
        assert_eq!(lines[0], "error: cannot write the result", "{arguments:?}: {}", ran.err);
        assert_eq!(lines[1], "  no space is left there; make room and run again");
        let told = match written {
            "" => String::from("  no file was changed"),
            file => format!("  \"{file}\" was written all the same"),
        };
        assert_eq!(lines[2..], [told.as_str()], "{arguments:?}");
        let is_changed = folder.read("site.toml") != before || folder.names() != names;
        assert_eq!(is_changed, !written.is_empty(), "{arguments:?}: {:?}", folder.names());
    }
}

/// A hyphen is standard output where that makes sense, and never the name of a file.
#[test]
fn a_hyphen_is_no_file() {
    let folder = Folder::with_starter();
    let new = folder.run(&["new", "-"]);
    assert_eq!((new.status, new.out.as_str()), (0, folder.read("site.toml").as_str()));
    for arguments in [
        &["new", "--survey", "-"][..],
        &["new", "--demo", "-"],
        &["check", "site.toml", "--output", "-"],
        &["draw", "site.toml", "-o", "-"],
        &["pack", "site.toml", "-o", "-"],
        &["phone", "site.toml", "-o", "-"],
        &["headroom", "site.toml", "--output", "-"],
    ] {
        let ran = folder.run(arguments);
        assert_eq!(ran.status, 2, "{arguments:?}: {}", ran.out);
        assert!(ran.err.contains("\"-\""), "{arguments:?}: {}", ran.err);
        assert!(!folder.names().iter().any(|name| name == "-"), "{arguments:?}");
    }
}

/// A run that is killed at any moment leaves whole files, and the next tidies up.
#[test]
#[cfg(unix)]
fn what_killed_runs_leave_neither_blocks_nor_stays() {
    let folder = with_thin_margin();
    let before = folder.read("site.toml");
    assert_eq!(folder.run(&["addresses", "site.toml", "--freeze"]).status, 0);
    let frozen = folder.read("site.toml");
    assert_ne!(frozen, before);
    for round in 0..40_u64 {
        folder.write("site.toml", &before);
        let mut child = spawn(&folder, &["addresses", "site.toml", "--freeze"]);
        std::thread::sleep(std::time::Duration::from_millis(round));
        let _ = child.kill();
        child.wait().unwrap();
        let text = folder.read("site.toml");
        assert!(text == before || text == frozen, "round {round}: {text}");
    }
    folder.write("site.toml", &before);
    assert_eq!(folder.run(&["addresses", "site.toml", "--freeze"]).status, 0);
    assert!(is_tidy(&folder), "{:?}", folder.names());
}

#[test]
fn times_that_are_none_are_refused() {
    let folder = Folder::new();
    for time in ["nan", "inf", "-inf", "-1", "0", "1e999", "soon"] {
        let refused = folder.run(&["design", "survey.xlsx", &format!("--time={time}")]);
        assert_eq!(refused.status, 2, "{time}");
        assert!(refused.err.contains("write a number of seconds"), "{time}: {}", refused.err);
    }
}

#[test]
fn hidden_signs_are_shown_and_names_that_hold_them_are_told() {
    let folder = Folder::with_starter();
    let hostile = "\u{1b}[2J\u{9b}A\u{200b}\u{202e}.toml";
    let text = folder
        .read("site.toml")
        .replace("\"A-2\"", "\"A\\u200B-2\"")
        .replace("\nA-2 = {", "\n\"A\\u200B-2\" = {");
    folder.write("named.toml", &text);
    let drives = |text: &str| text.contains(|sign| "\u{1b}\u{9b}\u{200b}\u{202e}".contains(sign));
    for format in ["text", "short", "json", "sarif"] {
        let checked = folder.run(&["check", "named.toml", "--format", format]);
        assert!(checked.out.contains("look-alike-name"), "{format}: {}", checked.out);
        assert!(!drives(&checked.out) && !drives(&checked.err), "{format}");
    }
    for arguments in [
        &["check", hostile][..],
        &["explain", hostile],
        &[hostile],
        &["design", hostile],
        &["accept", "site.toml", "thin-margin", hostile, "--reason", "x"],
    ] {
        let refused = folder.run(arguments);
        assert_eq!(refused.status, 2);
        // The parser of arguments takes whole escape sequences out; what is left of them is shown.
        assert!(refused.err.contains("<U+009B>"), "{arguments:?}: {}", refused.err);
        assert!(!drives(&refused.out) && !drives(&refused.err), "{arguments:?}: {}", refused.err);
    }
}
