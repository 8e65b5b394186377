//! The list of devices that the system found after power-up, as pasted text.

use super::DeviceClass;

/// Longest list that is read, in lines.
const MOST_LINES: usize = 20_000;
/// Most numbers in one line.
const MOST_NUMBERS: usize = 16;

/// Words for the classes of devices, as lists write them.
const CLASS_WORDS: &[(&str, DeviceClass)] = &[
    ("indoor", DeviceClass::Indoor),
    ("dwelling", DeviceClass::Indoor),
    ("flat", DeviceClass::Indoor),
    ("apartment", DeviceClass::Indoor),
    ("monitor", DeviceClass::Indoor),
    ("receiver", DeviceClass::Indoor),
    ("door", DeviceClass::Door),
    ("entrance", DeviceClass::Door),
    ("outdoor", DeviceClass::Door),
    ("panel", DeviceClass::Door),
    ("management", DeviceClass::Management),
    ("concierge", DeviceClass::Management),
    ("porter", DeviceClass::Management),
    ("desk", DeviceClass::Management),
    ("guard", DeviceClass::Management),
];

/// The words by which lists name the classes of devices, in lower case and without a plural s.
pub fn class_words() -> impl Iterator<Item = (&'static str, DeviceClass)> {
    CLASS_WORDS.iter().copied()
}

/// One device of the list.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct FoundDevice {
    /// Its class.
    pub class: DeviceClass,
    /// The numbers of its address, in the order of the scheme.
    pub numbers: Vec<u32>,
    /// Line of the list, from 1.
    pub line: usize,
}

/// A list as far as it could be read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FoundList {
    /// The devices.
    pub devices: Vec<FoundDevice>,
    /// Lines that hold text but no device.
    pub unread: Vec<UnreadLine>,
}

/// A line of which no device was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnreadLine {
    /// Line of the list, from 1.
    pub line: usize,
    /// Why.
    pub reason: Unread,
}

/// Why no device is read of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unread {
    /// It has no word for a class.
    WithoutClass,
    /// It has no number.
    WithoutNumber,
    /// A quote is opened and not closed, so that it is not sure what belongs together.
    OpenQuote {
        /// Where it stands in the line, from 1.
        column: usize,
    },
    /// This looks like a number, but is not one that an address can have, or there are too many.
    NoAddress(String),
}

/// Reads a list, one device a line: a word for its class, then its numbers, with anything between
/// them ("indoor 0/12/1", "Flat: 12, set 1", "door;1;0"). Numbers may be hexadecimal with `0x`. Behind an address whose numbers are
/// joined by strokes a version such as `2.1` is passed over.
/// Empty lines and lines that begin with `#` are passed over.
pub fn read_found_list(text: &str) -> FoundList {
    let mut list = FoundList::default();
    for (index, line) in text.lines().take(MOST_LINES).enumerate() {
        let written = line;
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        if let Some(column) = open_quote(written) {
            list.unread.push(UnreadLine { line: index + 1, reason: Unread::OpenQuote { column } });
            continue;
        }
        let class = class_in(line);
        let numbers = numbers_in(line);
        let reason = match (class, numbers) {
            (_, Err(text)) => Unread::NoAddress(text),
            (_, Ok(numbers)) if numbers.is_empty() => Unread::WithoutNumber,
            (None, _) => Unread::WithoutClass,
            (Some(class), Ok(numbers)) => {
                list.devices.push(FoundDevice { class, numbers, line: index + 1 });
                continue;
            }
        };
        list.unread.push(UnreadLine { line: index + 1, reason });
    }
    list
}

/// Where a quote stands that is not closed, counted in signs from 1.
fn open_quote(line: &str) -> Option<usize> {
    let quotes: Vec<usize> =
        line.chars().enumerate().filter(|(_, sign)| *sign == '"').map(|(at, _)| at).collect();
    (quotes.len() % 2 == 1).then(|| quotes.last().map_or(0, |at| at + 1))
}

/// The first class word of the line.
fn class_in(line: &str) -> Option<DeviceClass> {
    line.split(|character: char| !character.is_alphabetic()).find_map(|word| {
        let word = word.to_lowercase();
        let singular = word.strip_suffix('s').unwrap_or(&word);
        CLASS_WORDS.iter().find(|(known, _)| *known == singular).map(|(_, class)| *class)
    })
}

/// The numbers of the line; an error with the text if something in it looks like a number but is not one that an address
/// can have ("A-4", "-2", a number beyond 32 bits), so that no device is read that was not found.
fn numbers_in(line: &str) -> Result<Vec<u32>, String> {
    let mut numbers = Vec::new();
    let is_joined = line.split_whitespace().any(|word| {
        let parts: Vec<&str> = word.trim_end_matches([',', ';', ':']).split('/').collect();
        parts.len() > 1 && parts.iter().all(|part| is_digits(part))
    });
    // A letter among the numbers of "0/a/1" is a slip: without it another device would be read.
    let has_letter = |word: &&str| {
        let mut parts = word.trim_end_matches([',', ';', ':']).split('/').skip_while(|part| !is_digits(part));
        parts.any(|part| part.len() == 1 && part.chars().all(char::is_alphabetic))
    };
    if let Some(word) = line.split_whitespace().find(has_letter) {
        return Err(word.chars().take(40).collect());
    }
    let separator = |character: char| character.is_whitespace() || "/;,:|()[]".contains(character);
    for chunk in line.split(separator) {
        let chunk = chunk.trim_matches(['.', '#', '"', '\'']);
        if !chunk.contains(|character: char| character.is_ascii_digit()) {
            continue;
        }
        if is_joined && !numbers.is_empty() && is_version(chunk) {
            continue;
        }
        // 0-12-1 is an address, A-4 and -2 are not.
        for word in chunk.split('-') {
            let number = match word.strip_prefix("0x").or_else(|| word.strip_prefix("0X")) {
                Some(hexadecimal) => u32::from_str_radix(hexadecimal, 16).ok(),
                None if is_digits(word) => word.parse().ok(),
                None => None,
            };
            numbers.push(number.ok_or_else(|| chunk.to_string())?);
        }
    }
    if numbers.len() <= MOST_NUMBERS { Ok(numbers) } else { Err(line.chars().take(40).collect()) }
}

fn is_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

/// "2.1", "v1.10.3": numbers with points between them.
fn is_version(text: &str) -> bool {
    let parts: Vec<&str> = text.strip_prefix(['v', 'V']).unwrap_or(text).split('.').collect();
    parts.len() > 1 && parts.iter().all(|part| is_digits(part))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn lists_of_several_shapes_are_read() {
        let list = read_found_list(
            "# after power-up\n\nindoor 0/12/1\nFlats: 12, set 1\nDOOR;1;0\n  management station no. 0x0F\nindoor\nhello 7\n",
        );
        let read: Vec<_> =
            list.devices.iter().map(|found| (found.class, found.numbers.clone(), found.line)).collect();
        assert_eq!(
            read,
            [
                (DeviceClass::Indoor, vec![0, 12, 1], 3),
                (DeviceClass::Indoor, vec![12, 1], 4),
                (DeviceClass::Door, vec![1, 0], 5),
                (DeviceClass::Management, vec![15], 6),
            ]
        );
        let unread = list.unread.iter().map(|one| (one.line, one.reason.clone())).collect::<Vec<_>>();
        assert_eq!(unread, [(7, Unread::WithoutNumber), (8, Unread::WithoutClass)]);
    }

    #[test]
    fn what_is_not_clearly_an_address_is_left_unread() {
        let open = read_found_list("\"indoor\" 0/1/1\n indoor \"0/12/1\nindoor 0/2/1\n");
        assert_eq!(open.devices.len(), 2);
        assert_eq!(open.unread, [UnreadLine { line: 2, reason: Unread::OpenQuote { column: 9 } }]);
        let list = read_found_list(
            "indoor 0/99999999999999999999/1/1\nindoor 0/-2/1\nindoor 0/4/1 A-4\nindoor A-4\nindoor 0-4-1\n",
        );
        assert_eq!(list.unread.iter().map(|one| one.line).collect::<Vec<_>>(), [1, 2, 3, 4]);
        assert_eq!(list.unread[2].reason, Unread::NoAddress(String::from("A-4")));
        assert_eq!(list.devices.len(), 1);
        assert_eq!(list.devices[0].numbers, [0, 4, 1]);
        let slip = read_found_list("indoor 0/a/1\nindoor/0/12/1\n");
        assert_eq!(slip.unread[0].reason, Unread::NoAddress(String::from("0/a/1")));
        assert_eq!(slip.devices[0].numbers, [0, 12, 1]);
    }

    #[test]
    fn a_version_behind_an_address_is_no_part_of_it() {
        let list = read_found_list("indoor 0/27/1 OK fw 2.1\nindoor 0/28/1, v1.10.3\nindoor 2.1\n");
        let read: Vec<_> = list.devices.iter().map(|found| found.numbers.clone()).collect();
        assert_eq!(read, [vec![0, 27, 1], vec![0, 28, 1]]);
        assert_eq!(list.unread, [UnreadLine { line: 3, reason: Unread::NoAddress(String::from("2.1")) }]);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(128))]
        #[test]
        fn any_text_is_read_or_passed_over(text in "\\PC{0,200}") {
            let list = read_found_list(&text);
            prop_assert!(list.devices.len() + list.unread.len() <= text.lines().count());
        }
    }
}
