//! `total-length-exceeded`

use super::limit::{LENGTH_ROUNDING_M, grade};
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static TOTAL_LENGTH_EXCEEDED: "total-length-exceeded", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
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
