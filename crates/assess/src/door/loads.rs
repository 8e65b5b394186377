//! What a door draws from its bus in standby, part by part: the station, what is inside it, and what hangs on
//! it.

use crate::calculation::InputSource;
use crate::context::Context;
use latchline_network::Corner;
use latchline_network::demand::{Activity, Demand, LoadPart, load_parts};
use latchline_site::model::Entrance;

/// One part of the load, with nominal values at the bus's nominal voltage.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadLine {
    /// Which part.
    pub part: LoadPart,
    /// What it is called: the model.
    pub model: String,
    /// Current from the bus by day in amperes.
    pub day_a: f64,
    /// The same at night.
    pub night_a: f64,
    /// How far what it draws may be from that, as a fraction.
    pub tolerance: f64,
    /// Where the figure is from.
    pub source: InputSource,
}

/// How much lower than nominal the bus may stand where a heater is read, as a fraction (assumed; no source): a heater draws less
/// there, or more where its power is regulated.
const LOWER_BUS: f64 = 0.25;

impl LoadLine {
    /// What an ammeter finds at night, in amperes: least, nominal, most, wherever between its nominal and its lowest voltage the bus is.
    pub fn drawn_at_night_a(&self) -> [f64; 3] {
        let least = self.night_a * (1.0 - self.tolerance) * (1.0 - LOWER_BUS);
        let most = self.night_a * (1.0 + self.tolerance) / (1.0 - LOWER_BUS);
        [least, self.night_a, most]
    }
}

/// The standby load of a door.
#[derive(Debug, Clone, PartialEq)]
pub struct DoorLoad {
    /// Nominal voltage of the bus in volts, at which the currents are given.
    pub bus_v: f64,
    /// Part by part.
    pub lines: Vec<LoadLine>,
}

impl DoorLoad {
    /// Current of all parts by day, in amperes.
    pub fn day_a(&self) -> f64 {
        self.lines.iter().map(|line| line.day_a).sum()
    }

    /// The same at night.
    pub fn night_a(&self) -> f64 {
        self.lines.iter().map(|line| line.night_a).sum()
    }
}

/// The standby load of an entrance; `None` where its station hangs on no bus.
pub fn door_load(context: &Context<'_>, entrance: &Entrance) -> Option<DoorLoad> {
    let site = context.site;
    let at = context.layout.station[entrance.station]?;
    let bus_v = context.layout.stages[at.stage].voltage_v[Corner::Nominal.index()];
    let station = &site.stations[entrance.station];
    let model = site.station_model(station);
    let tolerance = model.load_tolerance.value.as_fraction();
    let drop_v = model.rectifier_drop.as_ref().map_or(0.0, |drop| drop.value.as_volts());
    if bus_v <= drop_v {
        return None;
    }
    let current_a = |demand: &Demand| demand.current_at(bus_v, drop_v);
    let day = load_parts(site, station, Activity::Standby, false);
    let night = load_parts(site, station, Activity::Standby, true);
    // Whatever is on by day is on at night.
    let lines = night.iter().map(|(part, demand)| {
        let by_day = day.iter().find(|(other, _)| other == part);
        let (model, source) = name_and_source(context, entrance, *part);
        LoadLine {
            part: *part,
            model,
            day_a: by_day.map_or(0.0, |(_, demand)| current_a(demand)),
            night_a: current_a(demand),
            tolerance,
            source,
        }
    });
    Some(DoorLoad { bus_v, lines: lines.collect() })
}

fn name_and_source(context: &Context<'_>, entrance: &Entrance, part: LoadPart) -> (String, InputSource) {
    let site = context.site;
    let station = site.station_model(&site.stations[entrance.station]);
    let of_key = |part: &String, key: &'static str| {
        (part.clone(), InputSource::Key { part: part.clone(), key: key.into() })
    };
    let of_keys = |part: String, first: &'static str, second: &'static str| {
        let (first, second) = (first.into(), second.into());
        (part.clone(), InputSource::Keys { part, first, second })
    };
    let own = |key| of_key(&station.head.name, key);
    match part {
        LoadPart::Station => own("standby"),
        LoadPart::Illumination => own("night_extra"),
        LoadPart::Heater => own("heater_extra"),
        LoadPart::AlarmLoops => own("alarm_input_current"),
        LoadPart::ReleasedLocks => own("releasing_extra"),
        LoadPart::HeldLocks if station.releasing_extra.is_some() => own("releasing_extra"),
        LoadPart::HeldLocks => {
            let mut models: Vec<&str> = entrance.locks.iter().map(|used| used.model.value.as_str()).collect();
            models.dedup();
            of_keys(models.join(", "), "voltage", "current")
        }
        LoadPart::Module(index) => {
            let module = &site.accessory(&entrance.accessories[index]).head.name;
            of_keys(module.clone(), "current", "night_current")
        }
        LoadPart::Light(index) => of_key(&site.light(&entrance.lights[index]).head.name, "load"),
    }
}
