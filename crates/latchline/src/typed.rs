//! What was typed on the command line, before anything is made of it.

use latchline_finding::Language;

/// The arguments.
pub fn arguments() -> Vec<String> {
    std::env::args_os().skip(1).map(|argument| argument.to_string_lossy().into_owned()).collect()
}

/// The language that was asked for, whatever else is wrong with the arguments.
pub fn language() -> Language {
    language_of(&arguments())
}

/// The language that these arguments ask for.
pub fn language_of(typed: &[String]) -> Language {
    let is_german = |at: usize| match typed[at].strip_prefix("--language") {
        Some("") => typed.get(at + 1).is_some_and(|next| next == "de"),
        Some(value) => value == "=de",
        None => false,
    };
    if (0..typed.len()).any(is_german) { Language::German } else { Language::English }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_language_is_known_though_the_rest_is_not() {
        let of =
            |typed: &[&str]| language_of(&typed.iter().map(|word| (*word).to_string()).collect::<Vec<_>>());
        assert_eq!(of(&["chek", "--language", "de"]), Language::German);
        assert_eq!(of(&["--language=de", "check"]), Language::German);
        assert_eq!(of(&["check", "--language"]), Language::English);
        assert_eq!(of(&["check", "de", "--languages", "de"]), Language::English);
    }
}
