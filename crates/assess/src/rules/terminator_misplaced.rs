//! `terminator-misplaced`

use super::terminator_missing::chain_ends;
use crate::rule::{Context, Judgement, PortTree, finding, rule};
use latchline_finding::{CodeDoc, Origin};
use latchline_site::model::RunStop;

rule! {
    pub static TERMINATOR_MISPLACED: "terminator-misplaced", Warning, check
}

/// A terminator that is set where no chain ends.
pub(super) struct Astray {
    pub(super) run: usize,
    pub(super) origin: Origin,
}

/// The terminators of a tree: those at its ends (as runs), and those astray.
pub(super) fn terminators(context: &Context<'_>, tree: &PortTree) -> (Vec<usize>, Vec<Astray>) {
    let site = context.site;
    let ends: Vec<usize> = chain_ends(site, tree).map(|(run, _)| run).collect();
    let (mut at_end, mut astray) = (Vec::new(), Vec::new());
    for node in tree.nodes.iter().filter(|node| node.section == 0) {
        match &site.runs[node.run].terminator {
            Some(terminator) if terminator.value => {
                if ends.contains(&node.run) {
                    at_end.push(node.run);
                } else {
                    astray.push(Astray { run: node.run, origin: terminator.origin.clone() });
                }
            }
            _ => {}
        }
    }
    (at_end, astray)
}

/// Whether the terminators of a tree are too many rather than in the wrong place.
pub(super) fn are_doubled(tree: &PortTree, at_end: &[usize], astray: &[Astray]) -> bool {
    tree.is_chain() && at_end.len() + astray.len() > 1
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for tree in &context.topology.port_trees {
        let (at_end, astray) = terminators(context, tree);
        if are_doubled(tree, &at_end, &astray) {
            continue;
        }
        for Astray { run, origin } in astray {
            let run = &site.runs[run];
            let Some(last) = run.sections.last() else { continue };
            let kind = match last.to {
                RunStop::Station(_) => "station",
                RunStop::BoxInput(_) | RunStop::BoxLink(_) => "box",
            };
            let found = finding(doc, origin)
                .about(run.id.clone())
                .with("stop", site.stop_id(last.to))
                .with("kind", kind);
            report.push(found);
        }
    }
}
