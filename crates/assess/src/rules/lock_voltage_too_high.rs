//! `lock-voltage-too-high`

use super::limit::ROUNDING;
use crate::door::LockAt;
use crate::door::circuit::{Unknown, feed, lock_circuit, rated_origin};
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static LOCK_VOLTAGE_TOO_HIGH: "lock-voltage-too-high", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let feed = match feed(context, &at) {
            Ok(feed) => feed,
            // Said by `lock-voltage-too-low` or `lock-feed-missing`.
            Err(Unknown::Missing(_) | Unknown::NotNeeded | Unknown::NoFeed(_) | Unknown::BusCollapses) => {
                continue;
            }
        };
        let Some(rated) = &at.lock.voltage else { continue };
        let tolerance = &at.lock.overvoltage_tolerance;
        let most_v = rated.value.as_volts() * (1.0 + tolerance.value.as_fraction());
        // While it is fed, over its own cable; where that is not stated, what the feed gives. A contact that leaves it open leaves it none.
        let circuit = lock_circuit(context, &at).ok();
        let highest_v = circuit.as_ref().map_or(feed.high_v, |circuit| circuit.highest_v);
        if highest_v <= most_v * (1.0 + ROUNDING) {
            continue;
        }
        let mut assumed = circuit.map_or_else(|| feed.assumed.clone(), |circuit| circuit.assumed);
        assumed.note(&at.lock.head.name, "voltage", rated);
        assumed.note(&at.lock.head.name, "overvoltage_tolerance", tolerance);
        let origin = match &at.used.supply_voltage {
            Some(voltage) if feed.origin == voltage.origin => voltage.origin.clone(),
            _ => at.used.model.origin.clone(),
        };
        let found = at
            .describe(finding(doc, origin))
            .figures(highest_v, most_v, Unit::Volt)
            .also_at("limit", rated_origin(&at))
            .also_at("feed", feed.origin.clone())
            .graded(assumed.grade());
        report.push(found);
    }
}
