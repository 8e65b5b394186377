//! Texts as site files write them.

use std::fmt::Write as _;

/// A text as a value of TOML, on one line whatever stands in it (TOML 1.0, basic strings).
pub fn quoted(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 2);
    out.push('"');
    for sign in text.chars() {
        match sign {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            sign if sign.is_control() => {
                let _ = write!(out, "\\u{:04X}", u32::from(sign));
            }
            sign => out.push(sign),
        }
    }
    out.push('"');
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// The TOML library reads back what was written.
        #[test]
        fn what_is_quoted_is_read_back(text in any::<String>()) {
            let written = quoted(&text);
            prop_assert!(!written.contains('\n'));
            let table: toml::Table = format!("a = {written}").parse().expect("TOML");
            prop_assert_eq!(table["a"].as_str(), Some(text.as_str()));
        }
    }
}
