//! `terminator-not-needed`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static TERMINATOR_NOT_NEEDED: "terminator-not-needed", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let family = context.site.family();
    if family.terminator_required.value || family.terminator_resistance.is_some() {
        return;
    }
    for run in &context.site.runs {
        let Some(terminator) = run.terminator.as_ref().filter(|terminator| terminator.value) else {
            continue;
        };
        let found = finding(doc, terminator.origin.clone())
            .about(run.id.clone())
            .with("family", family.head.name.as_str())
            .also_at("limit", family.terminator_required.origin.clone());
        report.push(found);
    }
}
