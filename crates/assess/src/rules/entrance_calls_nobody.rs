//! `entrance-calls-nobody`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Origin};

rule! {
    /// # What it checks
    /// That each entrance calls at least one dwelling or management station.
    ///
    /// # Why it matters
    /// Visitors press and nothing rings.
    ///
    /// # Example
    /// `calls = ["A/3"]`, and there is no dwelling on that floor.
    ///
    /// # What to do
    /// Correct `calls`, or leave the door station out where a keypad or reader is all that is wanted.
    pub static ENTRANCE_CALLS_NOBODY: "entrance-calls-nobody", Warning,
        "An entrance that can call nobody", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for entrance in &context.site.entrances {
        if entrance.calls.dwellings.is_empty() && entrance.calls.management.is_empty() {
            let origin = match &entrance.calls.origin {
                Origin::None => &entrance.origin,
                origin => origin,
            };
            report.push(finding(doc, origin.clone()).about(entrance.id.clone()));
        }
    }
}
