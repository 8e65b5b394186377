//! `beside-mains`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity};
use latchline_words::terms::Term;

rule! {
    pub static BESIDE_MAINS: "beside-mains", Warning or Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for run in &context.site.runs {
        let cable = context.site.cable(run);
        if !run.beside_mains.value || cable.mains_insulated.value {
            continue;
        }
        let found = if cable.screened.value {
            finding_as(doc, Severity::Advice, run.beside_mains.origin.clone())
        } else {
            finding(doc, run.beside_mains.origin.clone())
        };
        let found = found
            .about(run.id.clone())
            .with("cable", cable.head.name.as_str())
            .with("screen", if cable.screened.value { Term::Screened } else { Term::Unscreened }.both())
            .also_at("cable", cable.mains_insulated.origin.clone())
            .graded(grade(&cable.head.name, "mains_insulated", &cable.mains_insulated));
        report.push(found);
    }
}
