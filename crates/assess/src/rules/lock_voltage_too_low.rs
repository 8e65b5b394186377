//! `lock-voltage-too-low`

use super::limit::ROUNDING;
use crate::door::LockAt;
use crate::door::circuit::{Unknown, lock_circuit, rated_origin};
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Figure, Unit};

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
            .with("needed_supply", Figure::new(circuit.needed_supply_v, Unit::Volt))
            .also_at("limit", rated_origin(&at))
            .graded(circuit.assumed.grade());
        if let Some(cable) = cable {
            found = found.with("cable", cable.value.as_str());
        }
        if let Some(most_ohm) = circuit.most_loop_ohm {
            found = found.with("most_loop", Figure::new(most_ohm, Unit::Ohm));
        }
        report.push(found);
    }
}
