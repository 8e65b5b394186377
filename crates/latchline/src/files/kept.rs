//! What of an earlier pack people have changed, and under which name it stays.

use latchline_handover::PackFile;
use latchline_handover::stamp::sha256;
use latchline_pack::CONTENTS_NAME;
use latchline_pack::contents::{Contents, Kept};
use std::collections::BTreeMap;

/// The changed files of an earlier pack, given the hashes of what is in its folder now. What nobody changed,
/// and what was changed into the very file that is made anew, needs no keeping.
pub fn kept(earlier: &Contents, found: &BTreeMap<String, String>, new: &[PackFile]) -> Vec<Kept> {
    let made_anew: BTreeMap<&str, String> =
        new.iter().map(|file| (file.name.as_str(), sha256(&file.bytes))).collect();
    let mut taken: Vec<String> = new.iter().map(|file| file.name.clone()).collect();
    let changed: Vec<(&String, &String, &String)> = found
        .iter()
        .filter_map(|(name, hash)| Some((name, hash, earlier.made.get(name)?)))
        .filter(|(_, hash, _)| !earlier.is_made(hash))
        .collect();
    taken.extend(changed.iter().map(|(name, ..)| (*name).clone()));
    let mut kept = Vec::new();
    for (name, hash, made) in changed {
        let anew = made_anew.get(name.as_str());
        if anew == Some(hash) {
            continue;
        }
        // What would be made anew is what was made before: the changed file has all of it.
        let beside = anew.filter(|anew| *anew != made).map(|_| free_name(name, "new", &mut taken));
        kept.push(Kept { name: name.clone(), stays_as: name.clone(), beside, made_sha256: made.clone() });
    }
    if !earlier.is_as_made && found.contains_key(CONTENTS_NAME) {
        kept.push(Kept {
            name: String::from(CONTENTS_NAME),
            stays_as: free_name(CONTENTS_NAME, "kept", &mut taken),
            beside: None,
            made_sha256: sha256(b""),
        });
    }
    kept
}

/// `a/b.csv` as `a/b.new.csv`, or with a number if that is taken.
fn free_name(name: &str, word: &str, taken: &mut Vec<String>) -> String {
    let file = name.rfind('/').map_or(0, |slash| slash + 1);
    let dot = name[file..].rfind('.').map_or(name.len(), |dot| file + dot);
    let (stem, ending) = name.split_at(dot);
    let numbered = (2..).map(|number| format!("{stem}.{word}-{number}{ending}"));
    let free = std::iter::once(format!("{stem}.{word}{ending}"))
        .chain(numbered)
        .find(|candidate| !taken.contains(candidate))
        .unwrap_or_default();
    taken.push(free.clone());
    free
}

#[cfg(test)]
mod tests {
    use super::*;

    fn contents(files: &[(&str, &str)]) -> Contents {
        let made = files.iter().map(|(name, text)| ((*name).to_string(), sha256(text.as_bytes())));
        Contents { site: None, made: made.collect(), is_as_made: true }
    }

    fn found(files: &[(&str, &str)]) -> BTreeMap<String, String> {
        contents(files).made
    }

    fn new(files: &[(&str, &str)]) -> Vec<PackFile> {
        let file = |(name, text): &(&str, &str)| PackFile {
            name: (*name).to_string(),
            bytes: text.as_bytes().to_vec(),
        };
        files.iter().map(file).collect()
    }

    #[test]
    fn only_what_people_changed_is_kept() {
        let earlier = contents(&[("t/a.csv", "1"), ("t/b.csv", "1"), ("c", "1"), ("d.svg", "1")]);
        let now = found(&[("t/a.csv", "mine"), ("t/b.csv", "1"), ("c", "mine"), ("d.svg", "2")]);
        let kept = kept(&earlier, &now, &new(&[("t/a.csv", "2"), ("t/b.csv", "2"), ("d.svg", "2")]));
        let names: Vec<(&str, Option<&str>)> =
            kept.iter().map(|one| (one.stays_as.as_str(), one.beside.as_deref())).collect();
        // b was not changed, d became what it would become.
        assert_eq!(names, [("c", None), ("t/a.csv", Some("t/a.new.csv"))]);
    }

    #[test]
    fn a_changed_file_whose_table_stays_the_same_needs_nothing_beside_it() {
        let kept = kept(&contents(&[("a.csv", "1")]), &found(&[("a.csv", "mine")]), &new(&[("a.csv", "1")]));
        assert_eq!(kept.len(), 1);
        assert_eq!(kept[0].beside, None);
    }

    #[test]
    fn names_beside_are_free() {
        let earlier = contents(&[("a.csv", "1"), ("a.new.csv", "1")]);
        let now = found(&[("a.csv", "mine"), ("a.new.csv", "mine too")]);
        let kept = kept(&earlier, &now, &new(&[("a.csv", "2")]));
        assert_eq!(kept[0].beside.as_deref(), Some("a.new-2.csv"));
        assert_eq!((kept[1].stays_as.as_str(), &kept[1].beside), ("a.new.csv", &None));
        let mut list = contents(&[]);
        list.is_as_made = false;
        let kept = super::kept(&list, &found(&[("contents.txt", "x")]), &[]);
        assert_eq!(kept[0].stays_as, "contents.kept.txt");
    }
}
