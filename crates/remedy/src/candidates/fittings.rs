//! Changes of what hangs on a door station besides its locks: modules, lights, heater, alarm inputs.
//!
//! A finding names its entrance, and several of one code there count as one, so that a candidate changes all
//! of an entrance's lights or inputs at which the same is wrong.

use super::door::other_door_stations;
use super::prices::by_price;
use crate::bench::Bench;
use crate::candidate::{Candidate, quoted, quoted_list};
use latchline_assess::rules::codes;
use latchline_finding::{Change, Code, Edit, EditStep};
use latchline_network::resistance::conductor_ohm_per_m;
use latchline_site::catalogue::{Accessory, AccessoryKind, Light};
use latchline_site::model::{AlarmInput, AlarmKind, Entrance, LightFeed, LightUse, RelayContact};
use latchline_site::outdoors::is_made_for_door;

/// Candidates for a finding about the modules, lights, heater or alarm inputs of an entrance.
pub(super) fn for_fittings(bench: &Bench<'_>, element: &str, code: Code) -> Vec<Candidate> {
    let Some(entrance) = bench.site.entrances.iter().find(|one| one.id.as_str() == element) else {
        return Vec::new();
    };
    let mut list = Vec::new();
    match code {
        codes::ACCESSORY_CURRENT_EXCEEDED => list.extend(lighter_modules(bench, entrance)),
        codes::ACCESSORY_CHAIN_TOO_LONG => list.extend(larger_button_modules(bench, entrance)),
        codes::DIRECTORY_TOO_SMALL => list.extend(more_buttons(bench, entrance)),
        codes::LIGHT_FEED_MISSING | codes::LIGHT_FEED_UNSUITABLE | codes::LIGHT_OUTPUT_OVERLOADED => {
            list.extend(lights(bench, entrance));
        }
        codes::HEATER_MISSING | codes::ALARM_INPUTS_EXCEEDED => {}
        codes::ALARM_LOOP_TOO_LONG => list.extend(thicker_input_cables(bench, entrance)),
        codes::ALARM_CABLE_NOT_WATCHED => list.extend(watched_cables(entrance)),
        codes::ALARM_TELLS_NOBODY => list.extend(tell_the_desks(bench, entrance)),
        _ => return list,
    }
    if code != codes::ALARM_CABLE_NOT_WATCHED && code != codes::ALARM_TELLS_NOBODY {
        list.extend(other_door_stations(bench, entrance));
    }
    list
}

fn set_modules<'m>(entrance: &Entrance, modules: impl IntoIterator<Item = &'m str>) -> Edit {
    Edit::set(&["entrances", entrance.id.as_str(), "accessories"], quoted_list(modules))
}

/// Modules of the entrance's family, cheapest first.
fn modules<'a>(bench: &Bench<'a>, entrance: &Entrance) -> Vec<&'a Accessory> {
    let site = bench.site;
    let family = &site.station_model(&site.stations[entrance.station]).family.value;
    let mut modules: Vec<&Accessory> =
        site.catalogue.accessories.values().filter(|module| module.family.value == *family).collect();
    modules.sort_by(|a, b| by_price(&a.head, &b.head));
    modules
}

fn buttons(module: &Accessory) -> u32 {
    module.buttons.as_ref().map_or(0, |buttons| buttons.value)
}

fn at_night_a(module: &Accessory) -> f64 {
    let extra = module.night_current.as_ref().map_or(0.0, |extra| extra.value.as_amps());
    module.current.value.as_amps() + extra
}

/// Every module in place of which one of the same kind, with as many buttons, draws less.
fn lighter_modules(bench: &Bench<'_>, entrance: &Entrance) -> Option<Candidate> {
    let all = modules(bench, entrance);
    let names: Vec<&str> = entrance
        .accessories
        .iter()
        .map(|name| {
            let own = bench.site.accessory(name);
            let lighter = all
                .iter()
                .filter(|module| module.kind.value == own.kind.value && buttons(module) >= buttons(own))
                .min_by(|a, b| at_night_a(a).total_cmp(&at_night_a(b)));
            lighter
                .filter(|lighter| at_night_a(lighter) < at_night_a(own))
                .map_or(name.value.as_str(), |lighter| lighter.head.name.as_str())
        })
        .collect();
    let is_new = names.iter().zip(&entrance.accessories).any(|(name, own)| *name != own.value);
    is_new.then(|| Candidate::new("lighter-modules", set_modules(entrance, names)))
}

/// All button modules replaced by as few of one larger model as have their buttons.
fn larger_button_modules(bench: &Bench<'_>, entrance: &Entrance) -> Vec<Candidate> {
    let is_buttons = |name: &str| {
        let module = bench.site.catalogue.accessories.get(name);
        module.is_some_and(|module| module.kind.value == AccessoryKind::Buttons)
    };
    let own: Vec<&str> = entrance.accessories.iter().map(|name| name.value.as_str()).collect();
    let needed: u32 = entrance.accessories.iter().map(|name| buttons(bench.site.accessory(name))).sum();
    let count = own.iter().filter(|name| is_buttons(name)).count();
    let larger = modules(bench, entrance).into_iter().filter(|module| buttons(module) > 0);
    larger
        .filter_map(|module| {
            let fewer = needed.div_ceil(buttons(module)) as usize;
            if fewer == 0 || fewer >= count {
                return None;
            }
            let others = own.iter().copied().filter(|name| !is_buttons(name));
            let names = std::iter::repeat_n(module.head.name.as_str(), fewer).chain(others);
            Some(Candidate::new("larger-button-modules", set_modules(entrance, names)))
        })
        .collect()
}

/// Button modules put at the end of the chain until all who are called have a button.
fn more_buttons(bench: &Bench<'_>, entrance: &Entrance) -> Vec<Candidate> {
    let site = bench.site;
    let station = site.station_model(&site.stations[entrance.station]);
    let directory = station.directory.as_ref().map_or(0, |directory| directory.value);
    let there: u32 = entrance.accessories.iter().map(|name| buttons(site.accessory(name))).sum();
    let called = entrance.calls.dwellings.len() as u32;
    let short = called.saturating_sub(directory).saturating_sub(there);
    let own = || entrance.accessories.iter().map(|name| name.value.as_str());
    modules(bench, entrance)
        .into_iter()
        .filter(|module| buttons(module) > 0 && short > 0)
        .map(|module| {
            let more =
                std::iter::repeat_n(module.head.name.as_str(), short.div_ceil(buttons(module)) as usize);
            Candidate::new("more-button-modules", set_modules(entrance, own().chain(more)))
        })
        .collect()
}

/// One key of one entry of a list of an entrance.
fn set_in_list(entrance: &Entrance, list: &str, index: usize, key: &str, value: String) -> Edit {
    let mut path = ["entrances", entrance.id.as_str(), list].map(EditStep::from).to_vec();
    path.extend([EditStep::from(index), EditStep::from(key)]);
    Edit { changes: vec![(path, Change::Set(value))] }
}

fn light_edit(entrance: &Entrance, index: usize, key: &str, value: String) -> Edit {
    set_in_list(entrance, "lights", index, key, value)
}

/// The lights on the station or the bus: each on a supply of its own, from the station where that has an
/// output, or another light of the kind in its place.
fn lights(bench: &Bench<'_>, entrance: &Entrance) -> Vec<Candidate> {
    let site = bench.site;
    let hanging: Vec<(usize, &LightUse)> = entrance
        .lights
        .iter()
        .enumerate()
        .filter(|(_, used)| used.feed.value != LightFeed::OwnSupply)
        .collect();
    let all = |key: &str, value: &str| {
        let edits = hanging.iter().map(|(index, _)| light_edit(entrance, *index, key, quoted(value)));
        edits.fold(Edit::default(), Edit::then)
    };
    let mut list = Vec::new();
    let station = site.station_model(&site.stations[entrance.station]);
    if station.light_output_voltage.is_some()
        && hanging.iter().any(|(_, used)| used.feed.value == LightFeed::Bus)
    {
        list.push(Candidate::new("lights-from-the-door-station", all("feed", "station")));
    }
    let mut others: Vec<&Light> = site.catalogue.lights.values().collect();
    others.sort_by(|a, b| by_price(&a.head, &b.head));
    for (index, used) in &hanging {
        let own = site.light(used);
        let same = others
            .iter()
            .filter(|light| light.kind.value == own.kind.value && light.head.name != own.head.name);
        list.extend(same.map(|light| {
            Candidate::new("other-light", light_edit(entrance, *index, "model", quoted(&light.head.name)))
        }));
    }
    for (index, _) in &hanging {
        let edit = light_edit(entrance, *index, "feed", quoted("own-supply"));
        list.push(Candidate::new("light-supply-of-its-own", edit).unpriced());
    }
    if hanging.len() > 1 {
        list.push(Candidate::new("light-supply-of-its-own", all("feed", "own-supply")).unpriced());
    }
    list
}

/// Every light that hangs on a supply's tree put on a supply of its own.
pub(super) fn lights_off_the_bus(bench: &Bench<'_>, source: &str) -> Option<Candidate> {
    let on_tree = |entrance: &&Entrance| {
        let devices = &bench.assessment.devices;
        devices.iter().any(|device| device.id == entrance.id && device.source.as_str() == source)
    };
    let entrances = bench.site.entrances.iter().filter(on_tree);
    let edit = entrances
        .flat_map(|entrance| {
            entrance.lights.iter().enumerate().map(move |(index, used)| (entrance, index, used))
        })
        .filter(|(_, _, used)| used.feed.value != LightFeed::OwnSupply)
        .map(|(entrance, index, _)| light_edit(entrance, index, "feed", quoted("own-supply")))
        .fold(Edit::default(), Edit::then);
    (!edit.changes.is_empty()).then(|| Candidate::new("light-supply-of-its-own", edit).unpriced())
}

/// One change at every alarm input that it suits.
fn at_inputs(entrance: &Entrance, key: &str, value: &str, suits: impl Fn(&AlarmInput) -> bool) -> Edit {
    let inputs = entrance.alarm_inputs.iter().enumerate().filter(|(_, input)| suits(input));
    let edits = inputs.map(|(index, _)| set_in_list(entrance, "alarm_inputs", index, key, value.to_string()));
    edits.fold(Edit::default(), Edit::then)
}

/// Thicker conductors to all contacts, cheapest first.
fn thicker_input_cables(bench: &Bench<'_>, entrance: &Entrance) -> Vec<Candidate> {
    let cables = &bench.site.catalogue.cables;
    let ohm_per_m = |name: &str| cables.get(name).map_or(0.0, |cable| conductor_ohm_per_m(cable, 20.0));
    let mut by_cost: Vec<_> = cables.values().filter(|cable| is_made_for_door(entrance, cable)).collect();
    by_cost.sort_by(|a, b| by_price(&a.head, &b.head));
    by_cost
        .into_iter()
        .filter_map(|cable| {
            let own_ohm_per_m = conductor_ohm_per_m(cable, 20.0);
            let edit = at_inputs(entrance, "cable", &quoted(&cable.head.name), |input| {
                input.cable.as_ref().is_some_and(|own| ohm_per_m(&own.value) > own_ohm_per_m)
            });
            (!edit.changes.is_empty()).then(|| Candidate::new("thicker-alarm-cable", edit))
        })
        .collect()
}

/// The other side of the contact, or a resistor at it.
fn watched_cables(entrance: &Entrance) -> Vec<Candidate> {
    let is_open = |input: &AlarmInput| {
        input.contact.value == RelayContact::NormallyOpen && !input.end_of_line_resistor.value
    };
    vec![
        Candidate::new(
            "normally-closed-contact",
            at_inputs(entrance, "contact", &quoted("normally-closed"), is_open),
        )
        .unpriced(),
        Candidate::new("end-of-line-resistor", at_inputs(entrance, "end_of_line_resistor", "true", is_open))
            .unpriced(),
    ]
}

/// The management stations are told. Which dwelling should be is not for a program to decide.
fn tell_the_desks(bench: &Bench<'_>, entrance: &Entrance) -> Option<Candidate> {
    if bench.site.management.is_empty() {
        return None;
    }
    let edit = at_inputs(entrance, "tells", &quoted_list(["management"]), |input| {
        let scope = &input.tells;
        input.kind.value != AlarmKind::Fire && scope.dwellings.is_empty() && scope.management.is_empty()
    });
    Some(Candidate::new("management-station-told", edit))
}
