//! What a device draws, by what it is doing.

use crate::corner::Corner;
use latchline_finding::Sourced;
use latchline_site::catalogue::{BoxModel, LoadValue, StationModel};
use latchline_site::model::{
    Entrance, LightFeed, LightUse, LitWhen, LockFeed, LockUse, RelayContact, Site, Station, StationOwner,
};

/// What a station is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Activity {
    /// Nothing.
    Standby,
    /// It rings, or (door, management) calls.
    Ringing,
    /// Speech, and picture if any, are on.
    Talking,
    /// Talking, with a lock held released.
    Releasing,
    /// Starting up.
    Booting,
}

impl Activity {
    /// Whether the limit for use holds (else the one for standby).
    pub fn is_in_use(self) -> bool {
        matches!(self, Activity::Ringing | Activity::Talking | Activity::Releasing)
    }
}

/// A load as the flow takes it: power, current and conductance side by side.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Demand {
    /// Constant power in watts.
    pub power_w: f64,
    /// Constant current in amperes.
    pub current_a: f64,
    /// Conductance in siemens.
    pub conductance_s: f64,
}

impl Demand {
    /// The demand of one datasheet value.
    pub fn of(value: LoadValue) -> Self {
        let mut demand = Demand::default();
        match value {
            LoadValue::Power(power) => demand.power_w = power.as_watts(),
            LoadValue::Current(current) => demand.current_a = current.as_amps(),
            LoadValue::Resistance(resistance) => demand.conductance_s = 1.0 / resistance.as_ohms(),
        }
        demand
    }

    fn of_current(current_a: f64) -> Self {
        Demand { current_a, ..Demand::default() }
    }

    fn of_optional(value: &Option<Sourced<LoadValue>>) -> Self {
        value.as_ref().map_or(Demand::default(), |value| Demand::of(value.value))
    }

    /// The sum of two.
    #[must_use]
    pub fn plus(self, other: Demand) -> Self {
        Demand {
            power_w: self.power_w + other.power_w,
            current_a: self.current_a + other.current_a,
            conductance_s: self.conductance_s + other.conductance_s,
        }
    }

    /// The difference of two; its parts may be negative.
    #[must_use]
    pub fn minus(self, other: Demand) -> Self {
        self.plus(other.times(-1.0))
    }

    /// All parts times a factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Demand {
            power_w: self.power_w * factor,
            current_a: self.current_a * factor,
            conductance_s: self.conductance_s * factor,
        }
    }

    /// Current at a voltage, in amperes, the power drawn behind a rectifier drop.
    pub fn current_at(&self, voltage_v: f64, drop_v: f64) -> f64 {
        let by_power = if self.power_w == 0.0 { 0.0 } else { self.power_w / (voltage_v - drop_v) };
        by_power + self.current_a + self.conductance_s * voltage_v
    }
}

/// The tolerance factor of a model's loads in a corner.
pub(crate) fn load_factor(tolerance: f64, corner: Corner) -> f64 {
    match corner {
        Corner::Nominal => 1.0,
        Corner::Adverse => 1.0 + tolerance,
        Corner::Light => (1.0 - tolerance).max(0.0),
    }
}

/// Whether a lock takes its power from the door station or the bus.
pub fn is_fed_from_bus(lock: &LockUse) -> bool {
    matches!(lock.feed.value, LockFeed::Station | LockFeed::Bus)
}

/// Whether a lock has power while the door is shut: its contact is closed at rest.
pub fn is_held(lock: &LockUse) -> bool {
    lock.contact.value == RelayContact::NormallyClosed
}

/// Whether a station with this entrance energises a lock from the bus when it releases.
pub fn energises_to_release(entrance: &Entrance) -> bool {
    entrance.locks.iter().any(|lock| is_fed_from_bus(lock) && !is_held(lock))
}

/// Whether a station takes more from the bus while it releases.
pub fn draws_to_release(site: &Site, entrance: &Entrance) -> bool {
    let model = site.station_model(&site.stations[entrance.station]);
    energises_to_release(entrance) && model.releasing_extra.is_some()
}

/// What the locks that have power while the door is shut add to their station, in every state: for each
/// the station's extra load while it energises a lock; where that is not stated, the lock's rated power.
fn held_locks(site: &Site, entrance: &Entrance, model: &StationModel) -> Demand {
    let held = entrance.locks.iter().filter(|lock| is_fed_from_bus(lock) && is_held(lock));
    held.map(|used| {
        let lock = site.lock(used);
        match (&model.releasing_extra, &lock.voltage, &lock.current) {
            (Some(extra), ..) => Demand::of(extra.value),
            (None, Some(voltage), Some(current)) => {
                Demand { power_w: voltage.value.as_volts() * current.value.as_amps(), ..Demand::default() }
            }
            _ => Demand::default(),
        }
    })
    .fold(Demand::default(), Demand::plus)
}

/// What a station draws, with everything that takes its power from it or from the bus beside it.
pub fn station_demand(
    site: &Site,
    station: &Station,
    activity: Activity,
    night: bool,
    corner: Corner,
) -> Demand {
    demand_with(site, station, activity, night, corner, Extent::Most)
}

/// The least that a station draws: by day, while no lock, light or alarm loop takes anything.
pub fn least_demand(site: &Site, station: &Station, activity: Activity, corner: Corner) -> Demand {
    demand_with(site, station, activity, false, corner, Extent::Least)
}

fn demand_with(
    site: &Site,
    station: &Station,
    activity: Activity,
    night: bool,
    corner: Corner,
    extent: Extent,
) -> Demand {
    let mut demand = Demand::default();
    each_part(site, station, activity, night, extent, &mut |_, part| demand = demand.plus(part));
    demand.times(load_factor(site.station_model(station).load_tolerance.value.as_fraction(), corner))
}

/// What may be in a station's load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Extent {
    /// All that can draw at once.
    Most,
    /// Without locks, lights and alarm loops: each may be off, open or not there yet.
    Least,
}

/// A part of what a station draws from its bus.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LoadPart {
    /// The station itself.
    Station,
    /// Its own illumination at night.
    Illumination,
    /// Its heater.
    Heater,
    /// Locks that have power while the door is shut.
    HeldLocks,
    /// Locks that it energises to release.
    ReleasedLocks,
    /// A module of its chain: index into the entrance's accessories.
    Module(usize),
    /// A light that hangs on it or on the bus beside it: index into the entrance's lights.
    Light(usize),
    /// The closed loops at its alarm inputs.
    AlarmLoops,
}

/// What a box takes itself, with its tolerance.
pub fn box_demand(model: &BoxModel, corner: Corner) -> Demand {
    let own = Demand::of_optional(&model.consumption);
    own.times(load_factor(model.load_tolerance.value.as_fraction(), corner))
}

/// The parts of a station's load with nominal values; those that draw nothing are left out.
pub fn load_parts(
    site: &Site,
    station: &Station,
    activity: Activity,
    night: bool,
) -> Vec<(LoadPart, Demand)> {
    let mut parts = Vec::new();
    each_part(site, station, activity, night, Extent::Most, &mut |part, demand| {
        if demand != Demand::default() {
            parts.push((part, demand));
        }
    });
    parts
}

fn each_part(
    site: &Site,
    station: &Station,
    activity: Activity,
    night: bool,
    extent: Extent,
    add: &mut impl FnMut(LoadPart, Demand),
) {
    let model = site.station_model(station);
    add(LoadPart::Station, activity_demand(model, activity));
    if night {
        add(LoadPart::Illumination, Demand::of_optional(&model.night_extra));
    }
    let StationOwner::Entrance(entrance) = station.owner else { return };
    let entrance = &site.entrances[entrance];
    if activity == Activity::Releasing && energises_to_release(entrance) {
        add(LoadPart::ReleasedLocks, Demand::of_optional(&model.releasing_extra));
    }
    if night && entrance.heater.value {
        add(LoadPart::Heater, Demand::of_optional(&model.heater_extra));
    }
    for (index, name) in entrance.accessories.iter().enumerate() {
        let accessory = site.accessory(name);
        let by_night = accessory.night_current.as_ref().filter(|_| night);
        let extra_a = by_night.map_or(0.0, |extra| extra.value.as_amps());
        add(LoadPart::Module(index), Demand::of_current(accessory.current.value.as_amps() + extra_a));
    }
    if extent == Extent::Least {
        return;
    }
    add(LoadPart::HeldLocks, held_locks(site, entrance, model));
    for (index, light) in entrance.lights.iter().enumerate() {
        if is_lit(light, activity, night) {
            add(LoadPart::Light(index), light_demand(site, light));
        }
    }
    if let Some(current) = &model.alarm_input_current {
        let loops = entrance.alarm_inputs.len() as f64;
        add(LoadPart::AlarmLoops, Demand::of_current(loops * current.value.as_amps()));
    }
}

fn is_lit(light: &LightUse, activity: Activity, night: bool) -> bool {
    match light.lit.value {
        LitWhen::Night => night,
        LitWhen::Always => true,
        LitWhen::InUse => activity.is_in_use(),
    }
}

/// What a light adds at the station. From the station's output, its current there: what a linear regulator takes from
/// the bus for it, and more than a converter takes whose efficiency is above the ratio of output to bus voltage.
fn light_demand(site: &Site, used: &LightUse) -> Demand {
    let light = site.light(used);
    match used.feed.value {
        LightFeed::Station => Demand::of_current(light.rated_current().as_amps()),
        LightFeed::Bus => Demand::of(light.load.value),
        LightFeed::OwnSupply => Demand::default(),
    }
}

fn activity_demand(model: &StationModel, activity: Activity) -> Demand {
    match activity {
        Activity::Standby => Demand::of(model.standby.value),
        Activity::Ringing => Demand::of(model.ringing.value),
        Activity::Talking | Activity::Releasing => Demand::of(model.talking.value),
        Activity::Booting => {
            model.boot.as_ref().map_or(Demand::of(model.standby.value), |boot| Demand::of(boot.value))
        }
    }
}
