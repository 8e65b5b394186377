//! Every word and sentence that drawings are lettered with, as typed messages; one module per language says them.
//!
//! A language is complete when it compiles: each module matches every message.

mod english;
mod german;
mod phrase;
mod word;

pub(crate) use phrase::Phrase;
pub(crate) use word::Word;

use latchline_finding::{Language, Locale};
use latchline_site::addresses::SwitchSetting;

/// The words, figures and units of one drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Lettering(pub(crate) Locale);

impl Lettering {
    /// A fixed word or sentence.
    pub(crate) fn word(self, word: Word) -> &'static str {
        match self.0.language {
            Language::English => english::word(word),
            Language::German => german::word(word),
        }
    }

    /// A sentence with its arguments.
    pub(crate) fn say(self, phrase: &Phrase<'_>) -> String {
        match self.0.language {
            Language::English => english::phrase(phrase),
            Language::German => german::phrase(phrase),
        }
    }

    /// The code of a finding in a few words.
    pub(crate) fn trouble(self, code: &str) -> String {
        match self.0.language {
            Language::English => code.replace('-', " "),
            Language::German => {
                latchline_report::german::title(code).map_or_else(|| code.replace('-', " "), String::from)
            }
        }
    }

    /// A band of signals: names that the built-in catalogues give are said in the drawing's language.
    pub(crate) fn band(self, name: &str) -> &str {
        match self.0.language {
            Language::English => name,
            Language::German => german::band(name),
        }
    }

    /// The positions of a switch in words.
    pub(crate) fn setting(self, setting: &SwitchSetting) -> String {
        match setting {
            SwitchSetting::Jumpers { fitted } => {
                let word = |fitted| self.word(if fitted { Word::JumperFitted } else { Word::JumperOpen });
                let words = (1..).zip(fitted).map(|(number, fitted)| format!("{number} {}", word(*fitted)));
                words.collect::<Vec<_>>().join(", ")
            }
            // Figures, ON and OFF are printed on the switches.
            setting => setting.to_string(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_there_in_both_languages() {
        for word in Word::ALL {
            for text in [english::word(*word), german::word(*word)] {
                assert!(!text.trim().is_empty(), "{word:?}");
            }
        }
    }

    /// What is lettered in German is not English by oversight: only signs and words of both languages agree.
    #[test]
    fn german_words_differ_from_english_ones() {
        let same = Word::ALL.iter().filter(|word| english::word(**word) == german::word(**word));
        let same: Vec<Word> = same.copied().collect();
        assert_eq!(same, []);
    }
}
