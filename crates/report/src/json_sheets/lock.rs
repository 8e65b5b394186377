//! One lock of a door.

use super::line::{LineDocument, line};
use super::said::{contact, english};
use crate::json_values::finite;
use latchline_assess::door::circuit::{LockCircuit, Unknown};
use latchline_assess::door::sheet::LockSheet;
use latchline_assess::door::times::{Energised, HoldWinner, LockTimes};
use latchline_assess::door::words;
use latchline_assess::{CalculationLine, Missing};
use latchline_finding::Language;
use latchline_site::catalogue::{Feed, LockKind, PowerLoss};
use latchline_site::model::{LockFeed, LockRelay, Suppression};
use schemars::JsonSchema;
use serde::Serialize;

/// One lock.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct LockDocument {
    /// Which of the entrance's locks, from 1.
    number: usize,
    /// Model name.
    model: String,
    /// "strike", "magnet", "motor" or "gate".
    kind: &'static str,
    /// "opens" or "stays-shut".
    power_loss: &'static str,
    /// "dc", "ac" or "either".
    current_kind: &'static str,
    /// "station", "bus", "own-supply" or "dry-contact".
    feed: &'static str,
    /// Lock cable, where stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    cable: Option<String>,
    /// Its length one way in metres, where stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    length_m: Option<f64>,
    /// The other parts of its circuit that the plan has, with their cables.
    part_cables: Vec<PartCableDocument>,
    /// Voltages and currents, where they could be calculated.
    #[serde(skip_serializing_if = "Option::is_none")]
    circuit: Option<CircuitDocument>,
    /// What keeps them from being calculated.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    missing: Vec<String>,
    /// The figures line by line.
    calculation: Vec<LineDocument>,
    /// "normally-open" or "normally-closed", by the plan.
    contact: &'static str,
    /// The same as this kind of lock needs it.
    required_contact: &'static str,
    /// Which relay's contact releases it: "in-station", "between" or "on-secure-side".
    relay: &'static str,
    /// Contact of the station's relay that switches the coil of a relay in between, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    coil_contact: Option<&'static str>,
    /// In series from feed to feed, in words.
    series: Vec<&'static str>,
    /// Across the relay's contact, in words.
    across_contact: Vec<&'static str>,
    /// Across the lock: "diode", "clamp" or "varistor".
    #[serde(skip_serializing_if = "Option::is_none")]
    across_lock: Option<&'static str>,
    /// Times of release and coil.
    #[serde(skip_serializing_if = "Option::is_none")]
    times: Option<TimesDocument>,
    /// Exit button; left out where the plan says nothing, which counts as none.
    #[serde(skip_serializing_if = "Option::is_none")]
    exit_button: Option<bool>,
    /// Mechanical means of escape; left out where the plan says nothing, which counts as none.
    #[serde(skip_serializing_if = "Option::is_none")]
    mechanical_escape: Option<bool>,
    /// Emergency release in the lock's circuit; left out where the plan says nothing, which counts as none.
    #[serde(skip_serializing_if = "Option::is_none")]
    emergency_release: Option<bool>,
    /// Whether the relay is on the secure side, where stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    relay_on_secure_side: Option<bool>,
    /// Door contact; left out where the plan says nothing, which counts as none.
    #[serde(skip_serializing_if = "Option::is_none")]
    door_contact: Option<bool>,
    /// Delay of delayed egress in seconds, where the plan has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    delayed_egress_s: Option<f64>,
    /// What must be said beside the figures.
    cautions: Vec<&'static str>,
}

/// A part of a lock's circuit with its cable.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct PartCableDocument {
    /// "exit-button", "emergency-release", "fire-contact", "door-contact", "relay" or "supply".
    to: &'static str,
    /// Its cable, where the plan states one.
    #[serde(skip_serializing_if = "Option::is_none")]
    cable: Option<String>,
    /// Its length one way in metres, where the plan states one.
    #[serde(skip_serializing_if = "Option::is_none")]
    length_m: Option<f64>,
}

/// Voltages and currents of a lock.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct CircuitDocument {
    /// Nominal voltage of the feed.
    feed_v: f64,
    /// Its lowest voltage.
    feed_low_v: f64,
    /// Its highest voltage.
    feed_high_v: f64,
    /// Loop resistance with nominal values, of the lock's cable and of those of the parts that its current flows through.
    loop_ohm: f64,
    /// Loop resistance in the adverse corner.
    adverse_loop_ohm: f64,
    /// Loop resistance that the lock would bear.
    #[serde(skip_serializing_if = "Option::is_none")]
    most_loop_ohm: Option<f64>,
    /// Rated current.
    current_a: f64,
    /// Current with which the drop is reckoned.
    adverse_current_a: f64,
    /// Voltage at the lock with nominal values.
    nominal_v: f64,
    /// Lower bound of the voltage at the lock.
    least_v: f64,
    /// Upper bound of the voltage at the lock.
    highest_v: f64,
    /// Least voltage that it works with.
    least_allowed_v: f64,
    /// Highest voltage that it bears.
    most_allowed_v: f64,
    /// Nominal voltage that the feed would need.
    needed_supply_v: f64,
    /// Parts that the current flows through whose cables are not stated, and so not in these figures.
    uncounted: Vec<&'static str>,
    /// Whether least and highest voltage are within what the lock bears.
    holds: bool,
    /// Assumed values in it, as "part key".
    assumed: Vec<String>,
}

/// Times of a lock.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct TimesDocument {
    /// Release time that acts, in seconds.
    hold_s: f64,
    /// Whose setting that is: "station" or "plan".
    set_by: &'static str,
    /// The plan's release time, or its default, in seconds.
    plan_s: f64,
    /// Whether the plan states it.
    plan_is_stated: bool,
    /// "while-released" or "while-shut".
    energised: &'static str,
    /// Longest time energised at a stretch that the lock bears, in seconds; left out for continuous duty.
    #[serde(skip_serializing_if = "Option::is_none")]
    duty_limit_s: Option<f64>,
    /// Time until the coil's current has fallen to drop-out, in seconds.
    #[serde(skip_serializing_if = "Option::is_none")]
    decay_s: Option<f64>,
}

pub(super) fn lock(lock: &LockSheet) -> LockDocument {
    let missing = match &lock.circuit {
        Ok(_) | Err(Unknown::NotNeeded) => Vec::new(),
        Err(Unknown::NoFeed(missing)) => vec![missing.say(Language::English)],
        Err(Unknown::Missing(missing)) => english(missing),
        Err(Unknown::BusCollapses) => vec![Missing::OperatingPoint.say(Language::English)],
    };
    let wiring = &lock.wiring;
    LockDocument {
        number: lock.number,
        model: lock.model.clone(),
        kind: match lock.kind {
            LockKind::Strike => "strike",
            LockKind::Magnet => "magnet",
            LockKind::Motor => "motor",
            LockKind::Gate => "gate",
            LockKind::Lift => "lift",
        },
        power_loss: match lock.power_loss {
            PowerLoss::Opens => "opens",
            PowerLoss::StaysShut => "stays-shut",
        },
        current_kind: match lock.current_kind {
            Feed::Dc => "dc",
            Feed::Ac => "ac",
            Feed::Either => "either",
        },
        feed: match wiring.feed {
            LockFeed::Station => "station",
            LockFeed::Bus => "bus",
            LockFeed::OwnSupply => "own-supply",
            LockFeed::DryContact => "dry-contact",
        },
        cable: lock.cable.as_ref().map(|(cable, _)| cable.clone()),
        length_m: lock.cable.as_ref().map(|(_, length_m)| *length_m),
        part_cables: lock
            .part_cables
            .iter()
            .map(|(part, cable)| PartCableDocument {
                to: part.word(),
                cable: cable.as_ref().map(|(cable, _)| cable.clone()),
                length_m: cable.as_ref().map(|(_, length_m)| *length_m),
            })
            .collect(),
        circuit: lock.circuit.as_ref().ok().map(|circuit| circuit_document(lock, circuit)),
        missing,
        calculation: lock.calculation.iter().map(line).collect(),
        contact: contact(wiring.contact),
        required_contact: contact(wiring.required_contact),
        relay: match wiring.relay {
            LockRelay::InStation => "in-station",
            LockRelay::Between => "between",
            LockRelay::OnSecureSide => "on-secure-side",
        },
        coil_contact: wiring.coil_contact.map(contact),
        series: wiring
            .series
            .iter()
            .map(|element| words::element(*element, wiring.is_ac).say(Language::English))
            .collect(),
        across_contact: wiring
            .across_contact
            .iter()
            .map(|element| words::element(*element, wiring.is_ac).say(Language::English))
            .collect(),
        across_lock: wiring.across_lock.and_then(|fitted| match fitted {
            Suppression::None => None,
            Suppression::Diode => Some("diode"),
            Suppression::Clamp => Some("clamp"),
            Suppression::Varistor => Some("varistor"),
        }),
        times: lock.times.as_ref().map(times),
        exit_button: lock.exit_button,
        mechanical_escape: lock.mechanical_escape,
        emergency_release: lock.emergency_release,
        relay_on_secure_side: lock.relay_on_secure_side,
        door_contact: lock.door_contact,
        delayed_egress_s: lock.delayed_egress_s,
        cautions: lock
            .cautions
            .iter()
            .map(|caution| words::caution(*caution).say(Language::English))
            .collect(),
    }
}

fn circuit_document(lock: &LockSheet, circuit: &LockCircuit) -> CircuitDocument {
    CircuitDocument {
        feed_v: circuit.feed.voltage_v,
        feed_low_v: circuit.feed.low_v,
        feed_high_v: circuit.feed.high_v,
        loop_ohm: circuit.loop_ohm,
        adverse_loop_ohm: circuit.adverse_loop_ohm,
        most_loop_ohm: circuit.most_loop_ohm.and_then(finite),
        current_a: circuit.current_a,
        adverse_current_a: circuit.adverse_current_a,
        nominal_v: circuit.nominal_v,
        least_v: circuit.least_v,
        highest_v: circuit.highest_v,
        least_allowed_v: circuit.least_allowed_v,
        most_allowed_v: circuit.most_allowed_v,
        needed_supply_v: circuit.needed_supply_v,
        uncounted: circuit.uncounted.iter().map(|part| part.word()).collect(),
        holds: lock.calculation.iter().all(CalculationLine::holds),
        assumed: circuit.assumed.list().to_vec(),
    }
}

fn times(times: &LockTimes) -> TimesDocument {
    TimesDocument {
        hold_s: times.hold.time_s,
        set_by: match times.hold.winner {
            HoldWinner::Station => "station",
            HoldWinner::Plan => "plan",
        },
        plan_s: times.plan_s,
        plan_is_stated: times.plan_is_stated,
        energised: match times.energised {
            Energised::WhileReleased => "while-released",
            Energised::WhileShut => "while-shut",
        },
        duty_limit_s: times.duty_limit_s.and_then(finite),
        decay_s: times.decay_s.and_then(finite),
    }
}
