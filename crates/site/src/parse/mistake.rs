//! What the TOML library says, in words for whoever wrote the file.

use super::pieces::FIRST_BRACKET;
use latchline_finding::Both;
use latchline_words::reading::{Foreign, TomlMistake};

/// What a message of the TOML library means, in both languages; one that has no row is handed on, marked as English.
pub fn toml_mistake(message: &str) -> Both {
    known(message).map_or_else(|| Foreign::Reader { message }.both(), TomlMistake::both)
}

/// What is known of a message of the library; `None` where it has no row.
fn known(message: &str) -> Option<TomlMistake> {
    let starts = |begin: &str| message.starts_with(begin);
    Some(match message {
        FIRST_BRACKET => TomlMistake::HeadBegins,
        _ if starts("unclosed table") => TomlMistake::HeadOpen,
        _ if starts("unclosed inline table") => TomlMistake::BraceOpen,
        _ if starts("unclosed array") => TomlMistake::ListOpen,
        _ if starts("key with no value") => TomlMistake::NoValue,
        _ if starts("string values must be quoted") => TomlMistake::NothingAfterEquals,
        _ if starts("missing comma between key-value") => TomlMistake::CommaBetweenKeys,
        _ if starts("missing comma between array") => TomlMistake::CommaInList,
        _ if starts("invalid multi-line") => TomlMistake::LongTextOpen,
        _ if not_closed(message).is_some_and(|sign| sign != "]") => TomlMistake::QuoteOpen,
        _ if starts("missing escaped value") => TomlMistake::Backslash,
        _ => return None,
    })
}

/// The sign that is missing where a text or the head of a table is not closed on its line.
pub(super) fn not_closed(message: &str) -> Option<&'static str> {
    if message.starts_with("invalid basic string") && message.contains("expected `\"`") {
        return Some("\"");
    }
    if message.starts_with("invalid literal string") && message.contains("expected `'`") {
        return Some("'");
    }
    (message.starts_with("unclosed table") || message.starts_with("unclosed array")).then_some("]")
}
