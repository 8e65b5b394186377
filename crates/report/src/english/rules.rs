//! Wording of what the rules find.

use super::Words;

/// The wordings, by code.
pub const WORDS: &[Words] = &[];
