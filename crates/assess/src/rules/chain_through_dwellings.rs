//! `chain-through-dwellings`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, ElementId};
use latchline_site::model::{RunStop, StationOwner};

rule! {
    /// # What it checks
    /// With `chains_through_dwellings = false` under `[policy]`, that no cable goes on from a station in a
    /// dwelling to anything but further stations of the same dwelling.
    ///
    /// # Why it matters
    /// Who renovates cuts off the neighbours, and for each fault somebody has to be let into a flat that has
    /// none.
    ///
    /// # Example
    /// A-R1 goes in and out of A-101 to reach A-102.
    ///
    /// # What to do
    /// Place branch boxes in the stairwell and feed each dwelling from there, or change the policy.
    pub static CHAIN_THROUGH_DWELLINGS: "chain-through-dwellings", Error,
        "A chain passes through dwellings to reach others", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
