//! `branch-not-allowed`

use super::limit::grade;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, ElementId};

rule! {
    /// # What it checks
    /// In a family without branches (`branches = false`), that every chain runs from its port to its end
    /// without dividing, at stations or at branch boxes.
    ///
    /// # Why it matters
    /// A branch reflects the signal: a picture gets ghosts, data gets lost, and the last station beyond the
    /// branch suffers first. DC measurements do not show it.
    ///
    /// # Example
    /// From A-102 one cable goes on to A-103 and another one to A-104.
    ///
    /// # What to do
    /// Loop the cable in and out of every station in turn, or take another port for the branch.
    pub static BRANCH_NOT_ALLOWED: "branch-not-allowed", Error,
        "A branch in a family whose chains may not divide", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
