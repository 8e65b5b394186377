//! `short-circuit-darkens`

use crate::physics_summary::acting;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithShortCircuits;
use latchline_finding::{CodeDoc, ElementId, Figure, Unit};
use latchline_network::short_circuit::RunShort;
use latchline_words::terms::Term;

rule! {
    pub static SHORT_CIRCUIT_DARKENS: "short-circuit-darkens", Advice, reads ShortCircuit, check
}

fn check(doc: &CodeDoc, context: &WithShortCircuits<'_>, report: &mut Judgement) {
    for stage in 0..context.layout.stages.len() {
        let runs = || context.short_circuits.runs.iter().filter(|short| short.stage == stage);
        // Of those that take most with them, the one from which least is to be expected: the fewest stations.
        let key = |short: &RunShort| {
            let own = context.topology.stations_beyond[short.run].len();
            (short.also_dark.len(), std::cmp::Reverse(own), std::cmp::Reverse(short.run))
        };
        let Some(short) = runs().max_by_key(|short| key(short)).filter(|short| !short.also_dark.is_empty())
        else {
            continue;
        };
        let run = &context.site.runs[short.run];
        let dwellings: Vec<ElementId> =
            short.also_dark.iter().map(|index| context.site.dwellings[*index].id.clone()).collect();
        let (acts, by) = acting(context, short);
        let mut found = finding(doc, run.origin.clone())
            // About the supply: of its runs only one is shown, and which one may change with every other change.
            .about(context.layout.stages[stage].id.clone())
            .with("run", &run.id)
            .with("count", dwellings.len())
            .with("dwellings", dwellings)
            .with("acts", word(acts).both())
            .with("runs", runs().filter(|other| !other.also_dark.is_empty()).count())
            .with("current", Figure::new(short.fault_a, Unit::Ampere))
            .graded(context.grade_of_stage(stage));
        if let Some(by) = by {
            found = found.with("by", by);
        }
        report.push(found);
    }
}

/// What acts, as a word of the finding.
fn word(acts: &str) -> Term {
    match acts {
        "trips" => Term::Trips,
        "limits" => Term::Limits,
        _ => Term::Nothing,
    }
}
