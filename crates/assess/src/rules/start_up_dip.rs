//! `start-up-dip`

use crate::physics_summary::terminal_id;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithStartUp;
use latchline_finding::{CodeDoc, StateKind, Unit};
use latchline_network::StageNode;
use latchline_network::start_up::StartUpOutcome;

rule! {
    pub static START_UP_DIP: "start-up-dip", Warning, reads StartUp, check
}

fn check(doc: &CodeDoc, context: &WithStartUp<'_>, report: &mut Judgement) {
    for start in &context.start_up.stages {
        if !matches!(start.outcome, StartUpOutcome::Runs { .. }) {
            continue;
        }
        for device in &start.devices {
            let (StageNode::Station(station), Some(lowest_v)) = (device.terminal, device.lowest_v) else {
                continue;
            };
            let model = context.site.station_model(&context.site.stations[station]);
            let limit_v = model.least_standby_voltage.value.as_volts();
            if lowest_v >= limit_v {
                continue;
            }
            let found = finding(doc, context.wiring_origin(latchline_network::Device::Station(station)))
                .about(terminal_id(context.site, context.layout, start.stage, device.terminal))
                .in_state(StateKind::PowerReturn)
                .figures(lowest_v, limit_v, Unit::Volt)
                .with("model", model.head.name.as_str())
                .with("source", &context.layout.stages[start.stage].id)
                .also_at("limit", model.least_standby_voltage.origin.clone())
                .graded(super::start_up_fails::grade(context));
            report.push(found);
        }
    }
}
