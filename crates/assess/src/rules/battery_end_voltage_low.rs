//! `battery-end-voltage-low`

use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use crate::supply::stage_of_supply;
use latchline_finding::{CodeDoc, ElementId, StateKind, Unit};

rule! {
    pub static BATTERY_END_VOLTAGE_LOW: "battery-end-voltage-low", Warning, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for (index, supply) in context.site.supplies.iter().enumerate() {
        let Some(battery) = &context.site.supply_model(supply).battery else { continue };
        let Some(stage) = stage_of_supply(context, index) else { continue };
        let mut dark: Vec<ElementId> = Vec::new();
        let mut worst: Option<(f64, f64, usize)> = None;
        for device in context.worst.devices.iter().filter(|device| device.at.stage == stage) {
            let on_battery = |phase: usize| context.space.phases[phase].kind == StateKind::BatteryEnd;
            if device.margins.iter().any(|margin| !on_battery(margin.phase) && margin.margin_v() < 0.0) {
                continue;
            }
            let Some(margin) =
                device.margins.iter().find(|margin| on_battery(margin.phase) && margin.margin_v() < 0.0)
            else {
                continue;
            };
            dark.push(context.device_id(device.device).clone());
            // Without operating point there is no figure, but it is worse than any.
            let voltage_v = margin.voltage_v.unwrap_or(0.0);
            if worst.is_none_or(|(value, limit, _)| voltage_v - margin.limit_v < value - limit) {
                worst = Some((voltage_v, margin.limit_v, dark.len() - 1));
            }
        }
        let Some((voltage_v, limit_v, position)) = worst else { continue };
        let first = dark[position].clone();
        let mut found = finding(doc, supply.origin.clone())
            .about(supply.id.clone())
            .in_state(StateKind::BatteryEnd)
            .figures(voltage_v, limit_v, Unit::Volt)
            .with("worst", first)
            .with("count", dark.len())
            .with("devices", dark)
            .also_at("limit", battery.end_bus_voltage.origin.clone())
            .graded(context.grade_of_stage(stage));
        if voltage_v == 0.0 {
            found.value = None;
        }
        report.push(found);
    }
}
