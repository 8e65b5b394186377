//! Which assumed values a verdict rests on.

use latchline_finding::{Provenance, Sourced};
use latchline_network::{Layout, StageSource, Terminal};
use latchline_site::catalogue::{BoxModel, Cable, StationModel, SupplyModel};
use latchline_site::model::{Conditions, Entrance, LightFeed, Site, StationOwner};
use std::collections::BTreeSet;

/// Assumed catalogue values that the flow of one stage, or of all, uses, as "model key", in order.
///
/// The site's own conditions (temperatures, tolerances, joints) are among them where the site file
/// does not state them.
pub fn assumed_values(site: &Site, layout: &Layout, stage: Option<usize>) -> Vec<String> {
    let mut list = BTreeSet::new();
    of_conditions(&site.conditions, &mut list);
    for (index, one) in layout.stages.iter().enumerate() {
        if stage.is_some_and(|stage| stage != index) {
            continue;
        }
        match one.source {
            StageSource::Supply(supply) => of_supply(site.supply_model(&site.supplies[supply]), &mut list),
            StageSource::Regenerator(index) => of_box(site.box_model(&site.boxes[index]), &mut list),
        }
        for (terminal, segment) in one.terminal.iter().zip(&one.segment) {
            match *terminal {
                Terminal::Station(station) => {
                    of_station(site.station_model(&site.stations[station]), &mut list);
                    if let StationOwner::Entrance(entrance) = site.stations[station].owner {
                        of_door(site, &site.entrances[entrance], &mut list);
                    }
                }
                Terminal::BoxInput(index) => of_box(site.box_model(&site.boxes[index]), &mut list),
                _ => {}
            }
            if let latchline_network::Segment::Cable { run, .. } = *segment {
                of_cable(site.cable(&site.runs[run]), &mut list);
            }
        }
    }
    list.into_iter().collect()
}

struct Lister<'a> {
    name: &'a str,
    list: &'a mut BTreeSet<String>,
}

impl Lister<'_> {
    fn value<T>(&mut self, key: &str, value: &Sourced<T>) -> &mut Self {
        if value.provenance == Provenance::Assumed {
            self.list.insert(format!("{} {key}", self.name));
        }
        self
    }

    fn optional<T>(&mut self, key: &str, value: &Option<Sourced<T>>) -> &mut Self {
        if let Some(value) = value {
            self.value(key, value);
        }
        self
    }
}

fn of_conditions(conditions: &Conditions, list: &mut BTreeSet<String>) {
    Lister { name: "conditions", list }
        .value("usual_temperature", &conditions.usual_temperature)
        .value("hottest_temperature", &conditions.hottest_temperature)
        .value("coldest_temperature", &conditions.coldest_temperature)
        .value("length_tolerance", &conditions.length_tolerance)
        .value("joint_resistance", &conditions.joint_resistance);
}

fn of_supply(model: &SupplyModel, list: &mut BTreeSet<String>) {
    Lister { name: &model.head.name, list }
        .value("voltage", &model.voltage)
        .value("voltage_tolerance", &model.voltage_tolerance)
        .value("source_resistance", &model.source_resistance)
        .value("rated_current", &model.rated_current)
        .optional("rated_power", &model.rated_power);
}

fn of_box(model: &BoxModel, list: &mut BTreeSet<String>) {
    Lister { name: &model.head.name, list }
        .optional("consumption", &model.consumption)
        .optional("rectifier_drop", &model.rectifier_drop)
        .optional("least_voltage", &model.least_voltage)
        .value("port_resistance", &model.port_resistance)
        .optional("port_current_limit", &model.port_current_limit)
        .optional("output_voltage", &model.output_voltage)
        .optional("output_tolerance", &model.output_tolerance)
        .optional("output_resistance", &model.output_resistance)
        .optional("efficiency", &model.efficiency);
}

fn of_station(model: &StationModel, list: &mut BTreeSet<String>) {
    Lister { name: &model.head.name, list }
        .value("standby", &model.standby)
        .value("ringing", &model.ringing)
        .value("talking", &model.talking)
        .optional("releasing_extra", &model.releasing_extra)
        .optional("night_extra", &model.night_extra)
        .optional("heater_extra", &model.heater_extra)
        .optional("alarm_input_current", &model.alarm_input_current)
        .optional("boot", &model.boot)
        .value("load_tolerance", &model.load_tolerance)
        .optional("rectifier_drop", &model.rectifier_drop)
        .value("least_voltage", &model.least_voltage)
        .value("least_standby_voltage", &model.least_standby_voltage)
        .optional("highest_voltage", &model.highest_voltage);
}

/// Modules and lights of a door that draw from the bus.
fn of_door(site: &Site, entrance: &Entrance, list: &mut BTreeSet<String>) {
    for name in &entrance.accessories {
        let module = site.accessory(name);
        Lister { name: &module.head.name, list }
            .value("current", &module.current)
            .optional("night_current", &module.night_current);
    }
    for used in entrance.lights.iter().filter(|used| used.feed.value != LightFeed::OwnSupply) {
        let light = site.light(used);
        Lister { name: &light.head.name, list }.value("voltage", &light.voltage).value("load", &light.load);
    }
}

fn of_cable(cable: &Cable, list: &mut BTreeSet<String>) {
    Lister { name: &cable.head.name, list }
        .value("gauge", &cable.gauge)
        .value("material", &cable.material)
        .value("resistance_tolerance", &cable.resistance_tolerance);
}
