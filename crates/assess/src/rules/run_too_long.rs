//! `run-too-long`

use super::limit::{LENGTH_ROUNDING_M, grade};
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static RUN_TOO_LONG: "run-too-long", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
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
