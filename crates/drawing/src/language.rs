//! How drawings are lettered; the words themselves are rows of `latchline_words::drawing`.

pub(crate) use latchline_words::drawing::{Phrase, Word};

use latchline_assess::Verdict;
use latchline_finding::{Locale, Severity};
use latchline_site::addresses::SwitchSetting;
use latchline_site::catalogue::FieldKind;

/// The words, figures and units of one drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Lettering(pub(crate) Locale);

impl Lettering {
    /// A fixed word or sentence.
    pub(crate) fn word(self, word: Word) -> &'static str {
        word.say(self.0.language)
    }

    /// A sentence with its arguments.
    pub(crate) fn say(self, phrase: &Phrase<'_>) -> String {
        phrase.say(self.0.language)
    }

    /// The code of a finding in a few words.
    pub(crate) fn trouble(self, code: &str) -> String {
        latchline_words::codes::short_of(code, self.0.language)
    }

    /// A band of signals: names that the built-in catalogues give are said in the drawing's language.
    pub(crate) fn band(self, name: &str) -> &str {
        latchline_words::band(name, self.0.language)
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

/// The word of a verdict.
pub(crate) fn verdict_word(verdict: Verdict) -> Word {
    match verdict {
        Verdict::Holds => Word::VerdictHolds,
        Verdict::HoldsOnAssumedData => Word::VerdictAssumed,
        Verdict::NotJudged => Word::VerdictNotJudged,
        Verdict::FailsAsAccepted => Word::VerdictFailsAsAccepted,
        Verdict::Fails => Word::VerdictFails,
    }
}

/// The word of a severity.
pub(crate) fn severity_word(severity: Severity) -> Word {
    match severity {
        Severity::Advice => Word::Advice,
        Severity::Warning => Word::Warning,
        Severity::Error => Word::Error,
    }
}

/// The word of an address field.
pub(crate) fn field_word(kind: FieldKind) -> Word {
    match kind {
        FieldKind::Building => Word::FieldBuilding,
        FieldKind::Dwelling => Word::FieldDwelling,
        FieldKind::Entrance => Word::FieldEntrance,
        FieldKind::Extension => Word::FieldExtension,
        FieldKind::Management => Word::FieldManagement,
    }
}
