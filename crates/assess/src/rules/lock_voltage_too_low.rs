//! `lock-voltage-too-low`

use super::limit::ROUNDING;
use crate::door::LockAt;
use crate::door::circuit::{Unknown, lock_circuit, rated_origin};
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Figure, Unit};
use latchline_site::model::LockPart;
use latchline_words::missing::Missing;

/// Metres of the lock's own cable that a cable to a button or contact may be as much as, where nothing is stated of it (assumed).
const UNSTATED_M: f64 = 5.0;

rule! {
    pub static LOCK_VOLTAGE_TOO_LOW: "lock-voltage-too-low", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let circuit = match lock_circuit(context, &at) {
            Ok(circuit) => circuit,
            Err(Unknown::Missing(missing)) => {
                for one in missing {
                    report.not_judged(doc.code, at.entrance.id.clone(), one);
                }
                continue;
            }
            Err(Unknown::NotNeeded | Unknown::NoFeed(_) | Unknown::BusCollapses) => continue,
        };
        if circuit.least_v >= circuit.least_allowed_v * (1.0 - ROUNDING) {
            // Cables of which nothing is known are not counted: what they may take is there, or nobody can say.
            let each_v = circuit.adverse_current_a * circuit.cable_loop.adverse_ohm_of_m(UNSTATED_M);
            // A supply stands beside the station that it serves.
            let several = circuit.uncounted.iter().filter(|part| **part != LockPart::Supply).count();
            let left_v = circuit.least_v - each_v * several as f64;
            if left_v < circuit.least_allowed_v * (1.0 - ROUNDING) {
                let place = format!("{} lock", at.entrance.id);
                report.not_judged(doc.code, at.entrance.id.clone(), Missing::key(&place, "cables"));
            }
            continue;
        }
        let cable = at.used.cable.as_ref();
        let length = at.used.length.as_ref();
        let origin = length.map_or(at.used.origin.clone(), |length| length.origin.clone());
        let mut found = at
            .describe(finding(doc, origin))
            .figures(circuit.least_v, circuit.least_allowed_v, Unit::Volt)
            .with("nominal", Figure::new(circuit.nominal_v, Unit::Volt))
            .with("feed", Figure::new(circuit.feed.low_v, Unit::Volt))
            .with("current", Figure::new(circuit.adverse_current_a, Unit::Ampere))
            .with("loop", Figure::new(circuit.adverse_loop_ohm, Unit::Ohm))
            .with("length", Figure::new(circuit.cable_loop.length_m, Unit::Metre))
            .also_at("limit", rated_origin(&at))
            .graded(circuit.assumed.grade());
        if let Some(cable) = cable {
            found = found.with("cable", cable.value.as_str());
        }
        // In whole tenths upwards, so that the figure as it is printed is enough; and only where the lock bears it with little drop.
        let needed_v = (circuit.needed_supply_v * 10.0 - 1e-6).ceil() / 10.0;
        let highest_v = circuit.highest_v * needed_v / circuit.feed.voltage_v;
        found = if highest_v <= circuit.most_allowed_v {
            found.with("needed_supply", Figure::new(needed_v, Unit::Volt))
        } else {
            found.with("near_supply", Figure::new(circuit.rated_v, Unit::Volt))
        };
        if let Some(most_ohm) = circuit.most_loop_ohm {
            found = found.with("most_loop", Figure::new(most_ohm, Unit::Ohm));
        }
        report.push(found);
    }
}
