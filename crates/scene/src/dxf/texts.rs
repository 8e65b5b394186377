//! Text as DXF takes it.

/// Text with the signs that would start a code written as codes; what is no ASCII stays as it is, files of this release
/// are UTF-8.
pub(super) fn encoded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            // `%%` starts a code, `%%%` is a per cent sign.
            '%' => out.push_str("%%%"),
            // A caret starts a control character; caret and space are a caret.
            '^' => out.push_str("^ "),
            // A backslash before U+ or M+ would start a code.
            '\\' => out.push_str("\\U+005C"),
            other if other.is_control() || matches!(other, '\u{2028}' | '\u{2029}') => out.push(' '),
            other => out.push(other),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_not_started_by_accident_and_lines_not_broken() {
        assert_eq!(encoded("1.0 mm²"), "1.0 mm²");
        assert_eq!(encoded("100%%d ^J\n\\U+0041"), "100%%%%%%d ^ J \\U+005CU+0041");
        assert_eq!(encoded("a\u{2028}b\u{85}c"), "a b c");
    }
}
