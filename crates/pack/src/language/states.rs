//! States, calls, verdicts, findings and figures in the pack's language.

use super::{Word, foreign};
use crate::locale::Locale;
use crate::locale::Rounding;
use crate::subject::Subject;
use latchline_assess::Verdict;
use latchline_finding::{CallRef, Figure, Finding, Language, OperatingState, Unit};
use latchline_words::states;
use latchline_words::template::fill;

impl Locale {
    /// An operating state in a few words.
    pub fn state(&self, state: &OperatingState) -> String {
        states::name(state, self.language)
    }

    /// A call of a state.
    pub fn call(&self, call: &CallRef) -> String {
        states::call(call, self.language)
    }

    /// The verdict, which fails if any finding that stands is an error.
    pub fn verdict(&self, subject: &Subject<'_>) -> &'static str {
        if subject.errors() > 0 {
            return self.word(Word::VerdictFails);
        }
        self.word(match subject.assessment.verdict {
            Verdict::Fails => Word::VerdictFails,
            Verdict::Holds => Word::VerdictHolds,
            Verdict::HoldsOnAssumedData => Word::VerdictAssumed,
            Verdict::NotJudged => Word::VerdictNotJudged,
            Verdict::FailsAsAccepted => Word::VerdictFailsAsAccepted,
        })
    }

    /// A text that the assessment gives in English: names of quantities, sources, rules. What is not
    /// known in the pack's language (names of parts, publications) stays as it is.
    pub fn foreign(&self, text: &str) -> String {
        match self.language {
            Language::English => text.to_string(),
            Language::German => foreign::text(text),
        }
    }

    /// What is wrong, in one sentence: in English the report's own words; in German a sentence with the same
    /// arguments, or the title of its code where it is one that only reading the file finds.
    pub fn finding(&self, finding: &Finding) -> String {
        let code = finding.code.as_str();
        match self.language {
            Language::English => {
                let doc = latchline_assess::codes().find(|doc| doc.code == finding.code);
                let message = latchline_report::english::wording(finding, doc).message;
                latchline_report::english::capital(&message)
            }
            Language::German => latchline_report::german::template(code)
                .and_then(|template| fill(template, finding, Language::German))
                .unwrap_or_else(|| match latchline_report::german::title(code) {
                    Some(title) => format!("{title} ({code})"),
                    None => code.to_string(),
                }),
        }
    }

    /// A figure of a finding or of a calculation with a prefix that fits its size.
    pub fn finding_figure(&self, figure: Figure) -> String {
        self.finding_figure_rounded(figure, Rounding::Nearest)
    }

    /// The same, rounded to this side.
    pub fn finding_figure_rounded(&self, figure: Figure, rounding: Rounding) -> String {
        let size = figure.value.abs();
        let with = |factor: f64, decimals: usize, unit: &str| {
            format!("{} {unit}", self.number(figure.value * factor, decimals))
        };
        match figure.unit {
            _ if !figure.value.is_finite() => String::from("–"),
            Unit::Ohm if size >= 1e6 => with(1e-6, 2, self.ohm("Mohm")),
            Unit::Ohm if size >= 1e3 => with(1e-3, 2, self.ohm("kohm")),
            Unit::Ohm if size > 0.0 && size < 0.1 => with(1e3, 1, self.ohm("mohm")),
            Unit::Ampere if size > 0.0 && size < 0.1 => with(1e3, 1, "mA"),
            _ => self.figure_rounded(figure, rounding),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::locale::Locale;
    use latchline_finding::{Code, Finding, Language, Origin, Severity, Unit, Units};

    #[test]
    fn a_german_sentence_has_german_figures() {
        let found = Finding::new(Code("lock-voltage-too-low"), Severity::Error, Origin::None)
            .about("bins")
            .figures(8.731, 10.8, Unit::Volt)
            .with("lock", "strike-12");
        let locale = Locale(latchline_finding::Locale { language: Language::German, units: Units::Metric });
        let said = "Das Schloss strike-12 von bins bekommt 8,73 V und braucht 10,8 V";
        assert_eq!(locale.finding(&found), said);
        let wired = Finding::new(Code("lock-contact-wiring"), Severity::Error, Origin::None)
            .about("front")
            .with("lock", "magnet-12")
            .with("kind", "opens without power")
            .with("required", "normally closed")
            .with("stated", "normally open");
        assert_eq!(
            locale.finding(&wired),
            "Das Schloss magnet-12 von front öffnet ohne Strom; sein Relaiskontakt muss Öffner sein, nicht Schließer"
        );
    }
}
