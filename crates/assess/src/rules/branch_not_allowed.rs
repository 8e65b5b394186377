//! `branch-not-allowed`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, ElementId};

rule! {
    pub static BRANCH_NOT_ALLOWED: "branch-not-allowed", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let family = site.family();
    if family.branches.value {
        return;
    }
    for tree in &context.topology.port_trees {
        for (index, node) in tree.nodes.iter().enumerate() {
            if node.ways_on < 2 {
                continue;
            }
            let mut runs: Vec<ElementId> = Vec::new();
            for next in tree.beyond(index) {
                runs.push(site.runs[next.run].id.clone());
            }
            let found = finding(doc, site.runs[node.run].sections[node.section].to_origin.clone())
                .about(site.stop_id(node.stop).clone())
                .with("runs", runs)
                .with("family", family.head.name.as_str())
                .also_at("limit", family.branches.origin.clone())
                .graded(grade(&family.head.name, "branches", &family.branches));
            report.push(found);
        }
    }
}
