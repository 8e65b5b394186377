//! Changes of a part or a setting: supplies, stations, terminators, numbers, protection.

use super::places::set_model;
use crate::bench::Bench;
use crate::candidate::{Candidate, quoted};
use latchline_assess::rules::codes;
use latchline_finding::{Change, Code, Edit, EditStep, Finding};
use latchline_site::bill::has_own_terminator;
use latchline_site::catalogue::{StationModel, SupplyModel};
use latchline_site::model::{Entrance, Run, RunStop, Site, StationOwner};
use latchline_site::outdoors::leaves_its_building;

/// Supplies of the same family with more current, the cheapest first, those without a price last.
pub(super) fn larger_supply(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    larger_supply_giving(bench, element, 0.0)
}

/// Those of [`larger_supply`] that give at least what is drawn when power returns and every device boots: one that gives less is
/// overloaded then, so its start need not be simulated. All of them where the bus collapses in that state.
pub(super) fn supply_for_a_start(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let source = bench.assessment.sources.iter().find(|source| source.id.as_str() == element);
    larger_supply_giving(
        bench,
        element,
        source.and_then(|source| source.power_return_current_a).unwrap_or(0.0),
    )
}

/// Those of [`larger_supply`] that give at least a current.
fn larger_supply_giving(bench: &Bench<'_>, element: &str, least_a: f64) -> Vec<Candidate> {
    let site = bench.site;
    let Some(supply) = site.supplies.iter().find(|one| one.id.as_str() == element) else {
        return Vec::new();
    };
    let own = site.supply_model(supply);
    let rated_a = |model: &SupplyModel| model.rated_current.value.as_amps();
    let mut larger: Vec<_> = site
        .catalogue
        .supplies
        .values()
        .filter(|model| model.family.value == own.family.value)
        .filter(|model| rated_a(model) > rated_a(own) && rated_a(model) >= least_a)
        // A battery that is there stays there.
        .filter(|model| own.battery.is_none() || model.battery.is_some())
        .collect();
    let price = |model: &SupplyModel| model.head.price.as_ref().map(|price| price.value);
    larger.sort_by(|a, b| {
        let by_price = price(a).is_none().cmp(&price(b).is_none()).then(price(a).cmp(&price(b)));
        by_price.then(rated_a(a).total_cmp(&rated_a(b)))
    });
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
    let talking_a = |model: &StationModel| {
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
            .min_by(|a, b| talking_a(a).total_cmp(&talking_a(b)).then(a.head.name.cmp(&b.head.name)));
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

/// The supply that feeds something, directly or through boxes, set back to the voltage that it is delivered with, where it is set below.
pub(super) fn back_to_delivered(bench: &Bench<'_>, element: &str) -> Option<Candidate> {
    let (site, assessment) = (bench.site, bench.assessment);
    let mut at = element.to_string();
    // Each step goes up by one bus; there are no more of them than boxes that make one.
    for _ in 0..site.boxes.len() + 2 {
        if let Some(supply) = site.supplies.iter().find(|one| one.id.as_str() == at) {
            site.set_below_delivered(supply)?;
            return as_delivered(bench, &at);
        }
        let device = assessment.devices.iter().find(|one| one.id.as_str() == at).map(|one| &one.source);
        let run = || assessment.runs.iter().find(|one| one.id.as_str() == at || one.from.as_str() == at);
        at = device.or_else(|| run().map(|run| &run.source))?.to_string();
    }
    None
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

/// A surge protector in a run: between buildings one at each end, since lightning reaches both (common practice, no source); where a door
/// station is at its end, also one beside that.
pub(super) fn surge_protection(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let run = site.runs.iter().find(|run| run.id.as_str() == element);
    let table = if run.is_some() { "runs" } else { "entrances" };
    let protector = |table: &str, name: &str| Edit::set(&[table, name, "surge_protection"], quoted("1 ohm"));
    let stated = protector(table, element);
    let last = run.and_then(|run| run.sections.last()).map(|section| section.to);
    let at_its_end = |entrance: &&Entrance| last == Some(RunStop::Station(entrance.station));
    let entrance = site.entrances.iter().find(at_its_end);
    if entrance.is_none() && run.is_some_and(|run| leaves_its_building(site, run)) {
        return vec![Candidate::new("surge-protection-at-both-ends", stated).unpriced()];
    }
    let mut list = vec![Candidate::new("surge-protection", stated.clone()).unpriced()];
    if let Some(entrance) = entrance {
        let both = stated.then(protector("entrances", entrance.id.as_str()));
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
    // What is taken away is not bought.
    vec![match code {
        codes::TERMINATOR_MISSING => fitted(site, run, terminator("terminator", "true")),
        codes::TERMINATOR_WITHOUT_CAPACITOR => terminator("terminator_capacitor", "true").unpriced(),
        _ => terminator("terminator", "false"),
    }]
}

/// A change that puts a terminator at the end of a run: one that is fitted is bought, what the last station brings is only set.
pub(super) fn fitted(site: &Site, run: &Run, candidate: Candidate) -> Candidate {
    if has_own_terminator(site, run) { candidate } else { candidate.unpriced() }
}

/// Removes an acceptance that matches nothing.
pub(crate) fn idle_acceptance(bench: &Bench<'_>, finding: &Finding) -> Option<Edit> {
    let index = bench.acceptance_at(&finding.origin)?;
    let path = vec![EditStep::from("accept"), EditStep::from(index)];
    Some(Edit { changes: vec![(path, Change::Remove)] })
}
