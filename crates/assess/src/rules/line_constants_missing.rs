//! `line-constants-missing`

use crate::rule::{Report, rule};
use crate::stage::WithSignal;
use latchline_finding::CodeDoc;
use latchline_network::signal_tree::MissingKind;

rule! {
    /// # What it checks
    /// In a family that states bands for its signals, that every cable on the same pairs has line constants. Without them
    /// no signal on that network is judged, since a cable of unknown capacitance hangs on all of it.
    ///
    /// # Why it matters
    /// What is not judged is not clean: a site can pass every voltage and still show no picture.
    ///
    /// # Example
    /// Run A-R5 is of a cable without `line`; signals from the gate cannot be judged.
    ///
    /// # What to do
    /// Add `line` to the cable, with capacitance, inductance, skin corner and loss tangent from its datasheet. The capacitance can
    /// be measured on site: far end open, electronics disconnected, divided by the length. The inductance of a pair in one
    /// sheath is 0.5 to 0.7 mH/km.
    pub static LINE_CONSTANTS_MISSING: "line-constants-missing", Warning,
        "A cable without line constants", reads Signal, check
}

fn check(doc: &CodeDoc, context: &WithSignal<'_>, report: &mut Report) {
    for missing in &context.signal.missing {
        if missing.kind == MissingKind::Line {
            report.not_judged(doc.code, missing.element.clone(), missing.missing.clone());
        }
    }
}
