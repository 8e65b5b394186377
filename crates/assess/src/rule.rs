//! What a rule is, and what it is given.

pub use crate::context::{Context, PortTree};

use crate::not_judged::NotJudged;
use crate::stage::{Stage, WithShortCircuits, WithSignal, WithStartUp, WithVoltages};
use latchline_finding::{Code, CodeDoc, ElementId, Finding, Origin, Severity};
use latchline_words::missing::Missing;

/// A rule: its code and its check.
#[derive(Clone, Copy)]
pub struct Rule {
    /// Code and usual severity.
    pub doc: CodeDoc,
    /// Looks at the site and reports.
    pub check: Check,
}

/// The check of a rule, by the stage that it reads: it is given that stage and no other.
#[derive(Clone, Copy)]
pub enum Check {
    /// The wiring alone.
    Wiring(fn(&CodeDoc, &Context<'_>, &mut Judgement)),
    /// The voltages, currents and nuisance trips.
    Voltages(fn(&CodeDoc, &WithVoltages<'_>, &mut Judgement)),
    /// Short circuits.
    ShortCircuit(fn(&CodeDoc, &WithShortCircuits<'_>, &mut Judgement)),
    /// Signals.
    Signal(fn(&CodeDoc, &WithSignal<'_>, &mut Judgement)),
    /// Power return.
    StartUp(fn(&CodeDoc, &WithStartUp<'_>, &mut Judgement)),
}

impl Rule {
    /// The stage that it reads, if any.
    pub fn reads(&self) -> Option<Stage> {
        match self.check {
            Check::Wiring(_) => None,
            Check::Voltages(_) => Some(Stage::Voltages),
            Check::ShortCircuit(_) => Some(Stage::ShortCircuit),
            Check::Signal(_) => Some(Stage::Signal),
            Check::StartUp(_) => Some(Stage::StartUp),
        }
    }
}

/// Declares a rule and its code. Its words, with the manual page that `explain` prints, stand in a file of the same name in
/// `latchline_words::codes`.
///
/// Severities that its findings may have besides stand behind the usual one (`Error or Advice`). What it reads besides the wiring is named
/// before its check.
///
/// ```ignore
/// rule! {
///     pub static VOLTAGE_TOO_LOW: "voltage-too-low", Error, reads Voltages, check
/// }
/// ```
macro_rules! rule {
    (pub static $name:ident: $code:literal, $severity:ident $(or $other:ident)*, $check:path) => {
        $crate::rule::rule! { pub static $name: $code, $severity $(or $other)*, reads Wiring, $check }
    };
    (pub static $name:ident: $code:literal, $severity:ident $(or $other:ident)*, reads $stage:ident, $check:path) => {
        #[doc = concat!("The code of [`", stringify!($name), "`].")]
        pub const CODE: latchline_finding::Code = latchline_finding::Code($code);

        #[doc = concat!("Judges `", $code, "`.")]
        pub static $name: $crate::rule::Rule = $crate::rule::Rule {
            doc: latchline_finding::CodeDoc {
                code: CODE,
                severity: latchline_finding::Severity::$severity,
                others: &[$(latchline_finding::Severity::$other),*],
            },
            check: $crate::rule::Check::$stage($check),
        };
    };
}
pub(crate) use rule;

/// What rules put their results into.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Judgement {
    /// Findings.
    pub findings: Vec<Finding>,
    /// What could not be judged.
    pub not_judged: Vec<NotJudged>,
}

impl Judgement {
    /// Adds a finding.
    pub fn push(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// Adds something that could not be judged, together with others of the same code and cause.
    pub fn not_judged(&mut self, code: Code, element: ElementId, missing: Missing) {
        let known = self.not_judged.iter_mut().find(|entry| entry.code == code && entry.missing == missing);
        match known {
            Some(entry) => entry.elements.push(element),
            None => self.not_judged.push(NotJudged { code, elements: vec![element], missing }),
        }
    }
}

/// Starts a finding of a rule.
pub fn finding(doc: &CodeDoc, origin: impl Into<Origin>) -> Finding {
    Finding::new(doc.code, doc.severity, origin)
}

/// Starts a finding of a rule with another severity than the usual one.
pub fn finding_as(doc: &CodeDoc, severity: Severity, origin: impl Into<Origin>) -> Finding {
    debug_assert!(severity == doc.severity || doc.others.contains(&severity), "{}: {severity:?}", doc.code);
    Finding::new(doc.code, severity, origin)
}
