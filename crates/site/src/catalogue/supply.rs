//! Supplies and their batteries.

use super::head::{HOUSED_KEYS, INNER_KEYS, PartHead};
use crate::keys::bounds::*;
use crate::keys::{Bears, Kind, choices, keys};
use crate::parse::Record;
use latchline_finding::quantity::{
    Capacitance, Charge, Current, Duration, Inductance, Power, Ratio, Resistance, Temperature, Voltage,
};
use latchline_finding::{Origin, Provenance, Sourced};

choices! {
    /// What a supply or port does beyond its rating.
    pub enum LimitKind {
        /// Holds the current at the limit; the voltage gives way.
        ConstantCurrent = "constant-current",
        /// Lowers the current as the voltage falls.
        Foldback = "foldback",
        /// Switches off, waits and tries again.
        Hiccup = "hiccup",
        /// Switches off until reset (a fuse or latched trip).
        Trip = "trip",
    }
}

keys! {
    /// A DC power supply unit.
    pub struct SupplyModel = SUPPLY_MODEL SupplyModel after HOUSED_KEYS;
    try read(record, provenance, head: PartHead);

    /// Name, title, source, price.
    field head: PartHead = head;
    /// Family that it belongs to.
    family: Sourced<String> = must(TEXT);
    /// Open-circuit output voltage.
    voltage: Sourced<Voltage> = must(VOLTAGE).bears(Bears::OnFlow);
    /// Tolerance of the output voltage, either way.
    voltage_tolerance: Sourced<Ratio> = must(TOLERANCE).bears(Bears::OnFlow);
    /// Ripple of the output voltage, root mean square, as a share of it. Without it ripple-free.
    ripple: Option<Sourced<Ratio>> = may(TOLERANCE);
    /// Resistance behind the output.
    source_resistance: Sourced<Resistance> = must(RESISTANCE_OR_NONE).bears(Bears::OnFlow);
    /// Rated output power.
    rated_power: Option<Sourced<Power>> = may(POWER).bears(Bears::OnFlow);
    /// Rated continuous output current.
    rated_current: Sourced<Current> = must(CURRENT).bears(Bears::OnFlow);
    /// Current at which its limit acts. Without it the rated current.
    limit_current: Option<Sourced<Current>> = may(CURRENT).bears(Bears::OnStartUp);
    /// What happens at the limit.
    limit_kind: Sourced<LimitKind> = must(Kind::Words(LimitKind::WORDS)).bears(Bears::OnStartUp);
    /// Foldback: the current into a short.
    short_circuit_current: Option<Sourced<Current>> = may(CURRENT).bears(Bears::OnStartUp);
    /// Foldback: share of its voltage below which the limit falls. Without it 90 %, assumed.
    foldback_from: Sourced<Ratio> = or_assumed(EFFICIENCY).bears(Bears::OnStartUp),
        by foldback_from(record, provenance, &limit_kind);
    /// Hiccup: time over the limit before it switches off.
    trip_delay: Option<Sourced<Duration>> = may(TIME).bears(Bears::OnStartUp);
    /// Hiccup: pause before it tries again.
    retry_pause: Option<Sourced<Duration>> = may(TIME).bears(Bears::OnStartUp);
    /// Number of output terminal pairs, all in parallel inside. Without it more than one run is not judged.
    outputs: Option<Sourced<u32>> = may(Kind::Integer(1, 64));
    /// Runs that the terminals of one output take. Without it 1.
    runs_per_output: Sourced<u32> = or(Kind::Integer(1, 8), 1);
    /// Inductance of the feed choke in series with the output; 0 mH where there is none, so that the supply shorts the
    /// signal.
    feed_choke: Option<Sourced<Inductance>> = may(INDUCTANCE_OR_NONE).bears(Bears::OnSignal);
    /// Capacitor across the output; must be there to judge the start-up of a supply with foldback.
    output_capacitance: Option<Sourced<Capacitance>> = may(CAPACITANCE).bears(Bears::OnStartUp);
    /// Efficiency at rated load.
    efficiency: Option<Sourced<Ratio>> = may(EFFICIENCY);
    /// Nominal mains voltage.
    mains_voltage: Option<Sourced<Voltage>> = may(VOLTAGE);
    /// Mains power factor.
    power_factor: Option<Sourced<Ratio>> = may(Kind::Number(0.1, 1.0));
    /// Highest ambient temperature at rated load.
    ambient_limit: Option<Sourced<Temperature>> = may(TEMPERATURE);
    /// Share of its rated power that it loses for every kelvin above ambient_limit.
    derating_per_kelvin: Option<Sourced<Ratio>> = may(TOLERANCE);
    /// Rating of the fuse or circuit breaker in its mains feed.
    mains_fuse: Option<Sourced<Current>> = may(CURRENT).bears(Bears::OnNothing);
    /// Built-in or attached battery.
    battery: Option<Battery> = may(Kind::Table(&BATTERY)),
        by record.inner("battery", |battery| Battery::read(battery, provenance))?;
}

/// Where a foldback limit begins to fall, as a share of the voltage, where nothing is stated (common practice, no source).
const USUAL_FOLDBACK_FROM: f64 = 0.9;

/// A supply that does not fold back has nothing to assume of it.
fn foldback_from(
    record: &Record<'_>,
    provenance: Provenance,
    limit_kind: &Sourced<LimitKind>,
) -> Sourced<Ratio> {
    let usual = Ratio::from_fraction(USUAL_FOLDBACK_FROM);
    match record.read("foldback_from", provenance) {
        None if limit_kind.value != LimitKind::Foldback => Sourced::new(usual, Origin::None, provenance),
        stated => record.or_assumed("foldback_from", stated, usual),
    }
}

impl SupplyModel {
    /// Runs that its outputs take; `None` where their number is not stated.
    pub fn most_runs(&self) -> Option<usize> {
        Some(self.outputs.as_ref()?.value as usize * self.runs_per_output.value as usize)
    }
}

keys! {
    /// The battery behind a supply.
    pub struct Battery = BATTERY Battery after INNER_KEYS;
    try read(record, provenance);

    /// Nominal capacity.
    capacity: Sourced<Charge> = must(CHARGE).bears(Bears::OnBattery);
    /// Hours of discharge at which the capacity is rated: 20 for the 20-hour rate.
    rated_hours: Sourced<f64> = must(Kind::Number(0.1, 1000.0)).bears(Bears::OnBattery);
    /// Peukert exponent.
    peukert_exponent: Option<Sourced<f64>> = may(Kind::Number(1.0, 2.0)).bears(Bears::OnBattery);
    /// Nominal voltage of the battery.
    voltage: Sourced<Voltage> = must(VOLTAGE).bears(Bears::OnBattery);
    /// Bus voltage at the supply's output at the end of discharge.
    end_bus_voltage: Sourced<Voltage> = must(VOLTAGE).bears(Bears::OnFlow);
    /// Efficiency from battery to bus.
    efficiency: Option<Sourced<Ratio>> = may(EFFICIENCY).bears(Bears::OnBattery);
    /// Greatest charging current.
    charge_current: Option<Sourced<Current>> = may(CURRENT);
    /// Rating of the fuse in the lead of each battery.
    fuse: Option<Sourced<Current>> = may(CURRENT).bears(Bears::OnNothing);
}
