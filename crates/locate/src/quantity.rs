//! What a meter can be asked.

use crate::plant::Plant;
use latchline_finding::{CallMoment, StateKind, Unit};
use latchline_network::BusState;
use latchline_network::readings::ReadingPlace;
use latchline_site::model::{RunStart, Site};

/// A loop that reads open, in ohms: what is above is the same to every meter.
pub const OPEN_OHM: f64 = 1e6;
/// The highest insulation that is told from a higher one, in ohms.
pub const MOST_INSULATION_OHM: f64 = 200e6;

/// Of a voltage lost between two places, what the meter sees of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Legs {
    /// Both legs together: the difference of the voltages between the legs at the two places.
    #[default]
    Both,
    /// One leg: the meter lies between the two ends of the same conductor.
    One,
}

/// What is read, where, and in which state.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Quantity {
    /// Voltage between the legs, everything connected.
    Voltage {
        /// Where; at a run that of the terminals it starts from.
        at: ReadingPlace,
        /// In which state.
        state: BusState,
    },
    /// The voltage lost between two places.
    Drop {
        /// The place nearer to the supply.
        from: ReadingPlace,
        /// The other.
        to: ReadingPlace,
        /// On both legs, or on one.
        legs: Legs,
        /// In which state.
        state: BusState,
    },
    /// Current through one leg, out of a source, into everything else.
    Current {
        /// Where.
        at: ReadingPlace,
        /// In which state.
        state: BusState,
    },
    /// Loop resistance of a run alone and without power, its far end short-circuited.
    Loop {
        /// Index into [`Site::runs`].
        run: usize,
    },
    /// Resistance between the legs of a run alone, its far end open.
    Insulation {
        /// Index into [`Site::runs`].
        run: usize,
    },
    /// Resistance from the legs of a run alone to earth.
    Earth {
        /// Index into [`Site::runs`].
        run: usize,
    },
    /// Capacitance between the legs of a run alone, its far end open.
    Capacitance {
        /// Index into [`Site::runs`].
        run: usize,
    },
}

impl Quantity {
    /// What the meter shows.
    pub fn unit(&self) -> Unit {
        match self {
            Quantity::Voltage { .. } | Quantity::Drop { .. } => Unit::Volt,
            Quantity::Current { .. } => Unit::Ampere,
            Quantity::Loop { .. } | Quantity::Insulation { .. } | Quantity::Earth { .. } => Unit::Ohm,
            Quantity::Capacitance { .. } => Unit::Farad,
        }
    }

    /// The operating state; `None` where the run is read alone.
    pub fn state(&self) -> Option<&BusState> {
        match self {
            Quantity::Voltage { state, .. }
            | Quantity::Drop { state, .. }
            | Quantity::Current { state, .. } => Some(state),
            _ => None,
        }
    }

    /// Where the meter is held.
    pub fn place(&self) -> ReadingPlace {
        match self {
            Quantity::Voltage { at, .. } | Quantity::Current { at, .. } => *at,
            Quantity::Drop { to, .. } => *to,
            Quantity::Loop { run }
            | Quantity::Insulation { run }
            | Quantity::Earth { run }
            | Quantity::Capacitance { run } => ReadingPlace::Run(*run),
        }
    }

    /// Its name in files.
    pub fn name(&self) -> &'static str {
        match self {
            Quantity::Voltage { .. } => "voltage",
            Quantity::Drop { .. } => "drop",
            Quantity::Current { .. } => "current",
            Quantity::Loop { .. } => "loop",
            Quantity::Insulation { .. } => "insulation",
            Quantity::Earth { .. } => "earth",
            Quantity::Capacitance { .. } => "capacitance",
        }
    }

    /// What a meter shows, on the scale on which it is compared: insulation as its common logarithm.
    pub(crate) fn scale(&self, value: f64) -> f64 {
        match self {
            Quantity::Insulation { .. } | Quantity::Earth { .. } => {
                value.clamp(1e-2, MOST_INSULATION_OHM).log10()
            }
            Quantity::Loop { .. } => value.clamp(0.0, OPEN_OHM),
            _ => value,
        }
    }

    /// From the scale on which it is compared to what a meter shows.
    pub(crate) fn unscale(&self, value: f64) -> f64 {
        match self {
            Quantity::Insulation { .. } | Quantity::Earth { .. } => 10.0_f64.powf(value),
            _ => value,
        }
    }
}

/// The name of a place as it is written: `A-12`, `A-D1.4`, `A-R1`.
pub fn place_name(site: &Site, place: ReadingPlace) -> String {
    match place {
        ReadingPlace::Supply(index) => site.supplies[index].id.to_string(),
        ReadingPlace::BoxInput(index) => site.boxes[index].id.to_string(),
        ReadingPlace::BoxOutput(index) => format!("{}.out", site.boxes[index].id),
        ReadingPlace::BoxLink(index) => format!("{}.link", site.boxes[index].id),
        ReadingPlace::Port { box_index, port } => {
            site.start_id(RunStart::Port { box_index, port }).to_string()
        }
        ReadingPlace::Station(index) => site.stations[index].id.to_string(),
        ReadingPlace::Run(index) => site.runs[index].id.to_string(),
    }
}

/// Every place that a reading can name, with its name.
pub fn places(site: &Site) -> Vec<(String, ReadingPlace)> {
    let mut list = Vec::new();
    let mut add = |place| list.push((place_name(site, place), place));
    (0..site.supplies.len()).for_each(|index| add(ReadingPlace::Supply(index)));
    for index in 0..site.boxes.len() {
        add(ReadingPlace::BoxInput(index));
        add(ReadingPlace::BoxOutput(index));
        add(ReadingPlace::BoxLink(index));
        let ports = site.box_model(&site.boxes[index]).ports.value;
        (1..=ports).for_each(|port| add(ReadingPlace::Port { box_index: index, port }));
    }
    (0..site.stations.len()).for_each(|index| add(ReadingPlace::Station(index)));
    (0..site.runs.len()).for_each(|index| add(ReadingPlace::Run(index)));
    list
}

/// A state as it is written behind `@`, with who calls whom: `ringing:A-12/gate+talking:A-15/lodge`.
pub fn exact_state_name(site: &Site, state: &BusState) -> String {
    let call = |call: &latchline_network::StandingCall| {
        let (called, caller) = (&site.stations[call.answering].id, &site.stations[call.caller].id);
        format!("{}:{called}/{caller}", written_moment(call.moment))
    };
    let calls: Vec<String> = state.calls.iter().map(call).collect();
    if calls.is_empty() { state_name(site, state, None) } else { calls.join("+") }
}

/// The moment of a call as it is written behind `@`.
fn written_moment(moment: CallMoment) -> &'static str {
    match moment {
        CallMoment::Releasing => "releasing",
        other => other.name(),
    }
}

/// A quantity as it is written on the command line, without its figure: a call with its caller where another would be taken for it.
pub fn written(plant: &Plant<'_>, quantity: &Quantity) -> String {
    let site = plant.site;
    let at = place_name(site, quantity.place());
    let place = match quantity {
        Quantity::Drop { from, .. } => format!("{}..{at}", place_name(site, *from)),
        Quantity::Insulation { .. } | Quantity::Earth { .. } => format!("{}:{at}", quantity.name()),
        _ => at,
    };
    let name = |state: &BusState| match state.calls.as_slice() {
        [call] if plant.call(call.answering, call.moment, None).as_ref() != Some(state) => {
            exact_state_name(site, state)
        }
        _ => state_name(site, state, Some(quantity.place())),
    };
    match quantity.state().map(name) {
        Some(state) if !state.is_empty() => format!("{place}@{state}"),
        _ => place,
    }
}

/// A state as it is written behind `@`: nothing in standby by day, else `ringing:A-12` for the call of the first that can call A-12.
pub fn state_name(site: &Site, state: &BusState, at: Option<ReadingPlace>) -> String {
    if state.calls.len() > 1 {
        return exact_state_name(site, state);
    }
    match (state.kind, state.calls.first()) {
        (StateKind::StandbyDay, _) => String::new(),
        (_, Some(call)) => {
            let moment = written_moment(call.moment);
            if at == Some(ReadingPlace::Station(call.answering)) {
                String::from(moment)
            } else {
                format!("{moment}:{}", site.stations[call.answering].id)
            }
        }
        (kind, None) => String::from(kind.name()),
    }
}
