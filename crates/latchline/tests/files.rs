//! Files that are never lost, and results that are either written or not said to be.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests may read and write files, and fail"
)]

use crate::common::{Folder, ran};
use std::process::Stdio;

/// Of several at once each either is in the file at the end or said that it is not.
#[test]
fn of_two_acceptances_at_once_none_vanishes() {
    for round in 0..20 {
        let folder = Folder::with_starter();
        let children: Vec<_> = ["A-6", "A-6:2"]
            .iter()
            .map(|element| {
                let reason = format!("because of {element}");
                let mut command =
                    folder.command(&["accept", "site.toml", "thin-margin", element, "--reason", &reason]);
                command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap()
            })
            .collect();
        let mut accepted = 0;
        for child in children {
            let ended = ran(child.wait_with_output().unwrap());
            match ended.status {
                0 => accepted += 1,
                2 => assert!(
                    ["has changed since it was read", "there is no"]
                        .iter()
                        .any(|why| ended.err.contains(why))
                        || ended.err.contains("thin-margin"),
                    "round {round}: {}",
                    ended.err
                ),
                status => panic!("round {round}: {status} {}", ended.err),
            }
        }
        let text = folder.read("site.toml");
        assert_eq!(text.matches("[[accept]]").count(), accepted, "round {round}: {text}");
        assert!(accepted > 0, "round {round}: one of them at least");
        assert_eq!(folder.names(), ["site.toml"]);
    }
}

#[test]
fn no_result_is_written_over_an_input_or_a_foreign_file() {
    let folder = Folder::with_starter();
    let site = folder.read("site.toml");
    folder.write("letter.txt", "dear owner");
    folder.write("letter.svg", "dear owner");
    for (arguments, file) in [
        (&["check", "site.toml", "--output", "site.toml", "--force"][..], "site.toml"),
        (&["headroom", "site.toml", "--output", "./site.toml", "--force"], "site.toml"),
        (&["check", "site.toml", "--output", "letter.txt"], "letter.txt"),
        (&["draw", "site.toml", "wiring", "-o", "letter.svg"], "letter.svg"),
        (&["reach", "ostrel-48", "--cable", "pair-0.8", "--chart", "letter.svg"], "letter.svg"),
        (&["new", "site.toml"], "site.toml"),
        (&["new", "--survey", "letter.txt"], "letter.txt"),
    ] {
        let refused = folder.run(arguments);
        assert_eq!(refused.status, 2, "{arguments:?}: {}{}", refused.out, refused.err);
        assert!(refused.err.contains(file), "{arguments:?}: {}", refused.err);
        assert!(refused.out.is_empty(), "{arguments:?}");
    }
    assert_eq!(folder.read("site.toml"), site);
    assert_eq!(folder.read("letter.txt"), "dear owner");
    assert_eq!(folder.read("letter.svg"), "dear owner");
    // By force, and again over the run's own result.
    let forced = ["check", "site.toml", "--output", "letter.txt", "--format", "json", "--force"];
    assert_eq!(folder.run(&forced).status, 0);
    assert_eq!(folder.run(&forced[..6]).status, 0);
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
#[cfg(unix)]
fn the_exit_status_does_not_depend_on_who_reads() {
    let folder = Folder::with_starter();
    folder.write("broken.toml", "[site]\nname = 3\n");
    for arguments in [
        &["check", "site.toml"][..],
        &["check", "broken.toml"],
        &["check", "none.toml"],
        &["--help"],
        &["schema", "site"],
    ] {
        let read = folder.run(arguments).status;
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let closed = folder.command(arguments).stdout(writer).stderr(Stdio::null()).status().unwrap();
        assert_eq!(closed.code(), Some(read), "{arguments:?}");
    }
}

/// What takes nothing, as a full disk does.
#[test]
#[cfg(target_os = "linux")]
fn a_result_that_cannot_be_written_is_no_success() {
    let folder = Folder::with_starter();
    for arguments in [
        &["check", "site.toml"][..],
        &["--help"],
        &["--version"],
        &["catalogue"],
        &["accept", "site.toml", "thin-margin", "A-6:2", "--reason", "x"],
    ] {
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let ended = ran(folder.command(arguments).stdout(full).stderr(Stdio::piped()).output().unwrap());
        assert_eq!(ended.status, 2, "{arguments:?}");
        assert!(
            ended.err.contains("no space") || ended.err.contains("full") || ended.err.contains("write"),
            "{arguments:?}: {}",
            ended.err
        );
    }
}

#[test]
#[cfg(unix)]
fn a_second_name_of_the_file_is_noticed() {
    let folder = Folder::with_starter();
    std::fs::hard_link(folder.path("site.toml"), folder.path("same.toml")).unwrap();
    let ended = folder.run(&["accept", "site.toml", "thin-margin", "A-6:2", "--reason", "x"]);
    assert_eq!(ended.status, 0, "{}", ended.err);
    assert!(ended.err.contains("has 2 names (hard links)"), "{}", ended.err);
    assert!(folder.read("site.toml").contains("[[accept]]"));
    assert!(!folder.read("same.toml").contains("[[accept]]"));
}

#[test]
fn hidden_signs_are_shown_and_names_that_hold_them_are_told() {
    let folder = Folder::with_starter();
    let hostile = "\u{1b}[2J\u{9b}A\u{200b}\u{202e}.toml";
    let text = folder
        .read("site.toml")
        .replace("\"A-2\"", "\"A\\u200B-2\"")
        .replace("A-2 = {", "\"A\\u200B-2\" = {");
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
        assert!(refused.err.contains("<U+001B>"), "{arguments:?}: {}", refused.err);
        assert!(!drives(&refused.out) && !drives(&refused.err), "{arguments:?}: {}", refused.err);
    }
}
