//! `more-pairs-than-cable`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static MORE_PAIRS_THAN_CABLE: "more-pairs-than-cable", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
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
    for entrance in &context.site.entrances {
        for used in &entrance.locks {
            let Some(cable) = used.cable.as_ref().map(|name| &context.site.catalogue.cables[&name.value])
            else {
                continue;
            };
            if used.pairs.value > cable.pairs.value {
                let found = finding(doc, used.pairs.origin.clone())
                    .about(entrance.id.clone())
                    .figures(f64::from(used.pairs.value), f64::from(cable.pairs.value), Unit::Count)
                    .with("cable", cable.head.name.as_str())
                    .with("lock", used.model.value.as_str())
                    .also_at("limit", cable.pairs.origin.clone())
                    .graded(grade(&cable.head.name, "pairs", &cable.pairs));
                report.push(found);
            }
        }
    }
}
