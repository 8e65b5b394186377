//! `more-pairs-than-cable`

use super::limit::grade;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    /// # What it checks
    /// That no run uses more pairs in parallel than its cable has.
    ///
    /// # Why it matters
    /// The voltages were computed with conductors that are not there.
    ///
    /// # Example
    /// `pairs = 2` on a cable with a single pair.
    ///
    /// # What to do
    /// Correct `pairs`, choose a cable with more pairs, or state a cable of the site's own for two cables
    /// pulled side by side.
    pub static MORE_PAIRS_THAN_CABLE: "more-pairs-than-cable", Error,
        "More pairs in parallel than the cable has", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for run in &context.site.runs {
        let cable = context.site.cable(run);
        if run.pairs.value > cable.pairs.value {
            let found = finding(doc, run.pairs.origin.clone())
                .about(run.id.clone())
                .figures(f64::from(run.pairs.value), f64::from(cable.pairs.value), Unit::Count)
                .with("cable", cable.head.name.as_str())
                .also_at("limit", cable.pairs.origin.clone())
                .graded(grade(&cable.head.name, "pairs", &cable.pairs));
            report.push(found);
        }
    }
}
