//! `silenced-group`

use crate::rule::{Context, Judgement, PortTree, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Figure, Severity, Unit};
use latchline_site::catalogue::LoopThrough;
use latchline_site::model::{RunStop, Site, StationOwner};

rule! {
    pub static SILENCED_GROUP: "silenced-group", Error or Advice, check
}

/// Where the user states no policy (common practice, no source).
const USUAL_LARGEST_GROUP: u32 = 8;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let policy = &site.policy.largest_silenced_group;
    let limit = policy.as_ref().map_or(USUAL_LARGEST_GROUP, |limit| limit.value) as usize;
    for tree in &context.topology.port_trees {
        let silenced = silenced(site, tree, 0..tree.nodes.len());
        if silenced <= limit {
            continue;
        }
        let run = &site.runs[tree.run];
        let first = &tree.nodes[0];
        let origin = run.sections[0].to_origin.clone();
        let mut found = match policy {
            Some(policy) => {
                finding(doc, origin).also_at("limit", policy.origin.clone()).with("policy", limit)
            }
            None => finding_as(doc, Severity::Advice, origin).with("usual", limit),
        };
        found = found
            .about(run.id.clone())
            .figures(silenced as f64, limit as f64, Unit::Count)
            .with("port", tree.id(site))
            .with("first_stop", site.stop_id(first.stop));
        if let Some((station, beyond)) = worst_removal(site, tree).filter(|(_, beyond)| *beyond > limit) {
            found = found
                .with("removed_station", &site.stations[station].id)
                .with("removal_silences", Figure::count(beyond));
        }
        report.push(found);
    }
}

/// Dwellings all of whose stations are among these nodes.
fn silenced(site: &Site, tree: &PortTree, range: std::ops::Range<usize>) -> usize {
    let owners = tree.stations(range).filter_map(|station| match site.stations[station].owner {
        StationOwner::Dwelling { dwelling, .. } => Some(dwelling),
        _ => None,
    });
    let mut dwellings: Vec<usize> = owners.collect();
    dwellings.sort_unstable();
    dwellings
        .chunk_by(|a, b| a == b)
        .filter(|group| group.len() == site.dwellings[group[0]].stations.len())
        .count()
}

/// The station whose removal silences most, and how many dwellings beside its own.
fn worst_removal(site: &Site, tree: &PortTree) -> Option<(usize, usize)> {
    let mut worst: Option<(usize, usize)> = None;
    let mut index = 0;
    while let Some(node) = tree.nodes.get(index) {
        index += 1;
        let RunStop::Station(station) = node.stop else { continue };
        if site.station_model(&site.stations[station]).loop_through.value != LoopThrough::Series {
            continue;
        }
        let beyond = silenced(site, tree, index..node.subtree_end);
        if beyond > worst.map_or(0, |(_, most)| most) {
            worst = Some((station, beyond));
        }
        // Whatever lies beyond silences less.
        index = node.subtree_end;
    }
    worst
}
