//! The circuit of one lock: from its feed over its own cable to its terminals.

use super::cable_loop::CableLoop;
use super::{Assumptions, LockAt, out_of_range};
use crate::stage::WithVoltages;
use latchline_circuit::lock::{
    LockSupply, highest_voltage_v, least_supply_v, least_voltage_v, most_loop_resistance_ohm,
};
use latchline_finding::{Origin, Sourced};
use latchline_network::Device;
use latchline_site::catalogue::LockKind;
use latchline_site::model::{LockFeed, LockPart};
use latchline_wiring::lock::{LockWiring, lock_wiring};
use latchline_words::missing::Missing;

/// How much more than its rated current a lock may draw at rated voltage and 20 °C: a coil at the end of its tolerance (common practice, no
/// source).
pub const CURRENT_TOLERANCE: f64 = 0.10;

/// Temperature coefficient of a coil's copper at 20 °C, 1/K (IEC 60028, from memory).
const COPPER_PER_K: f64 = 0.003_93;

/// How much more a coil draws at a temperature than at 20 °C, where its rated current is given: never less.
fn cold_coil(celsius: f64) -> f64 {
    (1.0 / (1.0 + COPPER_PER_K * (celsius - 20.0))).max(1.0)
}

/// The hottest that a winding may be and last, in °C: insulation of class 105 (IEC 60085). No coil that is still whole draws less than
/// one that is as hot.
pub const HOTTEST_WINDING_C: f64 = 105.0;

/// The least current of a coil at its rated voltage, as a share of its rated current at 20 °C: at the other end of
/// [`CURRENT_TOLERANCE`], and as hot as it may be.
const LEAST_OF_COIL: f64 = (1.0 - CURRENT_TOLERANCE) / (1.0 + COPPER_PER_K * (HOTTEST_WINDING_C - 20.0));

/// A cable of less than this is none that could be laid.
const LEAST_LOOP_OHM: f64 = 1e-3;

/// Why a lock has no circuit to calculate.
#[derive(Debug, Clone, PartialEq)]
pub enum Unknown {
    /// It needs none: a drive with power of its own and a dry contact.
    NotNeeded,
    /// Nothing feeds it; `lock-feed-missing` says so. The missing key.
    NoFeed(Missing),
    /// These values are missing ("front-A lock length").
    Missing(Vec<Missing>),
    /// The bus has no operating point where the lock is fed from it.
    BusCollapses,
}

/// What feeds a lock.
#[derive(Debug, Clone, PartialEq)]
pub struct Feed {
    /// Nominal voltage in volts.
    pub voltage_v: f64,
    /// Lowest voltage, in the adverse corner.
    pub low_v: f64,
    /// Highest voltage.
    pub high_v: f64,
    /// Whether it is alternating current.
    pub is_ac: bool,
    /// Whether low and high are the worst of the bus's operating states, not a tolerance.
    pub from_bus: bool,
    /// Where the voltage is written.
    pub origin: Origin,
    /// Assumed values in it.
    pub assumed: Assumptions,
}

/// A lock's circuit with its figures.
#[derive(Debug, Clone, PartialEq)]
pub struct LockCircuit {
    /// What feeds it.
    pub feed: Feed,
    /// Rated voltage of the lock.
    pub rated_v: f64,
    /// Least voltage that it works with.
    pub least_allowed_v: f64,
    /// Highest voltage that it bears.
    pub most_allowed_v: f64,
    /// Rated current.
    pub current_a: f64,
    /// The current with which the drop is reckoned: the rated one with [`CURRENT_TOLERANCE`] through a coil at the coldest, or
    /// the inrush if that is larger.
    pub adverse_current_a: f64,
    /// Whether that is the inrush.
    pub by_inrush: bool,
    /// Its cable.
    pub cable_loop: CableLoop,
    /// Those of the other cables that its current may take, part by part, where the plan states them.
    pub part_loops: Vec<(LockPart, CableLoop)>,
    /// Parts in its path whose cables are not stated, and so not counted.
    pub uncounted: Vec<LockPart>,
    /// Loop resistance with nominal values, in ohms, of all cables counted.
    pub loop_ohm: f64,
    /// Loop resistance hot, long and at the upper end of tolerance, in ohms.
    pub adverse_loop_ohm: f64,
    /// Voltage at the lock with nominal values.
    pub nominal_v: f64,
    /// Lower bound of the voltage at the lock, adverse corner.
    pub least_v: f64,
    /// Upper bound of the settled voltage at the lock while it is fed; a contact that leaves it open leaves it none.
    pub highest_v: f64,
    /// The least current of a coil on direct current at its rated voltage, with which `highest_v` is reckoned over its own cable at its
    /// least; `None` where nothing is known of what the lock draws at least, and the feed's highest voltage holds.
    pub least_current_a: Option<f64>,
    /// How far the feed's lowest voltage lies below its nominal one, as a share.
    pub low_share: f64,
    /// Nominal voltage that the feed would need for the lock to work over this cable.
    pub needed_supply_v: f64,
    /// Loop resistance that the lock would bear with this feed; `None` if the feed is too low anyhow.
    pub most_loop_ohm: Option<f64>,
    /// Assumed values in it.
    pub assumed: Assumptions,
}

/// What feeds a lock, if that is stated.
pub fn feed(context: &WithVoltages<'_>, at: &LockAt<'_>) -> Result<Feed, Unknown> {
    let name = &at.station.head.name;
    let mut assumed = Assumptions::default();
    match at.used.feed.value {
        LockFeed::DryContact => Err(Unknown::NotNeeded),
        LockFeed::Station => {
            let Some(voltage) = &at.station.lock_output_voltage else {
                return Err(Unknown::NoFeed(Missing::key(name, "lock_output_voltage")));
            };
            assumed.note(name, "lock_output_voltage", voltage);
            let tolerance = &at.station.lock_output_tolerance;
            assumed.note(name, "lock_output_tolerance", tolerance);
            let tolerance = tolerance.value.as_fraction();
            let is_ac = at.station.lock_output_ac.value;
            Ok(by_tolerance(voltage.value.as_volts(), tolerance, is_ac, &voltage.origin, assumed))
        }
        LockFeed::OwnSupply => {
            let Some(voltage) = &at.used.supply_voltage else {
                return Err(Unknown::NoFeed(Missing::key(
                    format!("{} lock", at.entrance.id),
                    "supply_voltage",
                )));
            };
            let tolerance = &at.used.supply_tolerance;
            assumed.note(&format!("{} lock", at.entrance.id), "supply_tolerance", tolerance);
            let tolerance = tolerance.value.as_fraction();
            let is_ac = at.used.supply_ac.value;
            Ok(by_tolerance(voltage.value.as_volts(), tolerance, is_ac, &voltage.origin, assumed))
        }
        LockFeed::Bus => from_bus(context, at, assumed),
    }
}

fn by_tolerance(voltage_v: f64, tolerance: f64, is_ac: bool, origin: &Origin, assumed: Assumptions) -> Feed {
    let supply = LockSupply { voltage_v, tolerance, resistance_ohm: 0.0 };
    Feed {
        voltage_v,
        low_v: supply.low_v(),
        high_v: supply.high_v(),
        is_ac,
        from_bus: false,
        origin: origin.clone(),
        assumed,
    }
}

/// The bus at the station's terminals, in the worst of its states either way.
fn from_bus(context: &WithVoltages<'_>, at: &LockAt<'_>, mut assumed: Assumptions) -> Result<Feed, Unknown> {
    let Some(extra) = &at.station.releasing_extra else {
        // Without it the bus was solved without the lock.
        return Err(Unknown::Missing(vec![Missing::key(&at.station.head.name, "releasing_extra")]));
    };
    assumed.note(&at.station.head.name, "releasing_extra", extra);
    let station = Device::Station(at.entrance.station);
    let Some(states) = context.worst.devices.iter().find(|device| device.device == station) else {
        return Err(Unknown::BusCollapses);
    };
    let mut low_v = f64::INFINITY;
    for margin in &states.margins {
        low_v = low_v.min(margin.voltage_v.ok_or(Unknown::BusCollapses)?);
    }
    let (Some(voltage_v), true) = (states.nominal_v, low_v.is_finite()) else {
        return Err(Unknown::BusCollapses);
    };
    for entry in crate::grade::of_stage(context.site, context.layout, states.at.stage) {
        assumed.add(entry);
    }
    Ok(Feed {
        voltage_v,
        low_v,
        high_v: context.space.highest_v[states.at.stage][states.at.node],
        is_ac: false,
        from_bus: true,
        origin: context.wiring_origin(station),
        assumed,
    })
}

/// The circuit of a lock.
pub fn lock_circuit(context: &WithVoltages<'_>, at: &LockAt<'_>) -> Result<LockCircuit, Unknown> {
    let feed = feed(context, at)?;
    let (lock, used) = (at.lock, at.used);
    let mut missing = Vec::new();
    let mut need = |key: &'static str, is_missing: bool, part: &str| {
        if is_missing {
            missing.push(Missing::key(part, key));
        }
    };
    need("voltage", lock.voltage.is_none(), &lock.head.name);
    need("current", lock.current.is_none(), &lock.head.name);
    let place = format!("{} lock", at.entrance.id);
    need("cable", used.cable.is_none(), &place);
    need("length", used.length.is_none(), &place);
    let (Some(rated), Some(current), Some(cable), Some(length)) =
        (&lock.voltage, &lock.current, &used.cable, &used.length)
    else {
        return Err(Unknown::Missing(missing));
    };
    let cable = &context.site.catalogue.cables[&cable.value];
    let mut assumed = feed.assumed.clone();
    let name = &lock.head.name;
    assumed.note(name, "voltage", rated);
    assumed.note(name, "current", current);
    assumed.note(name, "undervoltage_tolerance", &lock.undervoltage_tolerance);
    assumed.note(name, "overvoltage_tolerance", &lock.overvoltage_tolerance);
    assumed.note_cable(cable);
    let wiring = lock_wiring(at.site, at.entrance, used);
    let mut uncounted = Vec::new();
    for part in wiring.parts_in_its_path() {
        match used.cable_to(part) {
            Some(to) => assumed.note_cable(&context.site.catalogue.cables[&to.cable.value]),
            None => uncounted.push(part),
        }
    }
    let (length_m, pairs) = (length.value.as_metres(), used.pairs.value);
    let cable_loop = CableLoop::new(context.site, cable, length_m, used.joints.value, pairs);
    let rated_v = rated.value.as_volts();
    let current_a = current.value.as_amps();
    let coldest_c = context.site.conditions.coldest_temperature.value.as_celsius();
    let steady_a = current_a * (1.0 + CURRENT_TOLERANCE) * cold_coil(coldest_c);
    let inrush_a = lock.inrush_current.as_ref().map_or(0.0, |inrush| {
        assumed.note(name, "inrush_current", inrush);
        inrush.value.as_amps()
    });
    let adverse_current_a = steady_a.max(inrush_a);
    let least_allowed_v = rated_v * (1.0 - lock.undervoltage_tolerance.value.as_fraction());
    let figures = || {
        let cable_loop = cable_loop.clone()?;
        let part_loops = part_loops(at, &wiring)?;
        let others = || part_loops.iter().map(|(_, part_loop)| part_loop);
        let loop_ohm = cable_loop.usual_ohm + others().map(|other| other.usual_ohm).sum::<f64>();
        let adverse_loop_ohm = cable_loop.adverse_ohm + others().map(|other| other.adverse_ohm).sum::<f64>();
        let low = LockSupply { voltage_v: feed.low_v, tolerance: 0.0, resistance_ohm: 0.0 };
        let nominal = LockSupply { voltage_v: feed.voltage_v, ..low };
        let high = LockSupply { voltage_v: feed.high_v, ..low };
        // A motor has electronics of its own, and on alternating current the drop does not lie along the voltage.
        let is_coil = matches!(lock.kind.value, LockKind::Strike | LockKind::Magnet) && !feed.is_ac;
        let least_current_a = is_coil.then_some(current_a * LEAST_OF_COIL);
        let highest_v = match least_current_a {
            Some(least_a) => highest_voltage_v(&high, cable_loop.light_ohm, rated_v, least_a)?,
            None => feed.high_v,
        };
        let low_share = (1.0 - feed.low_v / feed.voltage_v).clamp(0.0, 0.9);
        Ok::<_, latchline_circuit::RangeError>(LockCircuit {
            rated_v,
            least_allowed_v,
            most_allowed_v: rated_v * (1.0 + lock.overvoltage_tolerance.value.as_fraction()),
            current_a,
            adverse_current_a,
            by_inrush: inrush_a > steady_a,
            cable_loop,
            part_loops,
            uncounted: uncounted.clone(),
            loop_ohm,
            adverse_loop_ohm,
            nominal_v: least_voltage_v(&nominal, loop_ohm, rated_v, current_a)?,
            least_v: least_voltage_v(&low, adverse_loop_ohm, rated_v, adverse_current_a)?,
            highest_v,
            least_current_a,
            low_share,
            needed_supply_v: least_supply_v(least_allowed_v, low_share, adverse_loop_ohm, adverse_current_a)?,
            most_loop_ohm: most_loop_resistance_ohm(&low, least_allowed_v, adverse_current_a)?
                .filter(|most_ohm| *most_ohm > LEAST_LOOP_OHM),
            feed: feed.clone(),
            assumed: assumed.clone(),
        })
    };
    // The kernel refuses only what parsing has refused before; then the value is named.
    figures().map_err(|error| Unknown::Missing(vec![out_of_range(place.clone(), &error)]))
}

/// The loops of the cables to parts over which the lock's current may flow, as far as the plan states them.
fn part_loops(
    at: &LockAt<'_>,
    wiring: &LockWiring,
) -> Result<Vec<(LockPart, CableLoop)>, latchline_circuit::RangeError> {
    let stated = wiring.parts_in_its_path().filter_map(|part| Some((part, at.used.cable_to(part)?)));
    stated
        .map(|(part, to)| {
            let cable = &at.site.catalogue.cables[&to.cable.value];
            let length_m = to.length.value.as_metres();
            Ok((part, CableLoop::new(at.site, cable, length_m, to.joints.value, 1)?))
        })
        .collect()
}

/// Where the rated voltage of a lock is written.
pub fn rated_origin(at: &LockAt<'_>) -> Origin {
    at.lock.voltage.as_ref().map_or(Origin::None, |voltage| voltage.origin.clone())
}

/// The larger of the rated current and the inrush of a lock, in amperes, with which value it is.
pub fn peak_current(at: &LockAt<'_>) -> Option<(f64, &'static str, Sourced<f64>)> {
    let steady = at.lock.current.as_ref()?;
    let steady_a = steady.value.as_amps();
    match &at.lock.inrush_current {
        Some(inrush) if inrush.value.as_amps() > steady_a => {
            Some((inrush.value.as_amps(), "inrush_current", inrush.clone().map(|value| value.as_amps())))
        }
        _ => Some((steady_a, "current", steady.clone().map(|value| value.as_amps()))),
    }
}
