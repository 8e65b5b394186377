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

#[test]
fn an_older_pack_is_replaced_and_nothing_of_it_stays() {
    let folder = Folder::with_starter();
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack"]).status, 0);
    let whole = files(&folder.path("pack"));
    let part = folder.run(&["pack", "site.toml", "-o", "pack", "--only", "cables"]);
    assert_eq!(part.status, 0, "{}", part.err);
    assert!(files(&folder.path("pack")).len() < whole.len() / 2);
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
