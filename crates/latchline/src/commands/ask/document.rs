//! Answers for programs: the sentences, and the figures that they were made of, not rounded.

use crate::refusal::Result;
use latchline_reach::telephone::{
    BatteryAnswer, BatteryHours, Carried, Lightest, LockCable, LockWay, MixOn, OneRun, Power, not_judged,
};
use latchline_reach::{FEED_M, LOCK_CABLE, LOCK_M, Question};
use latchline_site::catalogue::LoadValue;
use serde::Serialize;

#[derive(Serialize)]
struct Document<'a, F> {
    format_version: u32,
    latchline_version: &'static str,
    question: &'static str,
    works: bool,
    says: &'a [String],
    #[serde(flatten)]
    figures: F,
}

/// The document of an answer.
pub(super) fn json(
    question: &'static str,
    says: &[String],
    works: bool,
    figures: impl Serialize,
) -> Result<String> {
    let latchline_version = env!("CARGO_PKG_VERSION");
    let document = Document { format_version: 1, latchline_version, question, works, says, figures };
    Ok(latchline_report::json::text(&document)?)
}

fn word(power: Power) -> &'static str {
    match power {
        Power::Mains => "mains",
        Power::BatteryEnd => "battery-end",
    }
}

/// The lock at each door, held while its call stands.
#[derive(Serialize)]
pub(in super::super) struct DoorLockFigures<'a> {
    model: &'a str,
    cable: &'static str,
    length_m: f64,
    /// What the door station takes more while it holds it, as its entry gives it.
    #[serde(skip_serializing_if = "Option::is_none")]
    draws_w: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    draws_a: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    draws_ohm: Option<f64>,
}

impl<'a> DoorLockFigures<'a> {
    /// Of the question's doors; `None` where none feeds a lock.
    pub(in super::super) fn of(question: &'a Question) -> Option<Self> {
        let lock = question.lock.as_ref()?;
        let mut figures = DoorLockFigures {
            model: &lock.model,
            cable: LOCK_CABLE,
            length_m: LOCK_M,
            draws_w: None,
            draws_a: None,
            draws_ohm: None,
        };
        match lock.draws {
            Some(LoadValue::Power(power)) => figures.draws_w = Some(power.as_watts()),
            Some(LoadValue::Current(current)) => figures.draws_a = Some(current.as_amps()),
            Some(LoadValue::Resistance(resistance)) => figures.draws_ohm = Some(resistance.as_ohms()),
            None => {}
        }
        Some(figures)
    }
}

/// Stations on one run.
#[derive(Serialize)]
pub(super) struct RunFigures<'a> {
    family: &'a str,
    station: &'a str,
    distributor: &'a str,
    cable: &'a str,
    total_m: f64,
    simultaneous_calls: usize,
    /// Longest feed to the distributor for which this holds.
    feed_m: f64,
    /// Missing where no door feeds one.
    #[serde(skip_serializing_if = "Option::is_none")]
    lock: Option<DoorLockFigures<'a>>,
    /// Codes of what could not be judged for lack of values: where there are some, `works` is said of the rest.
    not_judged: Vec<&'static str>,
    carried: Vec<CarriedFigures<'a>>,
    /// Where no model was named: how many of the lightest work; missing where there is no lighter one.
    #[serde(skip_serializing_if = "Option::is_none")]
    lightest: Option<LightestFigures<'a>>,
}

#[derive(Serialize)]
struct LightestFigures<'a> {
    power: &'static str,
    station: &'a str,
    stations: usize,
}

#[derive(Serialize)]
struct CarriedFigures<'a> {
    power: &'static str,
    supply: &'a str,
    stations: usize,
    /// Door stations on outputs of the supply, and on ports of the distributor.
    doors_on_supply: usize,
    doors_on_distributor: usize,
    /// Whether those at the supply hang on a branch box there, since no port of the distributor can feed one.
    doors_by_branch_box: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<&'static str>,
    /// Whether the check warns of the margin with so many.
    thin_margin: bool,
    /// Smaller numbers of stations that do not work.
    #[serde(skip_serializing_if = "<[usize]>::is_empty")]
    fewer_fail: &'a [usize],
    #[serde(skip_serializing_if = "Option::is_none")]
    margin_v: Option<f64>,
}

impl<'a> RunFigures<'a> {
    pub(super) fn of(run: &'a OneRun, carried: &'a [Carried], lightest: Option<&'a Lightest>) -> Self {
        let each = carried.iter().map(|one| CarriedFigures {
            power: word(one.power),
            supply: &one.supply,
            stations: one.stations,
            doors_on_supply: one.doors.on_supply,
            doors_on_distributor: one.doors.on_ports,
            doors_by_branch_box: one.doors.by_branch_box,
            limit: one.limit.map(|code| code.as_str()),
            thin_margin: one.is_thin,
            fewer_fail: one.fewer_fail.as_ref().map_or(&[], |(counts, _)| counts),
            margin_v: one.margin_v,
        });
        RunFigures {
            family: &run.question.family,
            station: &run.question.station,
            distributor: &run.question.distributor,
            cable: &run.cable,
            total_m: run.total_m,
            simultaneous_calls: run.calls,
            feed_m: FEED_M,
            lock: DoorLockFigures::of(&run.question),
            not_judged: not_judged(carried).iter().map(|code| code.as_str()).collect(),
            carried: each.collect(),
            lightest: lightest.map(|one| LightestFigures {
                power: word(one.power),
                station: &one.model,
                stations: one.stations,
            }),
        }
    }
}

/// A lock over its cable.
#[derive(Serialize)]
pub(super) struct LockFigures<'a> {
    lock: &'a str,
    length_m: f64,
    outdoors: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    door: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    supply: Option<&'a str>,
    /// The best first; none where that cannot be judged.
    cables: Vec<LockCableFigures<'a>>,
}

#[derive(Serialize)]
struct LockCableFigures<'a> {
    cable: &'a str,
    works: bool,
    /// Codes of what forbids feeding it so, whatever its cable.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    refused: Vec<&'static str>,
    least_v: f64,
    needs_v: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    longest_m: Option<f64>,
    /// Whether the cable is made for where it was asked.
    suits: bool,
    /// With two of its pairs in parallel, `works` being said of one; missing where it does with one, or has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    least_doubled_v: Option<f64>,
    /// The longest with two of its pairs in parallel.
    #[serde(skip_serializing_if = "Option::is_none")]
    longest_doubled_m: Option<f64>,
    /// A supply of the lock's own that does; missing where none is needed or none does.
    #[serde(skip_serializing_if = "Option::is_none")]
    own_supply: Option<OwnSupplyFigures<'a>>,
}

#[derive(Serialize)]
struct OwnSupplyFigures<'a> {
    /// The cable with which it does: this one, or the cheapest other.
    cable: &'a str,
    /// Pairs of it in parallel.
    pairs: u32,
    voltage_v: f64,
    /// Whether that is alternating.
    is_ac: bool,
    tolerance_percent: f64,
    least_v: f64,
    /// Whether the lock opens when that supply has no power; else it cannot be released.
    opens_without_power: bool,
}

impl<'a> LockFigures<'a> {
    pub(super) fn of(way: &LockWay<'a>, found: &'a [LockCable]) -> Self {
        let each = found.iter().map(|one| LockCableFigures {
            cable: &one.cable,
            works: one.holds(),
            refused: one.refused.iter().map(|finding| finding.code.as_str()).collect(),
            least_v: one.least_v,
            needs_v: one.needs_v,
            longest_m: one.longest_m,
            suits: one.suits,
            least_doubled_v: one.doubled.map(|two| two.least_v),
            longest_doubled_m: one.doubled.map(|two| two.longest_m),
            own_supply: one.own_supply.as_ref().map(|own| OwnSupplyFigures {
                cable: &own.cable,
                pairs: own.pairs,
                voltage_v: own.voltage_v,
                is_ac: own.is_ac,
                tolerance_percent: own.tolerance_percent,
                least_v: own.least_v,
                opens_without_power: own.opens_without_power,
            }),
        });
        LockFigures {
            lock: way.lock,
            length_m: way.length_m,
            outdoors: way.outdoors,
            door: found.first().map(|one| one.door.as_str()),
            supply: found.first().map(|one| one.supply.as_str()),
            cables: each.collect(),
        }
    }
}

/// Hours of a battery.
#[derive(Serialize)]
pub(super) struct BatteryFigures<'a> {
    family: &'a str,
    station: &'a str,
    stations: usize,
    door: &'a str,
    supply: &'a str,
    /// Missing where no door feeds one.
    #[serde(skip_serializing_if = "Option::is_none")]
    lock: Option<DoorLockFigures<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    wanted_hours: Option<f64>,
    /// Missing where the supply has no battery or a figure of it is missing.
    #[serde(skip_serializing_if = "Option::is_none")]
    battery: Option<HoursFigures>,
    /// What one supply would say, where the stations are shared between several.
    #[serde(skip_serializing_if = "Option::is_none")]
    on_one_supply: Option<HoursFigures>,
    /// Where no model was named: the same of the lightest; missing where there is no lighter one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) lightest: Option<LightestBattery<'a>>,
}

/// What the lightest model asks of a battery.
#[derive(Serialize)]
pub(super) struct LightestBattery<'a> {
    station: &'a str,
    battery: HoursFigures,
}

impl<'a> LightestBattery<'a> {
    pub(super) fn of(station: &'a str, found: &BatteryAnswer) -> Self {
        LightestBattery { station, battery: HoursFigures::taken(found) }
    }
}

#[derive(Serialize)]
struct HoursFigures {
    /// Supplies that share the stations, and stations on the fullest of them.
    supplies: usize,
    stations_on_each: usize,
    /// Model of the distributors that the stations are taken to hang on, and how many.
    distributor: String,
    distributors: u32,
    batteries: u32,
    capacity_ah: f64,
    current_a: f64,
    /// The same with the heater on; missing where the door station has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    current_with_heater_a: Option<f64>,
    hours: f64,
    /// With the door station's heater on; missing where it has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    hours_with_heater: Option<f64>,
    coldest_c: f64,
    /// Missing where the charger is quick enough or its current is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    slow_recharge_hours: Option<f64>,
    /// Codes of the limits that so many stations break on the supply.
    broken: Vec<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    largest_current_a: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    rated_a: Option<f64>,
}

impl<'a> BatteryFigures<'a> {
    pub(super) fn of(
        question: &'a Question,
        stations: usize,
        wanted_hours: Option<f64>,
        found: Option<&BatteryAnswer>,
    ) -> Self {
        BatteryFigures {
            family: &question.family,
            station: &question.station,
            stations,
            door: &question.door,
            supply: &question.supply,
            lock: DoorLockFigures::of(question),
            wanted_hours,
            battery: found.map(HoursFigures::taken),
            on_one_supply: found
                .and_then(|found| found.shared.as_ref().map(|_| HoursFigures::of(1, &found.on_one))),
            lightest: None,
        }
    }
}

impl HoursFigures {
    /// What is taken: one supply, or as many as share the stations.
    fn taken(found: &BatteryAnswer) -> Self {
        let (supplies, each) = found.taken();
        HoursFigures::of(supplies, each)
    }

    fn of(supplies: usize, found: &BatteryHours) -> Self {
        HoursFigures {
            supplies,
            stations_on_each: found.stations,
            distributor: found.distributors.0.clone(),
            distributors: found.distributors.1,
            batteries: found.batteries,
            capacity_ah: found.capacity_ah,
            current_a: found.battery_current_a,
            current_with_heater_a: found.battery_current_with_heater_a,
            hours: found.hours,
            hours_with_heater: found.hours_with_heater,
            coldest_c: found.coldest_c,
            slow_recharge_hours: found.recharge_hours,
            broken: found.limits.iter().map(|code| code.as_str()).collect(),
            largest_current_a: found.current_a,
            rated_a: found.rated_a,
        }
    }
}

/// A mix of models.
#[derive(Serialize)]
pub(super) struct MixFigures<'a> {
    family: &'a str,
    models: Vec<ModelFigures<'a>>,
    simultaneous_calls: usize,
    /// Missing where no door feeds one.
    #[serde(skip_serializing_if = "Option::is_none")]
    lock: Option<DoorLockFigures<'a>>,
    supplies: Vec<SupplyFigures<'a>>,
}

#[derive(Serialize)]
struct ModelFigures<'a> {
    station: &'a str,
    count: usize,
}

#[derive(Serialize)]
struct SupplyFigures<'a> {
    power: &'static str,
    supply: &'a str,
    works: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    shares: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    current_a: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    rated_a: Option<f64>,
}

impl<'a> MixFigures<'a> {
    pub(super) fn of(
        question: &'a Question,
        models: &'a [(String, usize)],
        simultaneous_calls: usize,
        found: &'a [(Power, MixOn)],
    ) -> Self {
        let each = found.iter().map(|(power, one)| SupplyFigures {
            power: word(*power),
            supply: &one.supply,
            works: one.limit.is_none(),
            limit: one.limit.map(|code| code.as_str()),
            shares: one.shares,
            current_a: one.current_a,
            rated_a: one.rated_a,
        });
        MixFigures {
            family: &question.family,
            models: models.iter().map(|(station, count)| ModelFigures { station, count: *count }).collect(),
            simultaneous_calls,
            lock: DoorLockFigures::of(question),
            supplies: each.collect(),
        }
    }
}
