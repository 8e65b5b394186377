//! `run-too-long`

use super::limit::{LENGTH_ROUNDING_M, grade};
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    /// # What it checks
    /// The cable path from each output of a supply and each port of a distributor to the farthest
    /// device behind it, through stations and branch boxes up to the input of the next
    /// distributor, against the family's `longest_run`. Lengths count as stated, since that is how such
    /// limits are meant. A family that states no such limit is not held to one.
    ///
    /// # Why it matters
    /// Signals weaken with length, and the family's limit is the length its maker answers for.
    /// Voltage is judged on its own and can fail earlier.
    ///
    /// # Example
    /// A-504 is 164 m of cable away from A-D1.3; the family allows 150 m.
    ///
    /// # What to do
    /// Place a distributor nearer by, or lead the run another way. Thicker cable does not lift this limit
    /// unless the family says so.
    pub static RUN_TOO_LONG: "run-too-long", Error,
        "The path from the port is longer than the family allows", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    let family = site.family();
    let Some(limit) = &family.longest_run else { return };
    let limit_m = limit.value.as_metres();
    for tree in &context.topology.port_trees {
        let farthest = tree.nodes.iter().max_by(|a, b| a.distance_m.total_cmp(&b.distance_m));
        let Some(farthest) = farthest else { continue };
        if farthest.distance_m > limit_m + LENGTH_ROUNDING_M {
            let run = &site.runs[farthest.run];
            let found = finding(doc, run.sections[farthest.section].to_origin.clone())
                .about(run.id.clone())
                .figures(farthest.distance_m, limit_m, Unit::Metre)
                .with("from", tree.id(site))
                .with("to", site.stop_id(farthest.stop))
                .with("family", family.head.name.as_str())
                .also_at("limit", limit.origin.clone())
                .graded(grade(&family.head.name, "longest_run", limit));
            report.push(found);
        }
    }
}
