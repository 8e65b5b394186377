//! Changes of a part or a setting: supplies, stations, terminators, numbers, protection.

use super::places::set_model;
use super::prices::by_price;
use crate::bench::Bench;
use crate::candidate::{Candidate, quoted};
use latchline_assess::rules::codes;
use latchline_finding::{Change, Code, Edit, EditStep, Finding};
use latchline_site::addresses::number_in_name;
use latchline_site::catalogue::{PartHead, StationModel};
use latchline_site::model::{Entrance, RunStop, StationOwner};

/// Supplies of the same family with more current, cheapest first; for boxes with a converter,
/// boxes of the same kind with more power.
pub(super) fn larger_supply(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let Some(supply) = site.supplies.iter().find(|one| one.id.as_str() == element) else {
        return Vec::new();
    };
    let own = site.supply_model(supply);
    let mut larger: Vec<_> = site
        .catalogue
        .supplies
        .values()
        .filter(|model| model.family.value == own.family.value)
        .filter(|model| model.rated_current.value.as_amps() > own.rated_current.value.as_amps())
        // A battery that is there stays there.
        .filter(|model| own.battery.is_none() || model.battery.is_some())
        .collect();
    larger.sort_by(|a, b| a.rated_current.value.as_amps().total_cmp(&b.rated_current.value.as_amps()));
    larger
        .into_iter()
        .filter_map(|model| {
            Some(Candidate::new("larger-supply", set_model(bench, element, &model.head.name)?))
        })
        .collect()
}

/// The lightest station of the same kind and medium for every dwelling on a supply's tree that has
/// a heavier one.
pub(super) fn lighter_stations(bench: &Bench<'_>, source: &str) -> Vec<Candidate> {
    let site = bench.site;
    let watts = |model: &StationModel| {
        let nominal = site.family().nominal_voltage.value.as_volts();
        latchline_network::demand::Demand::of(model.talking.value).current_at(nominal, 0.0)
    };
    let mut edit = Edit::default();
    for device in bench.assessment.devices.iter().filter(|device| device.source.as_str() == source) {
        let Some(station) = site.stations.iter().find(|station| station.id == device.id) else { continue };
        if !matches!(station.owner, StationOwner::Dwelling { .. }) {
            continue;
        }
        let own = site.station_model(station);
        let lightest = site
            .catalogue
            .stations
            .values()
            .filter(|model| {
                model.family.value == own.family.value
                    && model.kind.value == own.kind.value
                    && model.media.value == own.media.value
            })
            .min_by(|a, b| watts(a).total_cmp(&watts(b)).then(a.head.name.cmp(&b.head.name)));
        if let Some(lightest) = lightest.filter(|lightest| lightest.head.name != own.head.name)
            && let Some(change) = set_model(bench, station.id.as_str(), &lightest.head.name)
        {
            edit = edit.then(change);
        }
    }
    if edit.changes.is_empty() { Vec::new() } else { vec![Candidate::new("lighter-stations", edit)] }
}

/// The supply set so much lower that the highest voltage holds.
pub(super) fn lower_supply_voltage(bench: &Bench<'_>, finding: &Finding) -> Vec<Candidate> {
    let (Some(value), Some(limit), Some(element)) = (finding.value, finding.limit, &finding.element) else {
        return Vec::new();
    };
    let site = bench.site;
    let Some(device) = bench.assessment.devices.iter().find(|device| device.id == *element) else {
        return Vec::new();
    };
    let Some(supply) = site.supplies.iter().find(|one| one.id == device.source) else { return Vec::new() };
    let model = site.supply_model(supply);
    let set_v = supply.set_voltage.as_ref().map_or(model.voltage.value, |set| set.value).as_volts();
    let tolerance = model.voltage_tolerance.value.as_fraction();
    let lower_v = set_v - (value.value - limit.value) / (1.0 + tolerance);
    // A tenth of a volt is what a trimmer can be set to.
    let lower = format!("{} V", (lower_v * 10.0).floor() / 10.0);
    let id = supply.id.as_str();
    let mut list = Vec::new();
    if supply.set_voltage.is_some() {
        list.push(Candidate::new("supply-as-delivered", Edit::remove(&["supplies", id, "set_voltage"])));
    }
    list.push(Candidate::new(
        "lower-supply-voltage",
        Edit::set(&["supplies", id, "set_voltage"], quoted(&lower)),
    ));
    list
}

/// The voltage that the supply's model has.
pub(super) fn as_delivered(bench: &Bench<'_>, supply: &str) -> Option<Candidate> {
    let supply = bench.site.supplies.iter().find(|one| one.id.as_str() == supply)?;
    let edit = Edit::remove(&["supplies", supply.id.as_str(), "set_voltage"]);
    supply.set_voltage.is_some().then(|| Candidate::new("supply-as-delivered", edit))
}

/// As many pairs as the cable has.
pub(super) fn fewer_pairs(bench: &Bench<'_>, element: &str) -> Option<Candidate> {
    let site = bench.site;
    let run = site.runs.iter().find(|run| run.id.as_str() == element)?;
    let has = site.cable(run).pairs.value;
    (run.pairs.value > has).then(|| {
        let pairs = has.max(1).to_string();
        Candidate::new("fewer-pairs", Edit::set(&["runs", element, "pairs"], pairs))
    })
}

/// A surge protector in a run; where a door station is at its end, also one at each end, since lightning reaches both (common practice,
/// no source).
pub(super) fn surge_protection(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let is_run = bench.site.runs.iter().any(|run| run.id.as_str() == element);
    let table = if is_run { "runs" } else { "entrances" };
    let protector = |table: &str, name: &str| Edit::set(&[table, name, "surge_protection"], quoted("1 ohm"));
    let mut list = vec![Candidate::new("surge-protection", protector(table, element)).unpriced()];
    let site = bench.site;
    let run = site.runs.iter().find(|run| run.id.as_str() == element);
    let last = run.and_then(|run| run.sections.last()).map(|section| section.to);
    let at_its_end = |entrance: &&Entrance| last == Some(RunStop::Station(entrance.station));
    if let Some(entrance) = site.entrances.iter().find(at_its_end) {
        let both = protector("runs", element).then(protector("entrances", entrance.id.as_str()));
        list.push(Candidate::new("surge-protection-at-both-ends", both).unpriced());
    }
    list
}

/// A terminator set, taken away, or given its capacitor.
pub(super) fn terminators(bench: &Bench<'_>, element: &str, code: Code) -> Vec<Candidate> {
    let site = bench.site;
    let run = site.runs.iter().find(|run| {
        run.id.as_str() == element
            || run.sections.last().is_some_and(|section| site.stop_id(section.to).as_str() == element)
    });
    let Some(run) = run else { return Vec::new() };
    let id = run.id.as_str();
    let terminator = |key, value: &str| Candidate::new("terminator", Edit::set(&["runs", id, key], value));
    // What is fitted is bought; what is taken away is not.
    vec![match code {
        codes::TERMINATOR_MISSING => terminator("terminator", "true").unpriced(),
        codes::TERMINATOR_WITHOUT_CAPACITOR => terminator("terminator_capacitor", "true").unpriced(),
        _ => terminator("terminator", "false"),
    }]
}

/// A part of the site's family that does the same, in place of one of another family.
pub(super) fn part_of_the_family(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let family = &site.family.value;
    let mut parts: Vec<&PartHead> = Vec::new();
    if let Some(station) = site.stations.iter().find(|station| station.id.as_str() == element) {
        let own = site.station_model(station);
        for model in site.catalogue.stations.values() {
            if model.family.value == *family && model.kind == own.kind && model.media == own.media {
                parts.push(&model.head);
            }
        }
    } else if let Some(found) = site.boxes.iter().find(|one| one.id.as_str() == element) {
        let own = site.box_model(found);
        for model in site.catalogue.boxes.values() {
            let same = model.role == own.role && model.ports.value >= own.ports.value;
            if model.family.value == *family && same {
                parts.push(&model.head);
            }
        }
    } else if let Some(found) = site.supplies.iter().find(|one| one.id.as_str() == element) {
        let own = site.supply_model(found);
        for model in site.catalogue.supplies.values() {
            let same = model.rated_current.value.as_amps() >= own.rated_current.value.as_amps();
            if model.family.value == *family && same {
                parts.push(&model.head);
            }
        }
    }
    parts.sort_by(|a, b| by_price(a, b));
    parts
        .into_iter()
        .take(4)
        .filter_map(|part| Some(Candidate::new("part-of-the-family", set_model(bench, element, &part.name)?)))
        .collect()
}

/// Removes an acceptance that matches nothing.
pub(crate) fn idle_acceptance(bench: &Bench<'_>, finding: &Finding) -> Option<Edit> {
    let index = bench.acceptance_at(&finding.origin)?;
    let path = vec![EditStep::from("accept"), EditStep::from(index)];
    Some(Edit { changes: vec![(path, Change::Remove)] })
}

/// Another number: the one that the tool would give if none were stated, or the lowest free one.
pub(super) fn other_number(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let owner = element.split_once(':').map_or(element, |(owner, _)| owner);
    let table = if site.dwellings.iter().any(|one| one.id.as_str() == owner) {
        "dwellings"
    } else if site.entrances.iter().any(|one| one.id.as_str() == owner) {
        "entrances"
    } else if site.management.iter().any(|one| one.id.as_str() == owner) {
        "management"
    } else if site.buildings.iter().any(|one| one.id.as_str() == owner) {
        "buildings"
    } else {
        return Vec::new();
    };
    let stated = bench
        .table
        .get(table)
        .and_then(|table| table.get(owner))
        .is_some_and(|entry| entry.get("number").is_some());
    let mut list = Vec::new();
    if stated {
        list.push(Candidate::new("number-by-the-tool", Edit::remove(&[table, owner, "number"])));
    }
    if table == "entrances" {
        list.push(Candidate::new(
            "secondary-entrance",
            Edit::set(&[table, owner, "role"], quoted("secondary")),
        ));
    }
    list.extend((1..=99).filter(|number| !number_is_stated(bench, table, *number)).take(3).map(|number| {
        Candidate::new("other-number", Edit::set(&[table, owner, "number"], number.to_string()))
    }));
    list
}

/// Of two with one number the one whose number is not that of its name is changed, if it is one of them alone: there the slip is.
pub(super) fn number_of_the_slip(bench: &Bench<'_>, element: &str, other: Option<&str>) -> Vec<Candidate> {
    let is_off = |name: &str| {
        let owner = name.split_once(':').map_or(name, |(owner, _)| owner);
        let dwelling = bench.site.dwellings.iter().find(|one| one.id.as_str() == owner);
        let stated = dwelling.and_then(|one| one.number.as_ref()).map(|number| number.value);
        stated.is_some_and(|stated| number_in_name(owner).is_some_and(|named| named != stated))
    };
    match other {
        Some(other) if is_off(other) && !is_off(element) => other_number(bench, other),
        _ => other_number(bench, element),
    }
}

fn number_is_stated(bench: &Bench<'_>, table: &str, number: i64) -> bool {
    bench.table.get(table).and_then(toml::Value::as_table).is_some_and(|entries| {
        entries.values().any(|entry| entry.get("number").and_then(toml::Value::as_integer) == Some(number))
    })
}
