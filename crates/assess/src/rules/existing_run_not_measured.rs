//! `existing-run-not-measured`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    /// # What it checks
    /// Cables that are already in the walls (`existing = true`) and of which the loop or the insulation was not
    /// measured.
    ///
    /// # Why it matters
    /// Nobody knows what lies in an old wall: its gauge, its way, its joints under the plaster, the spur to
    /// a flat that was divided. Two readings with the electronics disconnected settle most of it before
    /// anything is ordered.
    ///
    /// # Example
    /// A-R5 uses the old bell cable; nothing was measured.
    ///
    /// # What to do
    /// Measure the loop with the far end short-circuited and the insulation at 250 V with everything
    /// disconnected, and write both under `measured`. The capacitance with the far end open tells the length.
    pub static EXISTING_RUN_NOT_MEASURED: "existing-run-not-measured", Advice,
        "An existing cable that was not measured", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for run in context.site.runs.iter().filter(|run| run.existing.value) {
        let mut missing = Vec::new();
        if run.measured.loop_resistance.is_none() {
            missing.push("loop".to_string());
        }
        if run.measured.insulation.is_none() {
            missing.push("insulation".to_string());
        }
        if !missing.is_empty() {
            let found =
                finding(doc, run.existing.origin.clone()).about(run.id.clone()).with("missing", missing);
            report.push(found);
        }
    }
}
