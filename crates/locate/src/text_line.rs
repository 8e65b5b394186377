//! Lines of a text.

/// The line that a byte of a text stands in, from 1.
pub(crate) fn line_of(text: &str, at: usize) -> usize {
    text.get(..at).map_or(1, |before| before.matches('\n').count() + 1)
}
