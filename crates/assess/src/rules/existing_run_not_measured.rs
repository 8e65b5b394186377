//! `existing-run-not-measured`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;
use latchline_words::terms::Term;

rule! {
    pub static EXISTING_RUN_NOT_MEASURED: "existing-run-not-measured", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for run in context.site.runs.iter().filter(|run| run.existing.value) {
        let mut missing = Vec::new();
        if run.measured.loop_resistance.is_none() {
            missing.push(Term::Loop.both());
        }
        if run.measured.insulation.is_none() {
            missing.push(Term::Insulation.both());
        }
        if !missing.is_empty() {
            let found =
                finding(doc, run.existing.origin.clone()).about(run.id.clone()).with("missing", missing);
            report.push(found);
        }
    }
}
