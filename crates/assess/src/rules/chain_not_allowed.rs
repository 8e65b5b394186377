//! `chain-not-allowed`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, ElementId};
use latchline_site::model::RunStop;

rule! {
    pub static CHAIN_NOT_ALLOWED: "chain-not-allowed", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let family = site.family();
    if family.chains.value {
        return;
    }
    for tree in &context.topology.port_trees {
        let looped = |index: &usize| {
            matches!(tree.nodes[*index].stop, RunStop::Station(_)) && tree.nodes[*index].ways_on > 0
        };
        let looped: Vec<usize> = (0..tree.nodes.len()).filter(looped).collect();
        let Some(next) = looped.first().and_then(|first| tree.beyond(*first).next()) else { continue };
        let stations: Vec<ElementId> =
            looped.iter().map(|index| site.stop_id(tree.nodes[*index].stop).clone()).collect();
        let run = &site.runs[tree.run];
        let found = finding(doc, site.runs[next.run].sections[next.section].to_origin.clone())
            .about(run.id.clone())
            .with("stations", stations)
            .with("family", family.head.name.as_str())
            .also_at("limit", family.chains.origin.clone())
            .graded(grade(&family.head.name, "chains", &family.chains));
        report.push(found);
    }
}
