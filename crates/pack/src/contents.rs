//! The list of a pack's files: what it is, whether it is whole, and what people have changed in it since.

use latchline_handover::PackFile;
use latchline_handover::stamp::sha256;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Name of the file that lists the others; a folder with it was made from a [`Pack`](crate::Pack).
pub const CONTENTS_NAME: &str = "contents.txt";
/// First line of that file.
pub const CONTENTS_MARK: &str = "latchline pack, format 1";

/// What stands before the name of the site, in the second line.
const SITE: &str = "site: ";
/// What stands before the hash of all lines above, in the last one.
const CLOSING: &str = "SHA-256: ";

/// A list as it was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contents {
    /// Name of the site that the pack is of; lists of format 1 before this line came have none.
    pub site: Option<String>,
    /// Hash of every file as it was made, by name.
    pub made: BTreeMap<String, String>,
    /// Whether the list itself is as it was made.
    pub is_as_made: bool,
}

/// A file of an earlier pack that people have changed, and that stays.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept {
    /// Its name in the earlier pack.
    pub name: String,
    /// Its name in the new pack.
    pub stays_as: String,
    /// Name of the new file that goes beside it, if there is one.
    pub beside: Option<String>,
    /// Hash of the file as it was made.
    pub made_sha256: String,
}

impl Contents {
    /// Reads a list; `None` if the text is none.
    pub fn read(text: &str) -> Option<Contents> {
        if text.lines().next() != Some(CONTENTS_MARK) {
            return None;
        }
        let site = text.lines().nth(1).and_then(|line| line.strip_prefix(SITE)).map(str::to_string);
        let made =
            text.lines().filter_map(entry).map(|(hash, name)| (name.to_string(), hash.to_string())).collect();
        let is_as_made = text.rfind(CLOSING).is_some_and(|at| text == closed(text[..at].to_string()));
        Some(Contents { site, made, is_as_made })
    }

    /// Whether a file with this hash was made, under whatever name.
    pub fn is_made(&self, hash: &str) -> bool {
        self.made.values().any(|made| made == hash)
    }
}

/// The list of these files of a site below its head, closed by its own hash.
pub(crate) fn list(site: &str, head: &str, files: &[PackFile]) -> PackFile {
    let site = latchline_finding::shown::name(site);
    let mut text = format!("{CONTENTS_MARK}\n{SITE}{site}\n{head}\n");
    for file in files {
        text.push_str(&line(&sha256(&file.bytes), &file.name));
    }
    PackFile { name: String::from(CONTENTS_NAME), bytes: closed(text).into_bytes() }
}

/// A list with what was kept of an earlier pack.
pub fn with_kept(list: &str, kept: &[Kept]) -> String {
    if kept.is_empty() {
        return list.to_string();
    }
    let made = Contents::read(list).map(|contents| contents.made).unwrap_or_default();
    let stays = |name: &str| kept.iter().find(|one| one.stays_as == name);
    let mut text = String::new();
    for row in list[..list.rfind(CLOSING).unwrap_or(list.len())].lines() {
        // A changed file is held against what it was made from; the new file goes beside it.
        match entry(row).and_then(|(hash, name)| Some((hash, stays(name)?))) {
            Some((hash, one)) => {
                text.push_str(&line(&one.made_sha256, &one.stays_as));
                text.extend(one.beside.iter().map(|beside| line(hash, beside)));
            }
            None => text = text + row + "\n",
        }
    }
    for one in kept.iter().filter(|one| !made.contains_key(&one.stays_as)) {
        text.push_str(&line(&one.made_sha256, &one.stays_as));
    }
    text.push('\n');
    for one in kept {
        let _ = writeln!(text, "kept as it was changed: {}", one.stays_as);
    }
    closed(text)
}

fn closed(mut text: String) -> String {
    let _ = writeln!(text, "{CLOSING}{}", sha256(text.as_bytes()));
    text
}

fn line(hash: &str, name: &str) -> String {
    format!("{hash}  {name}\n")
}

/// Hash and name of a line that has them.
fn entry(line: &str) -> Option<(&str, &str)> {
    let (hash, name) = line.split_once("  ")?;
    let is_hash = hash.len() == 64 && hash.bytes().all(|byte| byte.is_ascii_hexdigit());
    is_hash.then_some((hash, name))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(name: &str) -> PackFile {
        PackFile { name: name.to_string(), bytes: name.as_bytes().to_vec() }
    }

    #[test]
    fn a_list_reads_back_and_knows_when_it_was_changed() {
        let made =
            String::from_utf8(list("Yard", "revision 1\n", &[file("a.csv"), file("b/c.svg")]).bytes).unwrap();
        let read = Contents::read(&made).unwrap();
        assert!(read.is_as_made);
        assert_eq!(read.site.as_deref(), Some("Yard"));
        assert_eq!(read.made.get("b/c.svg"), Some(&sha256(b"b/c.svg")));
        assert_eq!(read.made.len(), 2);
        assert!(!Contents::read(&made.replace("revision 1", "revision 2")).unwrap().is_as_made);
        assert!(!Contents::read(&format!("{made}note\n")).unwrap().is_as_made);
        assert_eq!(Contents::read("my notes\n"), None);
    }

    #[test]
    fn what_is_kept_is_listed_with_the_hash_of_what_was_made() {
        let made = String::from_utf8(list("Yard", "revision 1\n", &[file("a.csv")]).bytes).unwrap();
        let one = |name: &str, beside: Option<&str>| Kept {
            name: name.to_string(),
            stays_as: name.to_string(),
            beside: beside.map(str::to_string),
            made_sha256: "0".repeat(64),
        };
        let text = with_kept(&made, &[one("a.csv", Some("a.new.csv")), one("old.csv", None)]);
        let read = Contents::read(&text).unwrap();
        assert!(read.is_as_made, "{text}");
        assert_eq!(read.made["a.csv"], "0".repeat(64));
        assert_eq!(read.made["a.new.csv"], sha256(b"a.csv"));
        assert_eq!(read.made["old.csv"], "0".repeat(64));
        assert!(text.contains("kept as it was changed: a.csv\n"));
    }
}
