//! `terminator-missing`

use super::limit::grade;
use crate::rule::{Context, Judgement, PortTree, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::model::{RunStop, Site};
use latchline_words::missing::Missing;

rule! {
    pub static TERMINATOR_MISSING: "terminator-missing", Error, check
}

/// Runs whose last station ends a chain, with that station.
pub(super) fn chain_ends<'a>(site: &'a Site, tree: &'a PortTree) -> impl Iterator<Item = (usize, usize)> {
    tree.ends().filter_map(|node| match node.stop {
        // Where nothing goes on, the section is the last one of its run.
        RunStop::Station(station) => {
            debug_assert_eq!(node.section + 1, site.runs[node.run].sections.len());
            Some((node.run, station))
        }
        _ => None,
    })
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let family = site.family();
    if !family.terminator_required.value {
        return;
    }
    for tree in &context.topology.port_trees {
        for (index, station) in chain_ends(site, tree) {
            let run = &site.runs[index];
            let terminator = match &run.terminator {
                None => {
                    report.not_judged(doc.code, run.id.clone(), Missing::Terminator);
                    continue;
                }
                Some(terminator) => terminator,
            };
            if !terminator.value {
                let found = finding(doc, terminator.origin.clone())
                    .about(run.id.clone())
                    .with("station", &site.stations[station].id)
                    .with("family", family.head.name.as_str())
                    .also_at("limit", family.terminator_required.origin.clone())
                    .graded(grade(&family.head.name, "terminator_required", &family.terminator_required));
                report.push(found);
            }
        }
    }
}
