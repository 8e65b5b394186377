//! States, calls, verdicts, findings and figures in the pack's language.

use super::{Sentence, Word};
use crate::locale::Locale;
use crate::locale::Rounding;
use crate::subject::Subject;
use latchline_assess::{Verdict, WorstVoltage};
use latchline_finding::{CallRef, Figure, Finding, OperatingState, Unit};
use latchline_words::key_names::without_keys;
use latchline_words::{codes, states};

impl Locale {
    /// The state in which a device is worst off, and whether its voltage there is a bound.
    pub fn worst_state(&self, worst: &WorstVoltage) -> String {
        let state = self.state(&worst.state);
        if worst.is_bound { self.say(&Sentence::BoundIn { state: &state }) } else { state }
    }

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

    /// What is wrong, in one sentence.
    pub fn finding(&self, finding: &Finding) -> String {
        without_keys(&codes::whole_sentence(finding, self.0), self.language)
    }

    /// Value and limit of a finding as its sentence has them.
    pub fn figures_of(&self, finding: &Finding) -> [Option<String>; 2] {
        codes::figures(finding, self.0)
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
