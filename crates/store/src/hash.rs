//! Hashes of texts.

use sha2::{Digest, Sha256};
use std::fmt::Write as _;

/// SHA-256 of a text, in hexadecimal.
pub fn of_text(text: &str) -> String {
    of_parts([text])
}

/// SHA-256 of parts, each with its length before it unless it is alone, so that no two lists are alike.
pub(crate) fn of_parts<'p>(parts: impl IntoIterator<Item = &'p str>) -> String {
    let parts: Vec<&str> = parts.into_iter().collect();
    let mut hash = Sha256::new();
    for part in &parts {
        if parts.len() > 1 {
            hash.update((part.len() as u64).to_le_bytes());
        }
        hash.update(part.as_bytes());
    }
    hash.finalize().iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_that_of_the_standard() {
        // FIPS 180-4, example of SHA-256: "abc".
        assert_eq!(of_text("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_ne!(of_parts(["ab", "c"]), of_parts(["a", "bc"]));
    }
}
