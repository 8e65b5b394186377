//! `voltage-too-low`

use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Unit};
use latchline_network::Device;
use latchline_words::missing::Missing;
use latchline_words::terms::Term;

rule! {
    pub static VOLTAGE_TOO_LOW: "voltage-too-low", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for device in &context.worst.devices {
        // Where a search was not carried to its end, what was found may not be the worst.
        let is_searched = device.margins.iter().all(|margin| margin.complete);
        if !is_searched && device.worst().margin_v() >= 0.0 {
            let id = context.device_id(device.device).clone();
            report.not_judged(doc.code, id, Missing::EverySetOfCalls);
        }
        // One finding a device: the state with the least margin of those that have an operating point. What collapses in one state
        // (`no-operating-point`) may be short in others as well.
        let Some(worst) = device.worst_held() else { continue };
        let Some(voltage_v) = worst.voltage_v else { continue };
        if voltage_v >= worst.limit_v {
            continue;
        }
        let (limit_origin, limit_key) = match device.device {
            Device::Station(index) => {
                let model = context.site.station_model(&context.site.stations[index]);
                if worst.limit_v == model.least_voltage.value.as_volts() {
                    (model.least_voltage.origin.clone(), "least_voltage")
                } else {
                    (model.least_standby_voltage.origin.clone(), "least_standby_voltage")
                }
            }
            Device::Box(index) => {
                let model = context.site.box_model(&context.site.boxes[index]);
                let origin = model.least_voltage.as_ref().map(|least| least.origin.clone());
                (origin.unwrap_or_default(), "least_voltage")
            }
        };
        let id = context.device_id(device.device).clone();
        let mut found = finding(doc, context.wiring_origin(device.device))
            .about(id)
            .in_state(context.state(worst.phase, &worst.set))
            .figures(voltage_v, worst.limit_v, Unit::Volt)
            .with("model", context.device_model(device.device))
            .with("limit_key", limit_key)
            .also_at("limit", limit_origin)
            .graded(context.grade_of_stage(device.at.stage));
        if context.space.phases[worst.phase].is_bound {
            found = found.with("bound", Term::AtLeast.both());
        }
        if let Some(nominal_v) = device.nominal_v.filter(|_| worst.phase == device.worst().phase) {
            found = found.with("nominal", latchline_finding::Figure::new(nominal_v, Unit::Volt));
        }
        if let Some(run) = context.run_to(device.at) {
            found = found.with("run", &context.site.runs[run].id);
            if context.topology.stations_beyond[run].len() > 1 {
                found = found.with("fewer", Term::FewerStationsOnTheRun.both());
            }
        }
        report.push(found);
    }
}
