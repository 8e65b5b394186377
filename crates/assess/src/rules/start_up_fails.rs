//! `start-up-fails`

use crate::grade;
use crate::physics_summary::{port_id, terminal_id};
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithStartUp;
use latchline_finding::{CodeDoc, DataGrade, ElementId, Figure, Finding, StateKind, Unit};
use latchline_network::start_up::{StageStart, StartUpOutcome};
use latchline_words::missing::Missing;

rule! {
    pub static START_UP_FAILS: "start-up-fails", Error, reads StartUp, check
}

fn check(doc: &CodeDoc, context: &WithStartUp<'_>, report: &mut Judgement) {
    for missing in &context.start_up.missing {
        report.not_judged(doc.code, missing.element.clone(), missing.missing.clone());
    }
    for start in &context.start_up.stages {
        match &start.outcome {
            StartUpOutcome::BrownOut { by_supply, ports } => {
                let holding = ports.iter().map(|(index, port)| port_id(context.site, *index, *port));
                let supply = by_supply.then(|| context.layout.stages[start.stage].id.clone());
                let holding: Vec<ElementId> = supply.into_iter().chain(holding).collect();
                let mut found = about_stage(doc, context, start);
                if !holding.is_empty() {
                    found = found.with("limited_by", holding);
                }
                report.push(found);
            }
            StartUpOutcome::Undecided => {
                let missing = Missing::MoreTime;
                report.not_judged(doc.code, context.layout.stages[start.stage].id.clone(), missing);
            }
            StartUpOutcome::Runs { .. } | StartUpOutcome::Hiccups { .. } => {}
        }
    }
}

/// A finding about a stage that does not start: how many stay down and what booting takes.
pub(super) fn about_stage(doc: &CodeDoc, context: &WithStartUp<'_>, start: &StageStart) -> Finding {
    let stage = &context.layout.stages[start.stage];
    let down: Vec<ElementId> = start
        .devices
        .iter()
        .filter(|device| !device.runs)
        .map(|device| terminal_id(context.site, context.layout, start.stage, device.terminal))
        .collect();
    let mut found = finding(doc, context.source_origin(stage.source))
        .about(stage.id.clone())
        .in_state(StateKind::PowerReturn)
        .with("model", context.source_model(stage.source))
        .with("down", down.len())
        .with("of", start.devices.len())
        .with("boot", Figure::new(start.boot_current_a, Unit::Ampere))
        .graded(grade(context));
    if let Some(first) = down.first() {
        found = found.with("first_down", first);
    }
    if let Some(limit_a) = start.limit_a {
        found = found.with("source_limit", Figure::new(limit_a, Unit::Ampere));
    }
    found
}

/// The grade of what rests on thresholds, capacitors and limits.
pub(super) fn grade(context: &WithStartUp<'_>) -> DataGrade {
    grade::of_values(grade::for_start_up(context.site, context.start_up))
}
