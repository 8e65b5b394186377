//! What was typed on the command line, before anything is made of it.

use latchline_finding::{Language, shown};

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

/// What is said of the arguments, with those that are longer than any name or path shortened in the middle, and so whatever else in
/// it runs on without a blank.
pub fn shortened(said: &str, typed: &[String]) -> String {
    let is_long = |text: &&str| text.chars().nth(shown::MOST_OF_A_PATH).is_some();
    let values = |argument: &str| argument.split_once('=').map(|(_, value)| value.to_string());
    let values: Vec<String> = typed.iter().filter_map(|argument| values(argument)).collect();
    let mut said = said.to_string();
    for argument in typed.iter().chain(&values).map(String::as_str).filter(is_long) {
        said = said.replace(argument, &shown::name(argument));
    }
    let run = |run: &str| if is_long(&run) { shown::name(run).into_owned() } else { run.to_string() };
    let runs = said.split_inclusive(char::is_whitespace).map(|with_blank| {
        let bare = with_blank.trim_end();
        [run(bare).as_str(), &with_blank[bare.len()..]].concat()
    });
    runs.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_long_is_shortened_and_nothing_else() {
        let (long, spaced) = ("x".repeat(5_000), "ab ".repeat(2_000));
        let typed = [long.clone(), format!("--door={spaced}")];
        for told in [format!("there is no \"{long}\""), format!("no \"{spaced}\" here"), format!("a={long}b")]
        {
            let said = shortened(&told, &typed);
            assert!(said.chars().count() < 300 && said.contains('…'), "{said}");
        }
        let told = format!("{} of these\n  Usage: latchline check <SITE>\n", "no end ".repeat(200));
        assert_eq!(shortened(&told, &typed), told);
    }

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
