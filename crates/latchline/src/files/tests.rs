//! What is lost, kept or refused, whoever else writes at the same time.

use super::aside::{self, AsideFile, Kind};
use super::{MayReplace, edit, folder, original, read_text, write};
use latchline_handover::PackFile;
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

fn file_in(folder: &Path, name: &str, text: &str) -> PathBuf {
    let path = folder.join(name);
    fs::write(&path, text).unwrap();
    path
}

fn said(result: crate::refusal::Result<()>) -> String {
    format!("{:#}", result.unwrap_err())
}

#[test]
fn an_edit_of_what_somebody_else_changed_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    for (was, theirs) in
        [("a = 1\n", "a = 2\n"), ("a = 1\n", "a = 1\nb = 2\n"), ("a = 1\n", ""), ("", "a = 1\n")]
    {
        let path = file_in(folder.path(), "site.toml", was);
        let original = original(&path, fs::read(&path).unwrap()).unwrap();
        fs::write(&path, theirs).unwrap();
        let refused = said(edit(&path, &original, "a = 3\n"));
        assert!(refused.contains("has changed since it was read"), "{refused}");
        assert_eq!(fs::read_to_string(&path).unwrap(), theirs);
    }
    let path = folder.path().join("site.toml");
    let original = original(&path, fs::read(&path).unwrap()).unwrap();
    fs::remove_file(&path).unwrap();
    assert!(said(edit(&path, &original, "a = 3\n")).contains("no longer there"));
    assert_eq!(names(folder.path()), [""; 0]);
}

#[test]
fn an_edit_keeps_the_byte_order_mark() {
    let folder = tempfile::tempdir().unwrap();
    let path = file_in(folder.path(), "site.toml", "\u{feff}a = 1\r\n");
    let original = original(&path, fs::read(&path).unwrap()).unwrap();
    edit(&path, &original, "a = 2\r\n").unwrap();
    assert_eq!(fs::read_to_string(&path).unwrap(), "\u{feff}a = 2\r\n");
}

#[test]
fn an_edit_waits_for_the_lock_and_then_sees_what_changed() {
    let folder = tempfile::tempdir().unwrap();
    let path = file_in(folder.path(), "site.toml", "a = 1\n");
    let original = original(&path, fs::read(&path).unwrap()).unwrap();
    let lock = aside::locked(&path).unwrap();
    let (there, other) = (path.clone(), original.clone());
    let waiting = std::thread::spawn(move || edit(&there, &other, "a = 2\n"));
    std::thread::sleep(std::time::Duration::from_millis(100));
    assert!(!waiting.is_finished(), "it waits");
    fs::write(&path, "a = 9\n").unwrap();
    drop(lock);
    assert!(said(waiting.join().unwrap()).contains("has changed since it was read"));
    assert_eq!(fs::read_to_string(&path).unwrap(), "a = 9\n");
}

#[test]
fn foreign_files_need_force_and_own_results_do_not() {
    let folder = tempfile::tempdir().unwrap();
    let letter = file_in(folder.path(), "letter.txt", "dear owner\n");
    let refused = said(write(&letter, b"x", MayReplace::OwnResult));
    assert!(refused.contains("--force"), "{refused}");
    assert!(said(write(&letter, b"x", MayReplace::Nothing)).contains("exists already"));
    assert_eq!(fs::read_to_string(&letter).unwrap(), "dear owner\n");
    write(&letter, b"x", MayReplace::Anything).unwrap();
    let json = file_in(folder.path(), "a.json", "{\n  \"latchline_version\": \"0.1.0\"\n}\n");
    write(&json, b"y", MayReplace::OwnResult).unwrap();
    // A package of somebody else's tools, a list that names us, and readings that are nowhere else.
    let others = [
        "{\n  \"name\": \"latchline\",\n  \"version\": \"1.0.0\"\n}\n",
        "{ \"tools\": [{ \"latchline_version\": \"0.1.0\" }] }\n",
        "{ \"format\": \"readings\", \"latchline_version\": \"0.1.0\", \"from\": \"laptop\", \"events\": [] }\n",
        "{ \"latchline_version\": \"0.1.0\", ",
    ];
    for text in others {
        let other = file_in(folder.path(), "other.json", text);
        assert!(said(write(&other, b"y", MayReplace::OwnResult)).contains("--force"), "{text}");
    }
    let readings = file_in(folder.path(), "other.json", others[2]);
    write(&readings, others[2].as_bytes(), MayReplace::OwnReadings).unwrap();
    assert!(said(write(&json, b"x", MayReplace::OwnReadings)).contains("--force"));
    fs::remove_file(readings).unwrap();
    let empty = file_in(folder.path(), "empty", "");
    write(&empty, b"z", MayReplace::OwnResult).unwrap();
    write(&empty, b"again", MayReplace::Written(b"z")).unwrap();
    assert!(said(write(&empty, b"x", MayReplace::Written(b"z"))).contains("changed by somebody else"));
    assert_eq!(names(folder.path()), ["a.json", "empty", "letter.txt"]);
}

#[test]
fn leftovers_of_a_killed_run_go_and_nothing_else_does() {
    let folder = tempfile::tempdir().unwrap();
    let left = aside::fresh_name(Kind::File, OsStr::new(""));
    let foreign = left.replace("-file-", "-file-0");
    file_in(folder.path(), &left, "half");
    file_in(folder.path(), &foreign, "not ours");
    file_in(folder.path(), ".latchline-notes", "not ours");
    let running = AsideFile::new(folder.path()).unwrap();
    write(&folder.path().join("new.txt"), b"x", MayReplace::Nothing).unwrap();
    assert!(running.path.exists(), "another run is at work with it");
    assert!(!folder.path().join(&left).exists(), "nobody is");
    drop(running);
    assert_eq!(names(folder.path()), [foreign.as_str(), ".latchline-notes", "new.txt"]);
}

#[test]
#[cfg(unix)]
fn names_links_and_permissions_stay() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let long = file_in(folder.path(), &format!("{}.toml", "n".repeat(235)), "a = 1\n");
    fs::set_permissions(&long, fs::Permissions::from_mode(0o640)).unwrap();
    // Only the superuser can give files away; for others the owner is their own before and after.
    let _ = std::os::unix::fs::chown(&long, Some(1234), Some(4321));
    let before = fs::metadata(&long).unwrap();
    let link = folder.path().join("link.toml");
    symlink(&long, &link).unwrap();
    let original = original(&link, fs::read(&link).unwrap()).unwrap();
    edit(&link, &original, "a = 2\n").unwrap();
    assert!(link.symlink_metadata().unwrap().is_symlink());
    let after = fs::metadata(&long).unwrap();
    assert_eq!(fs::read_to_string(&long).unwrap(), "a = 2\n");
    assert_eq!((after.mode(), after.uid(), after.gid()), (before.mode(), before.uid(), before.gid()));
    let dangling = folder.path().join("dangling.toml");
    symlink("nowhere.toml", &dangling).unwrap();
    let refused = said(write(&dangling, b"x", MayReplace::Anything));
    assert!(refused.contains("a link to \"nowhere.toml\", which is not there"), "{refused}");
    assert!(!folder.path().join("nowhere.toml").exists());
    let unread = format!("{:#}", read_text(&dangling, &mut std::io::empty()).unwrap_err());
    assert!(unread.contains("a link to \"nowhere.toml\", which is not there"), "{unread}");
}

/// A pack of one table, of a site whose name is not told.
fn pack(text: &str) -> Vec<PackFile> {
    pack_of("", text)
}

fn pack_of(site: &str, text: &str) -> Vec<PackFile> {
    let site = if site.is_empty() { String::new() } else { format!("site: {site}") };
    let file = PackFile { name: String::from("tables/a.csv"), bytes: text.as_bytes().to_vec() };
    let hash = latchline_handover::stamp::sha256(&file.bytes);
    let list = format!("{}\n{site}\n{hash}  tables/a.csv\n", latchline_pack::CONTENTS_MARK);
    vec![file, PackFile { name: String::from("contents.txt"), bytes: list.into_bytes() }]
}

/// Killed between its two renames: the earlier pack is aside, the new one not yet in its place.
#[test]
fn an_interrupted_pack_is_put_right_by_the_next_run() {
    let parent = tempfile::tempdir().unwrap();
    let target = parent.path().join("pack");
    folder::replace(&target, &pack("1\n")).unwrap();
    fs::write(target.join("tables/a.csv"), "read on site: 47.1\n").unwrap();
    let name = OsStr::new("pack");
    fs::rename(&target, parent.path().join(aside::fresh_name(Kind::OldFolder, name))).unwrap();
    fs::create_dir(parent.path().join(aside::fresh_name(Kind::NewFolder, name))).unwrap();
    // What belongs to a pack of another name stays.
    let other = parent.path().join(aside::fresh_name(Kind::NewFolder, OsStr::new("other")));
    fs::create_dir(&other).unwrap();
    folder::prepare(&target).unwrap();
    assert_eq!(fs::read_to_string(target.join("tables/a.csv")).unwrap(), "read on site: 47.1\n");
    let kept = folder::replace(&target, &pack("2\n")).unwrap().kept;
    assert_eq!(kept.len(), 2, "the table, and this list, which is not closed by its own hash: {kept:?}");
    assert_eq!(fs::read_to_string(target.join("tables/a.csv")).unwrap(), "read on site: 47.1\n");
    assert_eq!(fs::read_to_string(target.join("tables/a.new.csv")).unwrap(), "2\n");
    fs::remove_dir(other).unwrap();
    assert_eq!(names(parent.path()), ["pack"]);
}

/// The readings of one building never come to lie among the tables of another.
#[test]
fn the_pack_of_another_site_is_not_replaced() {
    let parent = tempfile::tempdir().unwrap();
    let target = parent.path().join("pack");
    folder::replace(&target, &pack_of("Elm House", "1\n")).unwrap();
    fs::write(target.join("tables/a.csv"), "read on site: 47.1\n").unwrap();
    let refused = said(folder::replace(&target, &pack_of("Oak House", "2\n")).map(|_| ()));
    assert!(refused.contains("holds the pack of another site, \"Elm House\""), "{refused}");
    assert_eq!(names(parent.path()), ["pack"]);
    assert_eq!(fs::read_to_string(target.join("tables/a.csv")).unwrap(), "read on site: 47.1\n");
    folder::replace(&target, &pack_of("Elm House", "2\n")).unwrap();
    assert!(target.join("tables/a.new.csv").exists());
}
