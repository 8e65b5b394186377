//! What every file of a pack says about where it is from.

use sha2::{Digest, Sha256};
use std::fmt::Write as _;

/// Digits of the hash of the input where not all of them are shown.
const SHOWN_DIGITS: usize = 16;

/// Revision, hash of the input, and date.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stamp {
    /// The revision as shown: the user's own word, the last one of the site file, or the first eight digits of the hash.
    pub revision: String,
    /// SHA-256 of all inputs, in hexadecimal.
    pub input_sha256: String,
    /// Date (YYYY-MM-DD), if one is to be shown.
    pub date: Option<String>,
}

impl Stamp {
    /// The stamp of these input texts (the site file, then its catalogues in their order). Each text
    /// goes into the hash with its length before it, so that no two lists of texts are alike. Names of
    /// files do not count.
    pub fn of_texts<'t>(
        texts: impl IntoIterator<Item = &'t str>,
        revision: Option<String>,
        date: Option<String>,
    ) -> Stamp {
        let mut hash = Sha256::new();
        for text in texts {
            hash.update((text.len() as u64).to_le_bytes());
            hash.update(text.as_bytes());
        }
        let input_sha256 = hexadecimal(&hash.finalize());
        let revision = revision.unwrap_or_else(|| input_sha256.chars().take(8).collect());
        Stamp { revision, input_sha256, date }
    }
}

impl Stamp {
    /// The first digits of the hash of the input.
    pub fn short_input(&self) -> String {
        self.input_sha256.chars().take(SHOWN_DIGITS).collect()
    }
}

/// SHA-256 of bytes, in hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    hexadecimal(&Sha256::digest(bytes))
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-4 example: SHA-256 of "abc".
    #[test]
    fn the_hash_is_that_of_the_standard() {
        assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    #[test]
    fn where_one_text_ends_counts() {
        let hash = |texts: &[&str]| Stamp::of_texts(texts.iter().copied(), None, None).input_sha256;
        assert_ne!(hash(&["ab", "c"]), hash(&["a", "bc"]));
        assert_eq!(hash(&["ab", "c"]), hash(&["ab", "c"]));
    }
}
