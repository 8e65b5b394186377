//! The rest of the bus physics beside voltages: signal, power return and short circuit, worked out once for all rules.

use latchline_finding::{Provenance, Sourced};
use latchline_network::short_circuit::{Nuisance, ShortCircuits, nuisance_trips, short_circuits};
use latchline_network::signal_tree::{SignalNetwork, SignalSurvey, survey};
use latchline_network::start_up::{StartUps, start_up};
use latchline_network::states::CurrentState;
use latchline_network::{Layout, SearchOptions, StateSpace, WorstStates, worst_states};
use latchline_site::model::Site;
use std::collections::BTreeSet;

/// What rules and summaries read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Physics {
    /// What reaches every station.
    pub signal: SignalSurvey,
    /// What happens when power returns.
    pub start_up: StartUps,
    /// What a short on every run does.
    pub short_circuits: ShortCircuits,
    /// Trips that a legitimate current reaches.
    pub nuisance: Vec<Nuisance>,
}

/// The worst states and the rest of the physics, side by side where there is more than one processor.
pub(crate) fn worked_out(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    seeks_mending: bool,
) -> (WorstStates, Physics) {
    let (worst, (signal, start_up)) = rayon::join(
        || worst_states(site, layout, space, &SearchOptions::default()),
        || {
            rayon::join(
                || survey(site, &SignalNetwork::new(site, layout)),
                || start_up(site, layout, seeks_mending),
            )
        },
    );
    let amperes = |list: &[Option<CurrentState>]| -> Vec<Option<f64>> {
        list.iter().map(|current| current.as_ref().and_then(|current| current.current_a)).collect()
    };
    let nuisance =
        nuisance_trips(site, layout, &amperes(&worst.source_current), &amperes(&worst.run_current));
    let short_circuits = short_circuits(site, layout, space);
    (worst, Physics { signal, start_up, short_circuits, nuisance })
}

/// Assumed catalogue values that signal and start-up rest on, as "model key", in order.
pub(crate) fn assumed_values(site: &Site, physics: &Physics) -> Vec<String> {
    let mut list = assumed_for_signal(site, physics);
    list.extend(assumed_for_start_up(site, physics));
    list.sort();
    list.dedup();
    list
}

fn of<T>(value: &Option<Sourced<T>>) -> Provenance {
    value.as_ref().map_or(Provenance::Stated, |value| value.provenance)
}

/// Assumed catalogue values that signal rests on, as "model key", in order.
pub(crate) fn assumed_for_signal(site: &Site, physics: &Physics) -> Vec<String> {
    let mut list = BTreeSet::new();
    let mut note = |name: &str, key: &str, provenance: Provenance| {
        if provenance == Provenance::Assumed {
            list.insert(format!("{name} {key}"));
        }
    };
    if !physics.signal.bands.is_empty() {
        for run in &site.runs {
            let cable = site.cable(run);
            if let Some(line) = &cable.line {
                note(&cable.head.name, "line", line.capacitance.provenance);
                note(&cable.head.name, "line", line.inductance.provenance);
                note(&cable.head.name, "line", line.skin_corner.provenance);
                note(&cable.head.name, "line", line.loss_tangent.provenance);
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
pub(crate) fn assumed_for_start_up(site: &Site, physics: &Physics) -> Vec<String> {
    let mut list = BTreeSet::new();
    let mut note = |name: &str, key: &str, provenance: Provenance| {
        if provenance == Provenance::Assumed {
            list.insert(format!("{name} {key}"));
        }
    };
    if !physics.start_up.stages.is_empty() {
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
