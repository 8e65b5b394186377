//! `terminator-doubled`

use super::terminator_misplaced::{Astray, are_doubled, terminators};
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, ElementId};

rule! {
    pub static TERMINATOR_DOUBLED: "terminator-doubled", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for tree in &context.topology.port_trees {
        let (at_end, astray) = terminators(context, tree);
        if !are_doubled(tree, &at_end, &astray) {
            continue;
        }
        // The one at the end is right; if there is none, every one of them has to move.
        let all = astray.iter().map(|astray| astray.run).chain(at_end.iter().copied());
        let runs: Vec<ElementId> = all.map(|run| site.runs[run].id.clone()).collect();
        for Astray { run, origin } in astray {
            let found = finding(doc, origin)
                .about(site.runs[run].id.clone())
                .with("port", tree.id(site))
                .with("runs", runs.clone());
            report.push(found);
        }
    }
}
