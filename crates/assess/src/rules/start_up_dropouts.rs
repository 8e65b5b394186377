//! `start-up-dropouts`

use super::start_up_fails::grade;
use crate::physics_summary::terminal_id;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithStartUp;
use latchline_finding::{CodeDoc, Figure, StateKind, Unit};
use latchline_network::start_up::StartUpOutcome;
use latchline_words::figures::start_s;

rule! {
    pub static START_UP_DROPOUTS: "start-up-dropouts", Warning, reads StartUp, check
}

fn check(doc: &CodeDoc, context: &WithStartUp<'_>, report: &mut Judgement) {
    for start in &context.start_up.stages {
        let StartUpOutcome::Runs { time_s } = start.outcome else { continue };
        let (dropouts, trips) = (start.dropouts(), start.trips);
        if dropouts + trips == 0 {
            continue;
        }
        let stage = &context.layout.stages[start.stage];
        let mut found = finding(doc, context.source_origin(stage.source))
            .about(stage.id.clone())
            .in_state(StateKind::PowerReturn)
            .figures((dropouts + trips) as f64, 0.0, Unit::Count)
            .with("model", context.source_model(stage.source))
            .with("devices", start.devices.iter().filter(|device| device.dropouts > 0).count())
            .with("time", Figure::new(start_s(time_s), Unit::Second))
            .graded(grade(context));
        // Each is told by its own count, and only where there is one.
        for (name, count) in [("dropouts", dropouts), ("trips", trips)] {
            if count > 0 {
                found = found.with(name, count);
            }
        }
        let most = start.devices.iter().rev().max_by_key(|device| device.dropouts);
        if let Some(most) = most.filter(|device| device.dropouts > 0) {
            found = found.with("most", terminal_id(context.site, context.layout, start.stage, most.terminal));
            found = found.with("most_dropouts", most.dropouts);
        }
        report.push(found);
    }
}
