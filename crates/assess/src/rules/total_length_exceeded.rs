//! `total-length-exceeded`

use super::limit::{LENGTH_ROUNDING_M, grade};
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    /// # What it checks
    /// All the cable behind each output of a supply and each port of a distributor, branches
    /// included, up to the next distributor, against the family's `total_length_per_port`.
    /// Lengths count as stated. A family that states no such limit is not held to one.
    ///
    /// # Why it matters
    /// Every branch adds its capacitance and its reflections to the pair, even a branch that is
    /// not in use.
    ///
    /// # Example
    /// A-D1.1 feeds five floors through branch boxes: 34 m of riser and 290 m on the floors, 324 m in
    /// all; the family allows 300 m.
    ///
    /// # What to do
    /// Share the branches out over two ports, or take out dead spurs.
    pub static TOTAL_LENGTH_EXCEEDED: "total-length-exceeded", Error,
        "More cable on one port than the family allows", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    let family = site.family();
    let Some(limit) = &family.total_length_per_port else { return };
    let limit_m = limit.value.as_metres();
    for tree in &context.topology.port_trees {
        let length_m = tree.length_m(site);
        if length_m > limit_m + LENGTH_ROUNDING_M {
            let run = &site.runs[tree.run];
            let found = finding(doc, run.from_origin.clone())
                .about(tree.id(site))
                .figures(length_m, limit_m, Unit::Metre)
                .with("run", &run.id)
                .with("family", family.head.name.as_str())
                .also_at("limit", limit.origin.clone())
                .graded(grade(&family.head.name, "total_length_per_port", limit));
            report.push(found);
        }
    }
}
