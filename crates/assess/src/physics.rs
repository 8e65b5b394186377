//! The rest of the bus physics beside voltages: signal, power return and short circuit, worked out once for all rules.

use latchline_finding::{Provenance, Sourced};
use latchline_network::short_circuit::{Nuisance, ShortCircuits, nuisance_trips, short_circuits};
use latchline_network::signal_tree::{SignalNetwork, SignalSurvey, survey_with};
use latchline_network::start_up::{Effort, StartUps, start_up};
use latchline_network::states::CurrentState;
use latchline_network::{Layout, Memory, SearchOptions, StateSpace, WorstStates, worst_states_with};
use latchline_site::model::Site;
use std::cell::OnceCell;
use std::collections::BTreeSet;
use std::ops::Deref;
use std::sync::Arc;

/// A value worked out when it is first looked at.
pub struct Lazy<'a, T> {
    value: OnceCell<T>,
    work: Option<&'a dyn Fn() -> T>,
}

impl<'a, T> Lazy<'a, T> {
    /// To be worked out by `work`.
    pub fn new(work: &'a dyn Fn() -> T) -> Self {
        Lazy { value: OnceCell::new(), work: Some(work) }
    }

    /// Worked out already.
    pub fn ready(value: T) -> Self {
        Lazy { value: OnceCell::from(value), work: None }
    }
}

impl<T> Deref for Lazy<'_, T> {
    type Target = T;

    fn deref(&self) -> &T {
        self.value.get_or_init(|| match self.work {
            Some(work) => work(),
            None => unreachable!("a value that is ready is there"),
        })
    }
}

impl<T: Default> Default for Lazy<'_, T> {
    fn default() -> Self {
        Lazy::ready(T::default())
    }
}

/// What rules and summaries read.
#[derive(Default)]
pub struct Physics<'a> {
    /// What reaches every station.
    pub signal: Lazy<'a, Arc<SignalSurvey>>,
    /// What happens when power returns.
    pub start_up: Lazy<'a, StartUps>,
    /// What a short on every run does.
    pub short_circuits: Lazy<'a, ShortCircuits>,
    /// Trips that a legitimate current reaches.
    pub nuisance: Lazy<'a, Vec<Nuisance>>,
}

/// The worst states and the rest of the physics, worked out side by side where there is more than one processor.
pub(crate) fn worked_out(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    effort: Effort,
    memory: &Memory,
) -> (WorstStates, Physics<'static>) {
    let (worst, (signal, start_up)) = rayon::join(
        || worst_states_with(site, layout, space, &SearchOptions::default(), memory),
        || {
            rayon::join(
                || survey_with(site, &SignalNetwork::new(site, layout), memory),
                || start_up(site, layout, effort, memory),
            )
        },
    );
    let physics = Physics {
        signal: Lazy::ready(signal),
        start_up: Lazy::ready(start_up),
        short_circuits: Lazy::ready(short_circuits(site, layout, space)),
        nuisance: Lazy::ready(nuisance(site, layout, &worst)),
    };
    (worst, physics)
}

pub(crate) fn nuisance(site: &Site, layout: &Layout, worst: &WorstStates) -> Vec<Nuisance> {
    let amperes = |list: &[Option<CurrentState>]| -> Vec<Option<f64>> {
        list.iter().map(|current| current.as_ref().and_then(|current| current.current_a)).collect()
    };
    nuisance_trips(site, layout, &amperes(&worst.source_current), &amperes(&worst.run_current))
}

/// Assumed catalogue values that signal and start-up rest on, as "model key", in order.
pub(crate) fn assumed_values(site: &Site, physics: &Physics<'_>) -> Vec<String> {
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
pub(crate) fn assumed_for_signal(site: &Site, physics: &Physics<'_>) -> Vec<String> {
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
pub(crate) fn assumed_for_start_up(site: &Site, physics: &Physics<'_>) -> Vec<String> {
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
