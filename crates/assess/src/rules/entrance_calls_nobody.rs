//! `entrance-calls-nobody`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Origin};

rule! {
    pub static ENTRANCE_CALLS_NOBODY: "entrance-calls-nobody", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
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
