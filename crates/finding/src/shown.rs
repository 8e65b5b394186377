//! Text from outside as it may be shown: nothing in it drives a terminal, and nothing in it hides.
//!
//! Names, arguments, paths and cells may hold signs that a terminal obeys (C0 and C1 controls), that turn the
//! order of what follows (bidirectional controls), or that nobody sees (zero-width and other ignorable signs).
//! Each is shown by its number, as `<U+200B>`.

use std::borrow::Cow;
use std::fmt::Write as _;
use std::path::Path;

/// Most signs of a name that are shown; a name of a site file may not be longer.
pub const MOST_OF_A_NAME: usize = 120;
/// Most signs of a path that are shown.
pub const MOST_OF_A_PATH: usize = 240;
/// Most signs of a sentence that are shown.
pub const MOST_OF_PROSE: usize = 2_000;

/// Signs that are ignored when shown: Default_Ignorable_Code_Point of the Unicode Character Database
/// (DerivedCoreProperties.txt, 16.0), and the interlinear annotations and separators of lines and paragraphs.
const IGNORABLE: &[(char, char)] = &[
    ('\u{ad}', '\u{ad}'),
    ('\u{34f}', '\u{34f}'),
    ('\u{61c}', '\u{61c}'),
    ('\u{115f}', '\u{1160}'),
    ('\u{17b4}', '\u{17b5}'),
    ('\u{180b}', '\u{180f}'),
    ('\u{200b}', '\u{200f}'),
    ('\u{2028}', '\u{202e}'),
    ('\u{2060}', '\u{206f}'),
    ('\u{3164}', '\u{3164}'),
    ('\u{fe00}', '\u{fe0f}'),
    ('\u{feff}', '\u{feff}'),
    ('\u{ffa0}', '\u{ffa0}'),
    ('\u{fff0}', '\u{fffb}'),
    ('\u{1bca0}', '\u{1bca3}'),
    ('\u{1d173}', '\u{1d17a}'),
    ('\u{e0000}', '\u{e0fff}'),
];

/// Whether a sign is a control or cannot be seen.
pub fn is_hidden(sign: char) -> bool {
    sign.is_control()
        || (sign >= '\u{ad}' && IGNORABLE.iter().any(|(from, to)| (*from..=*to).contains(&sign)))
}

/// A name or an argument: hidden signs by their numbers, and the middle left out where it is long.
pub fn name(text: &str) -> Cow<'_, str> {
    shortened(text, MOST_OF_A_NAME)
}

/// The name of a file: hidden signs by their numbers, and the middle left out where it is long.
pub fn path(path: &Path) -> String {
    shortened(&path.to_string_lossy(), MOST_OF_A_PATH).into_owned()
}

/// A sentence or more: breaks become spaces, other hidden signs are shown by their numbers.
pub fn prose(text: &str) -> Cow<'_, str> {
    if text.contains(['\n', '\r', '\t']) {
        let text: String =
            text.chars().map(|sign| if matches!(sign, '\n' | '\r' | '\t') { ' ' } else { sign }).collect();
        return Cow::Owned(shortened(&text, MOST_OF_PROSE).into_owned());
    }
    shortened(text, MOST_OF_PROSE)
}

/// A whole text, however long: hidden signs by their numbers but for `kept`.
pub fn whole<'t>(text: &'t str, kept: &[char]) -> Cow<'t, str> {
    let hidden = |sign: char| is_hidden(sign) && !kept.contains(&sign);
    if !text.contains(hidden) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len() + 16);
    for sign in text.chars() {
        if hidden(sign) {
            let _ = write!(shown, "<U+{:04X}>", u32::from(sign));
        } else {
            shown.push(sign);
        }
    }
    Cow::Owned(shown)
}

/// A JSON document whose strings have their hidden signs escaped; it means the same.
pub fn json(document: &str) -> Cow<'_, str> {
    // Outside strings stand plain signs and line breaks only.
    let hidden = |sign: char| is_hidden(sign) && sign != '\n';
    if !document.contains(hidden) {
        return Cow::Borrowed(document);
    }
    let mut shown = String::with_capacity(document.len() + 16);
    for sign in document.chars() {
        if hidden(sign) {
            for unit in sign.encode_utf16(&mut [0; 2]) {
                let _ = write!(shown, "\\u{unit:04x}");
            }
        } else {
            shown.push(sign);
        }
    }
    Cow::Owned(shown)
}

/// A word of a command as it can be pasted into a shell of POSIX.1-2017 (2.2.2, single quotes), whole, hidden signs by their numbers.
pub fn for_shell(word: &str) -> String {
    let shown = whole(word, &[]);
    let is_plain = |sign: char| sign.is_alphanumeric() || "/._-=@:+,%".contains(sign);
    match !shown.is_empty() && shown.chars().all(is_plain) {
        true => shown.into_owned(),
        false => format!("'{}'", shown.replace('\'', "'\\''")),
    }
}

fn shortened(text: &str, most: usize) -> Cow<'_, str> {
    // As many bytes as signs at least.
    if text.len() <= most || text.chars().nth(most).is_none() {
        return whole(text, &[]);
    }
    let after = most / 3;
    let before = most - after - 1;
    let end = text.char_indices().nth(before).map_or(text.len(), |(at, _)| at);
    let start = text.char_indices().rev().nth(after - 1).map_or(0, |(at, _)| at);
    Cow::Owned(format!("{}…{}", whole(&text[..end], &[]), whole(&text[start..], &[])))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_shell_would_split_or_obey_is_quoted() {
        assert_eq!(for_shell("A-12@ringing:A-13=33V"), "A-12@ringing:A-13=33V");
        assert_eq!(for_shell("A-12=47mV!"), "'A-12=47mV!'");
        assert_eq!(for_shell("found=A-1 A-2"), "'found=A-1 A-2'");
        assert_eq!(for_shell("it's <here>"), "'it'\\''s <here>'");
        assert_eq!(for_shell("a\u{200b}b"), "'a<U+200B>b'");
        assert_eq!(for_shell(""), "''");
    }

    #[test]
    fn what_drives_a_terminal_or_hides_is_shown_by_its_number() {
        assert_eq!(name("A-1"), "A-1");
        assert_eq!(name("a\u{1b}[31mb"), "a<U+001B>[31mb");
        assert_eq!(name("\u{9b}2J"), "<U+009B>2J");
        assert_eq!(name("A\u{200b}-1\u{202e}"), "A<U+200B>-1<U+202E>");
        assert_eq!(name("\u{e0041}"), "<U+E0041>");
        assert_eq!(name("Straße 4, Ω, 東, שלום"), "Straße 4, Ω, 東, שלום");
        assert_eq!(prose("one\ntwo\u{7}"), "one two<U+0007>");
        assert_eq!(whole("a\tb\n", &['\t', '\n']), "a\tb\n");
    }

    #[test]
    fn long_names_lose_their_middle_and_keep_both_ends() {
        let long = format!("{}{}{}", "a".repeat(79), "ä".repeat(5_000), "z".repeat(40));
        let shown = name(&long);
        assert_eq!(shown.chars().count(), MOST_OF_A_NAME);
        assert_eq!(shown, format!("{}…{}", "a".repeat(79), "z".repeat(40)));
        let fits = "ä".repeat(MOST_OF_A_NAME);
        assert_eq!(name(&fits), fits);
        assert!(path(Path::new(&long)).chars().count() <= MOST_OF_A_PATH);
        assert!(prose(&long.repeat(9)).chars().count() <= MOST_OF_PROSE);
    }

    #[test]
    fn json_means_the_same_after_it() {
        let document = "{\n  \"a\": \"x\u{9b}\u{200b}\u{e0041}\u{202e}\u{7f}y\"\n}\n";
        let shown = json(document);
        assert!(!shown.contains(|sign: char| is_hidden(sign) && sign != '\n'), "{shown}");
        assert_eq!(shown, "{\n  \"a\": \"x\\u009b\\u200b\\udb40\\udc41\\u202e\\u007fy\"\n}\n");
    }
}
