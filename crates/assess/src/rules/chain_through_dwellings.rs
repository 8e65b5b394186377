//! `chain-through-dwellings`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, ElementId};
use latchline_site::model::{RunStop, StationOwner};

rule! {
    pub static CHAIN_THROUGH_DWELLINGS: "chain-through-dwellings", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let policy = &site.policy.chains_through_dwellings;
    if policy.value {
        return;
    }
    let dwelling_of = |stop: RunStop| match stop {
        RunStop::Station(station) => match site.stations[station].owner {
            StationOwner::Dwelling { dwelling, .. } => Some(dwelling),
            _ => None,
        },
        _ => None,
    };
    for tree in &context.topology.port_trees {
        let mut passed: Vec<ElementId> = Vec::new();
        let mut origin = None;
        for next in &tree.nodes {
            let Some(before) = next.parent.map(|parent| tree.nodes[parent].stop) else { continue };
            let Some(dwelling) = dwelling_of(before) else { continue };
            if dwelling_of(next.stop) == Some(dwelling) {
                continue;
            }
            let id = &site.dwellings[dwelling].id;
            if !passed.contains(id) {
                passed.push(id.clone());
            }
            origin.get_or_insert_with(|| site.runs[next.run].sections[next.section].to_origin.clone());
        }
        let Some(origin) = origin else { continue };
        let found = finding(doc, origin)
            .about(site.runs[tree.run].id.clone())
            .with("dwellings", passed)
            .also_at("limit", policy.origin.clone());
        report.push(found);
    }
}
