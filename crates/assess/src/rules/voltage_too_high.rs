//! `voltage-too-high`

use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, StateKind, Unit};
use latchline_network::Device;
use latchline_words::missing::Missing;

rule! {
    pub static VOLTAGE_TOO_HIGH: "voltage-too-high", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for device in &context.worst.devices {
        let highest_v = context.space.highest_v[device.at.stage][device.at.node];
        let limit = match device.device {
            Device::Station(index) => {
                &context.site.station_model(&context.site.stations[index]).highest_voltage
            }
            Device::Box(index) => &context.site.box_model(&context.site.boxes[index]).highest_voltage,
        };
        let model = context.device_model(device.device);
        let Some(limit) = limit else {
            let missing = Missing::key(model, "highest_voltage");
            report.not_judged(doc.code, context.device_id(device.device).clone(), missing);
            continue;
        };
        let limit_v = limit.value.as_volts();
        if highest_v > limit_v {
            let stage = &context.layout.stages[device.at.stage];
            let found = finding(doc, context.source_origin(stage.source))
                .about(context.device_id(device.device).clone())
                .in_state(StateKind::LightLoad)
                .figures(highest_v, limit_v, Unit::Volt)
                .with("model", model)
                .with("source", &stage.id)
                .also_at("limit", limit.origin.clone())
                .graded(context.grade_of_stage(device.at.stage));
            report.push(found);
        }
    }
}
