//! `box-without-runs`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    /// # What it checks
    /// Distributors and branch boxes with no run on any port.
    ///
    /// # Why it matters
    /// It costs money and standby power for nothing; more often, the runs were entered on another box by mistake.
    ///
    /// # Example
    /// A-D2 is fed, but every run of its floor starts at A-D1.
    ///
    /// # What to do
    /// Move the runs, or leave the box out.
    pub static BOX_WITHOUT_RUNS: "box-without-runs", Warning,
        "A box that feeds nothing", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    for (item, runs) in site.boxes.iter().zip(&context.topology.runs_from_box) {
        if runs.is_empty() {
            let found = finding(doc, item.origin.clone())
                .about(item.id.clone())
                .with("model", item.model.value.as_str())
                .with("ports", site.box_model(item).ports.value as usize);
            report.push(found);
        }
    }
}
