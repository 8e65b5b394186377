//! The sheet of one entrance: what the installer needs to know at the door, as owned data.

use super::LockAt;
use super::circuit::{LockCircuit, Unknown, lock_circuit};
use super::escape::{EscapeRule, escape_rules};
use super::heights::{HeightRange, height_range};
use super::times::{LockTimes, lock_times};
use super::wiring::{Wiring, wiring};
use crate::calculation::{CalculationLine, Input, Limit, Rounding};
use crate::rule::Context;
use latchline_finding::{ElementId, Figure, Provenance, Sourced, Unit};
use latchline_site::catalogue::{AccessoryKind, Feed, LockKind, PowerLoss};
use latchline_site::model::{Entrance, LockFeed, LockUse};

/// Something that the sheet must say beside the figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Isolate and prove dead before wiring; mains work by licensed people.
    IsolateAndProveDead,
    /// Extra-low voltage apart from mains.
    KeepApartFromMains,
    /// Release on escape routes and the fire interlock are decided by the responsible person; local
    /// codes prevail.
    ResponsiblePersonDecides,
    /// The way out must work without the bus and without the door station.
    WayOutWithoutBus,
    /// The relay belongs on the secure side of the door.
    RelayOnSecureSide,
    /// A diode conducts one way: mind its polarity, and never on alternating current.
    DiodePolarity,
    /// The coil is energised all the time the door is shut: a warm lock is normal, its supply needs a
    /// battery or it opens.
    OpensOnPowerFailure,
    /// The drive's own safety devices are another trade's work.
    DriveSafety,
    /// A figure of the sheet rests on assumed values.
    RestsOnAssumedValues,
}

/// A module in the door station's chain.
#[derive(Debug, Clone, PartialEq)]
pub struct AccessoryLine {
    /// Its place in the chain, from 1.
    pub position: usize,
    /// Model name.
    pub model: String,
    /// What it is.
    pub kind: AccessoryKind,
    /// Current by day in amperes.
    pub current_a: f64,
    /// Current with illumination at night in amperes.
    pub night_current_a: f64,
}

/// One lock of an entrance.
#[derive(Debug, Clone, PartialEq)]
pub struct LockSheet {
    /// Which of the entrance's locks, from 1.
    pub number: usize,
    /// Model name.
    pub model: String,
    /// Title of the model.
    pub title: String,
    /// How it opens.
    pub kind: LockKind,
    /// What it does without power.
    pub power_loss: PowerLoss,
    /// Kind of current it is made for.
    pub current_kind: Feed,
    /// Cable as shown and its length in metres, where stated.
    pub cable: Option<(String, f64)>,
    /// The figures, or why there are none.
    pub circuit: Result<LockCircuit, Unknown>,
    /// The figures again as a calculation, line by line; empty where there are none.
    pub calculation: Vec<CalculationLine>,
    /// How it is wired.
    pub wiring: Wiring,
    /// Times of release and coil.
    pub times: Option<LockTimes>,
    /// Exit button, as stated in the plan; `None` where it says nothing, which counts as none.
    pub exit_button: Option<bool>,
    /// As stated in the plan; `None` where it says nothing.
    pub mechanical_escape: Option<bool>,
    /// As stated in the plan; `None` where it says nothing.
    pub emergency_release: Option<bool>,
    /// As stated in the plan; `None` where it says nothing.
    pub relay_on_secure_side: Option<bool>,
    /// Contact that reports whether the door is shut; `None` where the plan says nothing, which counts as none.
    pub door_contact: Option<bool>,
    /// Delay of delayed egress in seconds, where the plan has one.
    pub delayed_egress_s: Option<f64>,
    /// What must be said beside the figures, in a fixed order.
    pub cautions: Vec<Caution>,
}

/// The sheet of one entrance.
#[derive(Debug, Clone, PartialEq)]
pub struct DoorSheet {
    /// The entrance.
    pub entrance: ElementId,
    /// Where it is, in words.
    pub place: String,
    /// Whether it is outdoors or in the wet.
    pub outdoors: bool,
    /// Model of the door station.
    pub station: String,
    /// Lock outputs of the station.
    pub lock_outputs: u32,
    /// Whether people escape through it; `None` where the plan says nothing, which counts as no.
    pub escape_route: Option<bool>,
    /// Whether a fire interlock acts on it; `None` where the plan says nothing, which counts as no.
    pub fire_interlock: Option<bool>,
    /// Height of the controls in metres, where stated.
    pub control_height_m: Option<f64>,
    /// The published range for the site's country.
    pub height_range: HeightRange,
    /// Published rules for escape routes in the site's country; empty where the entrance is none.
    pub escape_rules: &'static [EscapeRule],
    /// Its modules in the order of their chain.
    pub accessories: Vec<AccessoryLine>,
    /// What the station gives for them, in amperes.
    pub accessory_limit_a: Option<f64>,
    /// Its locks.
    pub locks: Vec<LockSheet>,
}

impl DoorSheet {
    /// Assumed values under its figures, as "part key".
    pub fn assumed(&self) -> Vec<String> {
        let circuits = self.locks.iter().filter_map(|lock| lock.circuit.as_ref().ok());
        circuits.flat_map(|circuit| circuit.assumed.list().to_vec()).collect()
    }
}

/// The sheets of all entrances in file order.
pub fn door_sheets(context: &Context<'_>) -> Vec<DoorSheet> {
    context.site.entrances.iter().map(|entrance| door_sheet(context, entrance)).collect()
}

fn door_sheet(context: &Context<'_>, entrance: &Entrance) -> DoorSheet {
    let site = context.site;
    let station = site.station_model(&site.stations[entrance.station]);
    let country = site.country.as_ref().map(|country| country.value.as_str());
    let accessories = entrance.accessories.iter().enumerate().map(|(index, name)| {
        let module = site.accessory(name);
        let current_a = module.current.value.as_amps();
        let extra_a = module.night_current.as_ref().map_or(0.0, |extra| extra.value.as_amps());
        AccessoryLine {
            position: index + 1,
            model: module.head.name.clone(),
            kind: module.kind.value,
            current_a,
            night_current_a: current_a + extra_a,
        }
    });
    DoorSheet {
        entrance: entrance.id.clone(),
        place: site.place_words(&entrance.place),
        outdoors: entrance.place.outdoors,
        station: station.head.name.clone(),
        lock_outputs: station.lock_outputs.value,
        escape_route: if_stated(&entrance.escape_route),
        fire_interlock: if_stated(&entrance.fire_interlock),
        control_height_m: entrance.control_height.as_ref().map(|height| height.value.as_metres()),
        height_range: height_range(country),
        escape_rules: if entrance.escape_route.value { escape_rules(country) } else { &[] },
        accessories: accessories.collect(),
        accessory_limit_a: station.accessory_current.as_ref().map(|limit| limit.value.as_amps()),
        locks: LockAt::of_entrance(site, entrance).map(|at| lock_sheet(context, &at)).collect(),
    }
}

/// A value that the plan states; `None` for a default.
fn if_stated(value: &Sourced<bool>) -> Option<bool> {
    (value.provenance != Provenance::Assumed).then_some(value.value)
}

fn lock_sheet(context: &Context<'_>, at: &LockAt<'_>) -> LockSheet {
    let (used, lock) = (at.used, at.lock);
    let circuit = lock_circuit(context, at);
    let calculation = circuit.as_ref().map_or(Vec::new(), |circuit| calculation(context, at, circuit));
    let stated = |value: &Option<Sourced<bool>>| value.as_ref().map(|value| value.value);
    LockSheet {
        number: at.number,
        model: lock.head.name.clone(),
        title: lock.head.title.clone(),
        kind: lock.kind.value,
        power_loss: lock.power_loss.value,
        current_kind: lock.feed.value,
        cable: cable_words(used),
        cautions: cautions(at, circuit.as_ref().ok()),
        circuit,
        calculation,
        wiring: wiring(at),
        times: lock_times(at),
        exit_button: if_stated(&used.exit_button),
        mechanical_escape: stated(&used.mechanical_escape),
        emergency_release: stated(&used.emergency_release),
        relay_on_secure_side: stated(&used.relay_on_secure_side),
        door_contact: if_stated(&used.door_contact),
        delayed_egress_s: used.delayed_egress.as_ref().map(|delay| delay.value.as_seconds()),
    }
}

fn cable_words(used: &LockUse) -> Option<(String, f64)> {
    Some((used.cable.as_ref()?.value.clone(), used.length.as_ref()?.value.as_metres()))
}

fn cautions(at: &LockAt<'_>, circuit: Option<&LockCircuit>) -> Vec<Caution> {
    let mut list = vec![Caution::IsolateAndProveDead];
    if !at.takes_dry_contact() {
        list.push(Caution::KeepApartFromMains);
    }
    if at.entrance.escape_route.value {
        list.extend([Caution::ResponsiblePersonDecides, Caution::WayOutWithoutBus]);
    }
    if at.used.relay_on_secure_side.as_ref().is_none_or(|stated| !stated.value) {
        list.push(Caution::RelayOnSecureSide);
    }
    let suppression = at.used.suppression.as_ref().map(|stated| stated.value);
    if suppression == Some(latchline_site::model::Suppression::Diode) {
        list.push(Caution::DiodePolarity);
    }
    if at.is_gate() {
        list.push(Caution::DriveSafety);
    } else if at.lock.power_loss.value == PowerLoss::Opens {
        list.push(Caution::OpensOnPowerFailure);
    }
    if circuit.is_some_and(|circuit| !circuit.assumed.list().is_empty()) {
        list.push(Caution::RestsOnAssumedValues);
    }
    list
}

fn calculation(context: &Context<'_>, at: &LockAt<'_>, circuit: &LockCircuit) -> Vec<CalculationLine> {
    let conditions = &context.site.conditions;
    let feed_source = match at.used.feed.value {
        LockFeed::Station => format!("{} lock_output_voltage", at.station.head.name),
        LockFeed::Bus => "lowest bus voltage at the station in any state".to_string(),
        _ => format!("{} lock supply_voltage", at.entrance.id),
    };
    let tolerance_source = if circuit.feed.from_bus {
        "from its nominal to its lowest voltage"
    } else {
        "tolerance of the feed"
    };
    let lock_name = &at.lock.head.name;
    let cable = at.used.cable.as_ref().map_or("", |cable| cable.value.as_str());
    let loop_input =
        Input::new("R", circuit.adverse_loop_ohm, Unit::Ohm, "the line above").rounded(Rounding::Up);
    let current_source = if circuit.by_inrush {
        format!("{lock_name} inrush_current")
    } else {
        format!("{lock_name} current and 10 % (cold coil, tolerance)")
    };
    let current = Input::new("I", circuit.adverse_current_a, Unit::Ampere, &current_source);
    let hot_c = conditions.hottest_temperature.value.as_celsius();
    let longest_m = circuit.length_m * (1.0 + conditions.length_tolerance.value.as_fraction());
    let joint_ohm = conditions.joint_resistance.value.as_ohms();
    let joints = at.used.joints.value;
    // What is left after the joints is the conductors' share.
    let conductors_ohm = circuit.adverse_loop_ohm - 2.0 * f64::from(joints) * joint_ohm;
    let per_metre_ohm = if longest_m > 0.0 { conductors_ohm / (2.0 * longest_m) } else { 0.0 };
    vec![
        CalculationLine {
            quantity: "loop-resistance",
            formula: "R = 2 r L + 2 n j",
            inputs: vec![
                Input::new(
                    "r per metre",
                    per_metre_ohm,
                    Unit::Ohm,
                    &format!("{cable} at {hot_c} °C, upper tolerance"),
                ),
                Input::new("L", longest_m, Unit::Metre, "length with its tolerance"),
                Input::new("n", f64::from(joints), Unit::Count, "joints per conductor"),
                Input::new("j", joint_ohm, Unit::Ohm, "conditions joint_resistance"),
            ],
            result: Figure::new(circuit.adverse_loop_ohm, Unit::Ohm),
            rounding: Rounding::Up,
            limit: circuit.most_loop_ohm.map(|ohm| Limit::most(ohm, Unit::Ohm)),
            source: "Ohm's law; loop is both conductors",
        },
        CalculationLine {
            quantity: "least-voltage-at-lock",
            formula: "V = V' - R I, or V' / (1 + R I / Vr) above rated voltage",
            inputs: vec![
                Input::new("V'", circuit.feed.low_v, Unit::Volt, &format!("{feed_source}, lower end"))
                    .rounded(Rounding::Down),
                loop_input.clone(),
                current.clone(),
                Input::new("Vr", circuit.rated_v, Unit::Volt, &format!("{lock_name} voltage")),
            ],
            result: Figure::new(circuit.least_v, Unit::Volt),
            rounding: Rounding::Down,
            limit: Some(Limit::least(circuit.least_allowed_v, Unit::Volt)),
            source: "Kirchhoff's voltage law; lower bound for every lock that draws at most I up to Vr",
        },
        CalculationLine {
            quantity: "nominal-voltage-at-lock",
            formula: "V = Vn - R I",
            inputs: vec![
                Input::new("Vn", circuit.feed.voltage_v, Unit::Volt, &feed_source),
                Input::new("R", circuit.loop_ohm, Unit::Ohm, "loop with nominal values"),
                Input::new("I", circuit.current_a, Unit::Ampere, &format!("{lock_name} current")),
            ],
            result: Figure::new(circuit.nominal_v, Unit::Volt),
            rounding: Rounding::Nearest,
            limit: None,
            source: "what a meter should read, give or take its tolerances",
        },
        CalculationLine {
            quantity: "highest-voltage-at-lock",
            formula: "V <= V''",
            inputs: vec![
                Input::new("V''", circuit.highest_v, Unit::Volt, &format!("{feed_source}, upper end"))
                    .rounded(Rounding::Up),
            ],
            result: Figure::new(circuit.highest_v, Unit::Volt),
            rounding: Rounding::Up,
            limit: Some(Limit::most(circuit.most_allowed_v, Unit::Volt)),
            source: "a cable never raises the voltage",
        },
        CalculationLine {
            quantity: "least-supply-voltage",
            formula: "Vs = (Vmin + R I) / (1 - t)",
            inputs: vec![
                Input::new(
                    "Vmin",
                    circuit.least_allowed_v,
                    Unit::Volt,
                    &format!("{lock_name} undervoltage_tolerance"),
                ),
                loop_input,
                current,
                Input::new("t", circuit.low_share, Unit::Percent, tolerance_source).rounded(Rounding::Up),
            ],
            result: Figure::new(circuit.needed_supply_v, Unit::Volt),
            rounding: Rounding::Up,
            limit: None,
            source: "the second line solved for the feed",
        },
    ]
}
