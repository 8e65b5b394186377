//! `terminator-doubled`

use super::terminator_misplaced::{Astray, are_doubled, terminators};
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, ElementId};

rule! {
    /// # What it checks
    /// That a chain that does not divide has one terminator at most.
    ///
    /// # Why it matters
    /// Two terminators in parallel halve the impedance at which the line is closed and take away signal
    /// level from everyone.
    ///
    /// # Example
    /// The chain was extended; the new end has its terminator, and the old one was left in.
    ///
    /// # What to do
    /// Leave the one at the far end and take the other out.
    pub static TERMINATOR_DOUBLED: "terminator-doubled", Warning,
        "More than one terminator on an undivided chain", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
