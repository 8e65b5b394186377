//! `supply-without-load`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::model::RunStart;

rule! {
    /// # What it checks
    /// Supplies at which no run starts.
    ///
    /// # Why it matters
    /// The parts list would hold a supply that does nothing, or a run is missing.
    ///
    /// # Example
    /// A-PS2 is listed, but every distributor is fed from A-PS1.
    ///
    /// # What to do
    /// Wire it or remove it. One that is kept as a spare is accepted with a reason.
    pub static SUPPLY_WITHOUT_LOAD: "supply-without-load", Warning,
        "A supply feeds nothing", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    for (index, supply) in site.supplies.iter().enumerate() {
        if !site.runs.iter().any(|run| run.from == RunStart::Supply(index)) {
            report.push(finding(doc, supply.origin.clone()).about(supply.id.clone()));
        }
    }
}
