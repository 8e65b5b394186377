//! `chain-not-allowed`

use super::limit::grade;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, ElementId};
use latchline_site::model::RunStop;

rule! {
    /// # What it checks
    /// In a family without chains (`chains = false`), that no cable goes on from a station: each station
    /// then needs a way of its own from a port or branch box.
    ///
    /// # Why it matters
    /// Such families tell their stations apart by the port, or cannot match the impedance of more than one
    /// station to a pair.
    ///
    /// # Example
    /// A-R1 leads to A-101 and on to A-102.
    ///
    /// # What to do
    /// Give each station its own port, or choose a family that can be looped in and out.
    pub static CHAIN_NOT_ALLOWED: "chain-not-allowed", Error,
        "Stations on a chain in a family that is wired as a star", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
