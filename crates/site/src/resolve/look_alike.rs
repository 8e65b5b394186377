//! Names that can be taken for another name, or whose signs cannot all be seen.

use latchline_finding::shown::is_hidden;
use std::collections::{BTreeMap, BTreeSet};

/// Signs of other scripts and what they look like, both in the same order: a part of the table confusables.txt of
/// Unicode Technical Standard 39, from memory. Cyrillic, Greek, dashes, spaces.
const LOOK_ALIKE: &[(&str, &str)] = &[
    ("АВЕЅІЈКМНОРСТХУаеѕіјорсухԁһԛԝӏ", "ABESIJKMHOPCTXYaesijopcyxdhqwl"),
    ("ΑΒΕΖΗΙΚΜΝΟΡΤΥΧονιρ", "ABEZHIKMNOPTYXovip"),
    ("\u{2010}\u{2011}\u{2012}\u{2013}\u{2212}", "-----"),
    ("\u{a0}\u{2002}\u{2003}\u{2009}\u{202f}\u{3000}", "      "),
];

/// What a sign looks like, if that is another one.
fn looks_like(sign: char) -> Option<char> {
    if sign.is_ascii() {
        return None;
    }
    // Wide forms of ASCII stand in its order.
    if ('\u{ff01}'..='\u{ff5e}').contains(&sign) {
        return char::from_u32(u32::from(sign) - 0xfee0);
    }
    // They all look like signs of ASCII, so none is one.
    if sign.is_ascii() {
        return None;
    }
    LOOK_ALIKE.iter().find_map(|(signs, like)| {
        signs.chars().position(|one| one == sign).and_then(|at| like.chars().nth(at))
    })
}

/// A name that can be taken for another, or whose signs are not what they seem.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LookAlike<'n> {
    /// The name.
    pub name: &'n str,
    /// The signs that are not what they seem, as "U+0410".
    pub signs: Vec<String>,
    /// One of the names that it looks like.
    pub other: Option<&'n str>,
}

/// Of names of one kind those that can be taken for others, which compare as different all the same, in the order of their looks.
pub fn look_alikes<'n>(names: impl IntoIterator<Item = &'n str>) -> Vec<LookAlike<'n>> {
    let names: BTreeSet<&str> = names.into_iter().collect();
    // Of printable ASCII every sign is what it seems.
    let is_plain = |name: &&str| name.bytes().all(|byte| byte.is_ascii_graphic() || byte == b' ');
    if names.iter().all(is_plain) {
        return Vec::new();
    }
    let mut by_appearance: BTreeMap<String, Vec<&'n str>> = BTreeMap::new();
    for name in names {
        by_appearance.entry(appearance(name)).or_default().push(name);
    }
    let mut found = Vec::new();
    for names in by_appearance.values() {
        for name in names {
            let other = names.iter().find(|other| *other != name).copied();
            let signs = deceptive(name, other.is_some());
            if !signs.is_empty() {
                let signs = signs.iter().map(|sign| format!("U+{:04X}", u32::from(*sign))).collect();
                found.push(LookAlike { name, signs, other });
            }
        }
    }
    found
}

/// A name as it looks: without what cannot be seen, every sign by what it looks like.
fn appearance(name: &str) -> String {
    name.chars().filter(|sign| !is_hidden(*sign)).map(|sign| looks_like(sign).unwrap_or(sign)).collect()
}

/// The signs of a name that are not what they seem: hidden ones, and those that look like Latin letters in a word with Latin
/// letters, or in a word of nothing else beside one with Latin letters ("front-А"); with `all`, whatever looks like another sign.
fn deceptive(name: &str, all: bool) -> Vec<char> {
    let is_latin = |sign: char| matches!(sign, 'A'..='Z' | 'a'..='z' | 'À'..='ɏ');
    let name_is_latin = name.chars().any(is_latin);
    let mut found = Vec::new();
    for word in name.split_inclusive(|sign: char| !sign.is_alphanumeric() && !is_hidden(sign)) {
        let mut letters = word.chars().filter(|sign| sign.is_alphabetic());
        let is_latin =
            word.chars().any(is_latin) || name_is_latin && letters.all(|sign| looks_like(sign).is_some());
        let deceives = |sign: &char| {
            is_hidden(*sign) || (looks_like(*sign).is_some() && (all || (is_latin && sign.is_alphabetic())))
        };
        found.extend(word.chars().filter(deceives));
    }
    found.sort_unstable();
    found.dedup();
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sign_has_what_it_looks_like() {
        for (signs, like) in LOOK_ALIKE {
            assert_eq!(signs.chars().count(), like.chars().count(), "{signs}");
            assert!(like.is_ascii() && !signs.chars().any(|sign| sign.is_ascii()), "{signs}");
        }
    }

    #[test]
    fn names_of_one_script_are_not_deceptive() {
        for name in ["A-1", "Straße 4/Ω", "кв. 12", "Αθήνα 3", "東-2", "10kΩ"] {
            assert_eq!(deceptive(name, false), [], "{name}");
        }
        assert_eq!(deceptive("A\u{200b}-1", false), ['\u{200b}']);
        assert_eq!(deceptive("Flаt 1", false), ['а'], "a Cyrillic letter in a Latin word");
        assert_eq!(deceptive("А-1", false), []);
        assert_eq!(deceptive("front-А", false), ['А'], "a Cyrillic letter alone beside a Latin word");
        assert_eq!(deceptive("Haus Б", false), [], "no Latin letter looks like that");
        assert_eq!(deceptive("А-1", true), ['А']);
        assert_eq!(appearance("А\u{2011}\u{2060}１"), "A-1");
    }
}
