//! Distributors and branch boxes.

use super::head::{HOUSED_KEYS, PartHead};
use super::supply::LimitKind;
use crate::keys::bounds::*;
use crate::keys::{Bears, Kind, LoadValue, choices, keys};
use crate::parse::Record;
use latchline_finding::quantity::{
    Capacitance, Current, Decibels, Duration, Inductance, Power, Ratio, Resistance, Voltage,
};
use latchline_finding::{Origin, Provenance, Sourced};

/// Tolerance of a box's own consumption where none is stated, as of stations (common practice, no source).
const USUAL_LOAD_TOLERANCE: f64 = 0.1;

choices! {
    /// Whether a box hands out runs from the riser or splits one of them.
    pub enum BoxRole {
        /// The powered box whose ports feed runs; distributors cascade.
        Distributor = "distributor",
        /// A passive or lightly loaded box that splits one run into several.
        BranchBox = "branch-box",
    }
}

choices! {
    /// How a box treats the direct current that passes through it.
    pub enum BoxKind {
        /// Input and ports are joined, at most through a resistance.
        Transparent = "transparent",
        /// Joined, each port with its own current limit.
        PortLimited = "port-limited",
        /// Ports are fed by a converter: a new voltage, drawn from the input as power.
        Regenerated = "regenerated",
        /// Only signals pass from the link to the ports; power comes from a supply on its input.
        Isolating = "isolating",
    }
}

keys! {
    /// A distributor or branch box.
    pub struct BoxModel = BOX_MODEL BoxModel after HOUSED_KEYS;
    try read(record, provenance, head: PartHead);

    /// Name, title, source, price.
    field head: PartHead = head;
    /// Family that it belongs to.
    family: Sourced<String> = must(TEXT);
    /// Distributor (its ports feed runs) or branch box (splits one run).
    role: Sourced<BoxRole> = must(Kind::Words(BoxRole::WORDS));
    /// What it does with the power: joined; joined with a current limit per port; ports fed by a converter; ports fed from
    /// a supply of their own with only signals passing from the link.
    kind: Sourced<BoxKind> = must(Kind::Words(BoxKind::WORDS));
    /// Number of ports.
    ports: Sourced<u32> = must(Kind::Integer(1, 64));
    /// Own consumption at its input.
    consumption: Option<Sourced<LoadValue>> = may(Kind::Load).bears(Bears::OnFlow);
    /// How far that may lie above or below. Without it 10 %, assumed.
    load_tolerance: Sourced<Ratio> = or_assumed(TOLERANCE).bears(Bears::OnFlow),
        by load_tolerance(record, provenance, consumption.is_some());
    /// Drop of its input rectifier, for a consumption given as power.
    rectifier_drop: Option<Sourced<Voltage>> = may(SMALL_VOLTAGE).bears(Bears::OnFlow);
    /// Least voltage at its input.
    least_voltage: Option<Sourced<Voltage>> = may(VOLTAGE).bears(Bears::OnFlow);
    /// Highest voltage at its input.
    highest_voltage: Option<Sourced<Voltage>> = may(VOLTAGE);
    /// Series resistance from input to each port, both conductors. Without it 0 ohm, assumed.
    port_resistance: Sourced<Resistance> = or_assumed(RESISTANCE_OR_NONE, Resistance::ZERO).bears(Bears::OnFlow);
    /// Current limit of each port; must be there for a port-limited box.
    port_current_limit: Option<Sourced<Current>> = may(CURRENT).bears(Bears::OnFlow);
    /// What a port does at its limit.
    port_limit_kind: Option<Sourced<LimitKind>> = may(Kind::Words(LimitKind::WORDS)).bears(Bears::OnStartUp);
    /// Hiccup or trip: time over the limit before a port switches off.
    port_trip_delay: Option<Sourced<Duration>> = may(TIME).bears(Bears::OnStartUp);
    /// Hiccup: pause before a port tries again.
    port_retry_pause: Option<Sourced<Duration>> = may(TIME).bears(Bears::OnStartUp);
    /// Regenerated: voltage at its input at which its converter starts.
    turn_on_voltage: Option<Sourced<Voltage>> = may(VOLTAGE).bears(Bears::OnStartUp);
    /// Regenerated: voltage at its input at which its converter stops.
    turn_off_voltage: Option<Sourced<Voltage>> = may(VOLTAGE).bears(Bears::OnStartUp);
    /// Regenerated: capacitor at its input, behind the rectifier if it has one.
    input_capacitance: Option<Sourced<Capacitance>> = may(CAPACITANCE).bears(Bears::OnStartUp);
    /// Output voltage; must be there for a regenerated box.
    output_voltage: Option<Sourced<Voltage>> = may(VOLTAGE).bears(Bears::OnFlow);
    /// Tolerance of the output voltage of a regenerated box.
    output_tolerance: Option<Sourced<Ratio>> = may(TOLERANCE).bears(Bears::OnFlow);
    /// Resistance behind the ports of a regenerated box.
    output_resistance: Option<Sourced<Resistance>> = may(RESISTANCE_OR_NONE).bears(Bears::OnFlow);
    /// Rated output power of a regenerated box.
    output_power: Option<Sourced<Power>> = may(POWER).bears(Bears::OnFlow);
    /// Efficiency; must be there for a regenerated box.
    efficiency: Option<Sourced<Ratio>> = may(EFFICIENCY).bears(Bears::OnFlow);
    /// Whether an isolating box joins the 0 V of link and ports.
    shares_zero_volt: Option<Sourced<bool>> = may(BOOLEAN);
    /// Signal loss from input or link to each port.
    signal_loss: Option<Sourced<Decibels>> = may(LEVEL).bears(Bears::OnSignal);
    /// Impedance on both sides between which that loss is stated. Without it 100 ohm, as for a twisted pair, assumed.
    signal_reference: Sourced<Resistance> = or_assumed(RESISTANCE).bears(Bears::OnSignal),
        by signal_reference(record, provenance, signal_loss.is_some());
    /// Feed choke at each port, where the box feeds power there; 0 mH where there is none.
    feed_choke: Option<Sourced<Inductance>> = may(INDUCTANCE_OR_NONE).bears(Bears::OnSignal);
}

/// Impedance between which a loss is stated where nothing is said, in ohms (common practice, no source).
const USUAL_REFERENCE_OHM: f64 = 100.0;

/// A box without a loss has nothing to assume of what it is stated between.
fn signal_reference(record: &Record<'_>, provenance: Provenance, has_loss: bool) -> Sourced<Resistance> {
    let usual = Resistance::from_ohms(USUAL_REFERENCE_OHM);
    match record.read("signal_reference", provenance) {
        None if !has_loss => Sourced::new(usual, Origin::None, provenance),
        stated => record.or_assumed("signal_reference", stated, usual),
    }
}

/// A box that consumes nothing has nothing to assume of it.
fn load_tolerance(record: &Record<'_>, provenance: Provenance, consumes: bool) -> Sourced<Ratio> {
    let stated = record.read("load_tolerance", provenance);
    match stated {
        None if !consumes => Sourced::new(Ratio::ZERO, Origin::None, provenance),
        stated => record.or_assumed("load_tolerance", stated, Ratio::from_fraction(USUAL_LOAD_TOLERANCE)),
    }
}
