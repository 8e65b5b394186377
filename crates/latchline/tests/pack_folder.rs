//! The pack's folder: whole or not at all, whatever stands in the way.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests may read and write files, and fail"
)]

use crate::common::Folder;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

/// Every file under a folder with its bytes.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path));
        } else {
            found.insert(path.display().to_string(), std::fs::read(&path).unwrap());
        }
    }
    found
}

fn names(folder: &Folder) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder.path("."))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// What stays on the drums in the parts list is what the cut list cuts off them: of each kind, drums less pieces.
#[test]
fn the_left_over_of_the_parts_list_is_that_of_the_cuts() {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "demo"]).status, 0);
    assert_eq!(folder.run(&["pack", "demo/site.toml", "-o", "pack", "--only", "cut-list,parts"]).status, 0);
    let names: Vec<String> = std::fs::read_dir(folder.path("pack/tables"))
        .unwrap()
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    let rows = |end: &str| -> Vec<Vec<String>> {
        let name = names.iter().find(|name| name.ends_with(end)).unwrap();
        let text = folder.read(&format!("pack/tables/{name}"));
        // No cell that is read here stands in quotation marks but titles, which hold commas.
        let cells = |line: &str| {
            let mut cells = vec![String::new()];
            let mut is_quoted = false;
            for sign in line.chars() {
                match sign {
                    '"' => is_quoted = !is_quoted,
                    ',' if !is_quoted => cells.push(String::new()),
                    _ => cells.last_mut().unwrap().push(sign),
                }
            }
            cells
        };
        text.lines().filter(|line| !line.starts_with('#')).map(cells).collect()
    };
    let tenths = |text: &str| -> i64 {
        let number: f64 = text.trim_end_matches(" m").parse().unwrap();
        (10.0 * number).round() as i64
    };
    // Of each kind and drum, its length and the pieces cut off it.
    let mut drums: BTreeMap<(String, String), (i64, i64)> = BTreeMap::new();
    for row in rows("-cut-list.csv").iter().filter(|row| row.len() == 7 && row[4].parse::<f64>().is_ok()) {
        let drum = drums.entry((row[0].clone(), row[1].clone())).or_insert((tenths(&row[2]), 0));
        drum.1 += tenths(&row[4]);
        assert_eq!(tenths(&row[5]), drum.0 - drum.1, "{row:?}");
    }
    let mut compared = 0;
    for row in rows("-parts.csv").iter().filter(|row| row[0] == "Cable") {
        let of_kind = drums.iter().filter(|((kind, _), _)| *kind == row[1]).map(|(_, drum)| drum);
        let (bought, cut) = of_kind.fold((0, 0), |sum, drum| (sum.0 + drum.0, sum.1 + drum.1));
        assert_eq!(
            [tenths(&row[3]), tenths(&row[4]), tenths(&row[5])],
            [cut, bought - cut, bought],
            "{row:?}"
        );
        compared += 1;
    }
    assert!(compared > 3 && !drums.is_empty());
}

#[test]
fn an_older_pack_is_replaced_and_nothing_of_it_stays() {
    let folder = Folder::with_starter();
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack"]).status, 0);
    let whole = files(&folder.path("pack"));
    let part = folder.run(&["pack", "site.toml", "-o", "pack", "--only", "cables"]);
    assert_eq!(part.status, 0, "{}", part.err);
    let left = files(&folder.path("pack")).len();
    assert!(left < whole.len() / 2);
    // The list is in both, and whatever the part has the whole had too.
    let said = format!(
        "no longer in pack, as this pack does not have what the earlier one had there: {} files",
        whole.len() - left
    );
    assert!(part.out.contains(&said), "{}", part.out);
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack"]).status, 0);
    assert_eq!(files(&folder.path("pack")), whole, "same input, same bytes");
    assert_eq!(names(&folder), ["pack", "site.toml"]);
}

#[test]
fn what_is_no_pack_is_left_alone() {
    let folder = Folder::with_starter();
    std::fs::create_dir(folder.path("mine")).unwrap();
    folder.write("mine/notes.txt", "keep");
    let refused = folder.run(&["pack", "site.toml", "-o", "mine"]);
    assert_eq!(refused.status, 2);
    assert!(refused.err.contains("holds files that are no pack"), "{}", refused.err);
    assert_eq!(folder.read("mine/notes.txt"), "keep");
    // A pack to which somebody has added something.
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack"]).status, 0);
    folder.write("pack/readings.csv", "1,2");
    let refused = folder.run(&["pack", "site.toml", "-o", "pack"]);
    assert_eq!(refused.status, 2);
    assert!(refused.err.contains("readings.csv"), "{}", refused.err);
    assert_eq!(folder.read("pack/readings.csv"), "1,2");
}

/// Where nobody may write: a file where a folder should be, and a file system that takes no folders, which
/// holds for the superuser too.
#[test]
fn a_place_that_cannot_be_written_is_an_error_that_names_it() {
    let folder = Folder::with_starter();
    folder.write("file", "a file");
    for target in ["file", "file/pack", "/proc/pack"] {
        let refused = folder.run(&["pack", "site.toml", "-o", target]);
        assert_eq!(refused.status, 2, "{target}");
        assert!(refused.err.contains(target) && refused.out.is_empty(), "{target}: {}", refused.err);
    }
    assert_eq!(folder.read("file"), "a file");
    assert_eq!(names(&folder), ["file", "site.toml"]);
}

/// A disk that takes no more in the middle of a file: the shell limits the size of files to 8 blocks of 512
/// bytes and has the signal ignored, so that writing fails as on a full disk.
#[test]
fn a_write_that_fails_half_way_leaves_the_older_pack_and_no_half_file() {
    let folder = Folder::with_starter();
    let limited = |target: &str| {
        let line = format!(
            "trap '' XFSZ; ulimit -f 8; exec '{}' pack site.toml -o {target}",
            env!("CARGO_BIN_EXE_latchline")
        );
        Command::new("sh").args(["-c", &line]).current_dir(folder.path(".")).output().unwrap()
    };
    let none = limited("pack");
    assert_eq!(none.status.code(), Some(2), "{}", String::from_utf8_lossy(&none.stderr));
    assert!(String::from_utf8_lossy(&none.stderr).contains("nothing was changed"));
    assert_eq!(names(&folder), ["site.toml"], "no folder, and none beside it");
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack"]).status, 0);
    let before = files(&folder.path("pack"));
    assert_eq!(limited("pack").status.code(), Some(2));
    assert_eq!(files(&folder.path("pack")), before, "the older pack is as it was");
    assert_eq!(names(&folder), ["pack", "site.toml"]);
}

/// What people wrote into a pack stays, whatever is made anew, however often.
#[test]
fn what_people_wrote_into_a_pack_is_kept() {
    let folder = Folder::with_starter();
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack"]).status, 0);
    let live = folder.read("pack/tables/17-live.csv");
    folder.write("pack/tables/17-live.csv", format!("{live}read on site: 47.1\n"));
    folder.write("pack/workbook.xlsx", "saved by a spreadsheet");
    let devices = folder.read("pack/tables/06-devices.csv");
    // The table of devices changes, that of live readings too.
    folder.edit("site.toml", "A-1 = {", "A-01 = {");
    folder.edit("site.toml", "\"A-1\"", "\"A-01\"");
    for round in 0..3 {
        let again = folder.run(&["pack", "site.toml", "-o", "pack"]);
        assert_eq!(again.status, 0, "{}", again.err);
        let said = "kept tables/17-live.csv, which was changed since it was made; the new one is tables/17-live.new.csv";
        assert!(again.out.contains(said), "round {round}: {}", again.out);
        assert!(again.out.contains("the new one is workbook.new.xlsx"), "{}", again.out);
        assert_eq!(folder.read("pack/tables/17-live.csv"), format!("{live}read on site: 47.1\n"));
        assert_eq!(folder.read("pack/workbook.xlsx"), "saved by a spreadsheet");
        assert!(folder.read("pack/tables/17-live.new.csv").contains("A-01"));
        assert_ne!(folder.read("pack/tables/06-devices.csv"), devices, "what nobody changed is replaced");
        assert!(folder.read("pack/contents.txt").contains("kept as it was changed: workbook.xlsx"));
    }
    // A pack of other parts keeps them too.
    let part = folder.run(&["pack", "site.toml", "-o", "pack", "--only", "cables"]);
    assert_eq!(part.status, 0, "{}", part.err);
    assert!(part.out.contains("kept tables/17-live.csv"), "{}", part.out);
    assert!(!folder.path("pack/tables/17-live.new.csv").exists());
    assert_eq!(folder.read("pack/tables/17-live.csv"), format!("{live}read on site: 47.1\n"));
    // Taking the new one over ends it.
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack"]).status, 0);
    for name in ["tables/17-live", "workbook"] {
        let ending = if name == "workbook" { "xlsx" } else { "csv" };
        let new = folder.path(&format!("pack/{name}.new.{ending}"));
        std::fs::rename(new, folder.path(&format!("pack/{name}.{ending}"))).unwrap();
    }
    let last = folder.run(&["pack", "site.toml", "-o", "pack"]);
    assert_eq!(last.status, 0, "{}", last.err);
    assert!(!last.out.contains("kept"), "{}", last.out);
    assert!(!folder.path("pack/tables/17-live.new.csv").exists());
    assert_eq!(names(&folder), ["pack", "site.toml"]);
}

#[test]
fn a_changed_list_of_contents_is_kept_too() {
    let folder = Folder::with_starter();
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack"]).status, 0);
    let list = folder.read("pack/contents.txt");
    folder.write("pack/contents.txt", format!("{list}handed over on Monday\n"));
    let again = folder.run(&["pack", "site.toml", "-o", "pack"]);
    assert_eq!(again.status, 0, "{}", again.err);
    assert!(again.out.contains("kept contents.txt as contents.kept.txt"), "{}", again.out);
    assert!(folder.read("pack/contents.kept.txt").ends_with("handed over on Monday\n"));
    let third = folder.run(&["pack", "site.toml", "-o", "pack"]);
    assert!(third.out.contains("kept contents.kept.txt"), "{}{}", third.out, third.err);
    assert!(folder.read("pack/contents.kept.txt").ends_with("handed over on Monday\n"));
}

#[test]
fn empty_folders_of_others_stay_and_so_do_permissions() {
    let folder = Folder::with_starter();
    std::fs::create_dir_all(folder.path("pack/photos/front")).unwrap();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        std::fs::set_permissions(folder.path("pack"), std::fs::Permissions::from_mode(0o750)).unwrap();
    }
    for _ in 0..2 {
        let ran = folder.run(&["pack", "site.toml", "-o", "pack"]);
        assert_eq!(ran.status, 0, "{}", ran.err);
        assert!(folder.path("pack/photos/front").is_dir());
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let mode = std::fs::metadata(folder.path("pack")).unwrap().permissions().mode();
            assert_eq!(mode & 0o777, 0o750);
        }
    }
}

#[test]
fn a_file_that_is_open_in_a_spreadsheet_is_told() {
    let folder = Folder::with_starter();
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack"]).status, 0);
    folder.write("pack/~$workbook.xlsx", "owner");
    let refused = folder.run(&["pack", "site.toml", "-o", "pack"]);
    assert_eq!(refused.status, 2);
    assert!(refused.err.contains("is open in another program"), "{}", refused.err);
}

/// Two at once: whole packs only, and nothing left beside them.
#[test]
fn packs_made_at_once_end_in_one_whole_pack() {
    let folder = Folder::with_starter();
    let arguments = ["pack", "site.toml", "-o", "pack", "--only", "cables,cut-list"];
    let mut succeeded = 0;
    for _ in 0..6 {
        let children: Vec<_> = (0..3)
            .map(|_| {
                folder
                    .command(&arguments)
                    .stdout(std::process::Stdio::null())
                    .stderr(std::process::Stdio::piped())
                    .spawn()
                    .unwrap()
            })
            .collect();
        for child in children {
            let ended = child.wait_with_output().unwrap();
            let said = String::from_utf8_lossy(&ended.stderr).into_owned();
            match ended.status.code() {
                Some(0) => succeeded += 1,
                Some(2) => {
                    assert!(said.contains("another run") || said.contains("nothing was changed"), "{said}")
                }
                status => panic!("{status:?}: {said}"),
            }
        }
        assert_eq!(folder.run(&arguments).status, 0);
        assert_eq!(names(&folder), ["pack", "site.toml"]);
    }
    assert!(succeeded >= 6, "{succeeded} of 18");
}

/// A lock on two pairs of its cable has four rows in the wiring schedule, two to each terminal of its coil, in four different colours; the terminals say
/// that they take two wires. The bill and the list of cables at doors know one cable.
#[test]
fn a_lock_on_two_pairs_is_wired_on_two_pairs() {
    let folder = Folder::with_starter();
    folder.edit(
        "site.toml",
        "cable = \"flex-0.75\", length = \"6 m\"",
        "cable = \"pair-0.8\", pairs = 2, length = \"6 m\"",
    );
    assert_eq!(folder.run(&["pack", "site.toml", "--for", "installer", "-o", "pack"]).status, 0);
    let table = folder.read("pack/tables/05-wiring.csv");
    let rows: Vec<Vec<&str>> = table
        .lines()
        .filter(|line| line.starts_with("front,") && line.contains("front/lock:coil"))
        .map(|line| line.split(',').collect())
        .collect();
    assert_eq!(rows.len(), 4, "{table}");
    for coil in ["front/lock:coil +", "front/lock:coil −"] {
        let to: Vec<&Vec<&str>> = rows.iter().filter(|row| row.contains(&coil)).collect();
        assert_eq!(to.len(), 2, "{table}");
        // The number of the pair.
        let pairs: Vec<&str> = to.iter().map(|row| row[5]).collect();
        assert_eq!(pairs, ["1", "2"], "{table}");
    }
    // Said once for the two terminals of the coil, and once for those of the station's set to which the lock leads.
    let at_coil = table.lines().filter(|line| line.starts_with("front/lock,coil"));
    let said = at_coil.filter(|line| line.contains("2 wires in this terminal")).count();
    assert_eq!(said, 1, "{table}");
    let mut colours: Vec<&str> = rows.iter().map(|row| row[6]).collect();
    colours.sort_unstable();
    colours.dedup();
    assert_eq!(colours.len(), 4, "{table}");
}
