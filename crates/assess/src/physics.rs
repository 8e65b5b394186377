//! Assumed values under signal and power return, and trips that a legitimate current reaches.

use latchline_finding::{Provenance, Sourced};
use latchline_network::short_circuit::{Nuisance, nuisance_trips};
use latchline_network::signal_tree::SignalSurvey;
use latchline_network::start_up::StartUps;
use latchline_network::states::CurrentState;
use latchline_network::{Layout, WorstStates};
use latchline_site::model::Site;
use std::collections::BTreeSet;

pub(crate) fn nuisance(site: &Site, layout: &Layout, worst: &WorstStates) -> Vec<Nuisance> {
    let amperes = |list: &[Option<CurrentState>]| -> Vec<Option<f64>> {
        list.iter().map(|current| current.as_ref().and_then(|current| current.current_a)).collect()
    };
    nuisance_trips(site, layout, &amperes(&worst.source_current), &amperes(&worst.run_current))
}

fn of<T>(value: &Option<Sourced<T>>) -> Provenance {
    value.as_ref().map_or(Provenance::Stated, |value| value.provenance)
}

/// Assumed catalogue values that signal rests on, as "model key", in order.
pub(crate) fn assumed_for_signal(site: &Site, signal: &SignalSurvey) -> Vec<String> {
    let mut list = BTreeSet::new();
    let mut note = |name: &str, key: &str, provenance: Provenance| {
        if provenance == Provenance::Assumed {
            list.insert(format!("{name} {key}"));
        }
    };
    if !signal.bands.is_empty() {
        for run in &site.runs {
            let cable = site.cable(run);
            if let Some(line) = &cable.line {
                for provenance in line.provenances() {
                    note(&cable.head.name, "line", provenance);
                }
            }
        }
        for station in &site.stations {
            let model = site.station_model(station);
            note(&model.head.name, "bridging_resistance", of(&model.bridging_resistance));
            note(&model.head.name, "bridging_capacitance", of(&model.bridging_capacitance));
            note(&model.head.name, "signal_impedance", of(&model.signal_impedance));
        }
        for item in &site.boxes {
            let model = site.box_model(item);
            note(&model.head.name, "signal_loss", of(&model.signal_loss));
            note(&model.head.name, "feed_choke", of(&model.feed_choke));
        }
    }
    list.into_iter().collect()
}

/// Assumed catalogue values that power return rests on, as "model key", in order.
pub(crate) fn assumed_for_start_up(site: &Site, start_up: &StartUps) -> Vec<String> {
    let mut list = BTreeSet::new();
    let mut note = |name: &str, key: &str, provenance: Provenance| {
        if provenance == Provenance::Assumed {
            list.insert(format!("{name} {key}"));
        }
    };
    if !start_up.stages.is_empty() {
        for station in &site.stations {
            let model = site.station_model(station);
            note(&model.head.name, "turn_on_voltage", of(&model.turn_on_voltage));
            note(&model.head.name, "turn_off_voltage", of(&model.turn_off_voltage));
            note(&model.head.name, "input_capacitance", of(&model.input_capacitance));
            note(&model.head.name, "inrush_limit", of(&model.inrush_limit));
            note(&model.head.name, "boot_time", of(&model.boot_time));
        }
        for supply in &site.supplies {
            let model = site.supply_model(supply);
            note(&model.head.name, "limit_current", of(&model.limit_current));
            note(&model.head.name, "trip_delay", of(&model.trip_delay));
            note(&model.head.name, "retry_pause", of(&model.retry_pause));
        }
    }
    list.into_iter().collect()
}
