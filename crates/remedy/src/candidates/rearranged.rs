//! Changes of the plan itself: another order on a run, a branch box, a supply nearer by.

use super::places::free_name;
use super::prices::by_price;
use super::run_text::stops;
use crate::bench::Bench;
use crate::candidate::{Candidate, metres, quoted, quoted_list};
use latchline_finding::Edit;
use latchline_network::StageSource;
use latchline_site::catalogue::{BoxKind, BoxRole};
use latchline_site::model::{Place, Run, RunStart, RunStop, Site};
use latchline_site::ways::Ways;
use toml::de::DeValue;

/// Cable between parts that hang side by side.
const SIDE_BY_SIDE_M: f64 = 1.0;
/// Most distributors that get a supply of their own, one at a time.
const MOST_DISTRIBUTORS: usize = 3;

/// The run that stops at a device, and the place of that stop.
fn stop_at<'s>(site: &'s Site, device: &str) -> Option<(&'s Run, usize)> {
    site.runs.iter().find_map(|run| {
        let stop = run.sections.iter().position(|section| site.stop_id(section.to).as_str() == device)?;
        Some((run, stop))
    })
}

fn place_of(site: &Site, stop: RunStop) -> Option<&Place> {
    match stop {
        RunStop::Station(station) => Some(site.station_place(&site.stations[station])),
        RunStop::BoxInput(_) | RunStop::BoxLink(_) => None,
    }
}

/// The station before others of its run that have the same place: their ways are interchangeable as far
/// as the site file tells.
pub(super) fn changed_order(bench: &Bench<'_>, device: &str) -> Vec<Candidate> {
    let site = bench.site;
    let Some((run, stop)) = stop_at(site, device) else { return Vec::new() };
    let Some(place) = place_of(site, run.sections[stop].to) else { return Vec::new() };
    let same_place = |index: &usize| place_of(site, run.sections[*index].to) == Some(place);
    let earliest = (0..stop).rev().take_while(same_place).last();
    let latest = (stop + 1..run.sections.len()).take_while(same_place).last();
    let mut names: Vec<&str> = run.sections.iter().map(|section| site.stop_id(section.to).as_str()).collect();
    if run.sections.iter().any(|section| matches!(section.to, RunStop::BoxLink(_))) {
        return Vec::new();
    }
    let original = names.clone();
    let mut moved = |to: usize| {
        names.clone_from(&original);
        let name = names.remove(stop);
        names.insert(to, name);
        let edit = Edit::set(&["runs", run.id.as_str(), "to"], quoted_list(names.iter().copied()));
        Candidate::new("changed-order", edit)
    };
    [earliest, latest].into_iter().flatten().map(&mut moved).collect()
}

/// A branch box in place of a station that has one pair of terminals, and the station on a spur of it.
pub(super) fn branch_box(bench: &Bench<'_>, device: &str) -> Vec<Candidate> {
    let site = bench.site;
    let Some((run, stop)) = stop_at(site, device) else { return Vec::new() };
    let RunStop::Station(station) = run.sections[stop].to else { return Vec::new() };
    let onward: Vec<&Run> =
        site.runs.iter().filter(|other| other.from == RunStart::Station(station)).collect();
    let ports = 1 + onward.len();
    let family = &site.station_model(&site.stations[station]).family.value;
    let fitting = site.catalogue.boxes.values().filter(|model| {
        model.family.value == *family
            && model.role.value == BoxRole::BranchBox
            && model.kind.value == BoxKind::Transparent
            && model.ports.value as usize >= ports
    });
    let Some(model) = fitting.min_by(|a, b| by_price(&a.head, &b.head)) else { return Vec::new() };
    let name = free_name(bench, "branch-boxes", "T-new");
    let spur = free_name(bench, "runs", &format!("{}-spur", run.id));
    let stops = run.sections.iter().enumerate().map(|(index, section)| {
        if index == stop { name.as_str() } else { site.stop_id(section.to).as_str() }
    });
    let place = place_text(site, site.station_place(&site.stations[station]));
    let mut edit = Edit::set(&["runs", run.id.as_str(), "to"], quoted_list(stops))
        .then(Edit::set(
            &["branch-boxes", &name],
            format!("{{ model = {}{place} }}", quoted(&model.head.name)),
        ))
        .then(Edit::set(&["runs", &spur], short_run(&format!("{name}.1"), device, &run.cable.value)));
    for (number, other) in onward.iter().enumerate() {
        let port = format!("{name}.{}", number + 2);
        edit = edit.then(Edit::set(&["runs", other.id.as_str(), "from"], quoted(&port)));
    }
    vec![Candidate::new("branch-box", edit)]
}

/// A distributor that gives the power anew, in front of one on the way to a device: it hangs beside it, on the run that fed it, and feeds it
/// from its first port. Where the family has none, nothing.
pub(super) fn regenerating_box_in_front(bench: &Bench<'_>, device: &str) -> Vec<Candidate> {
    let site = bench.site;
    let Some((run, _)) = stop_at(site, device) else { return Vec::new() };
    let Some(run) = site.runs.iter().position(|one| one.id == run.id) else { return Vec::new() };
    let name = free_name(bench, "distributors", "R-new");
    let onward = free_name(bench, "runs", &name);
    let ways = Ways::new(site);
    let mut list = Vec::new();
    for run in ways.to_run(run) {
        let run = &site.runs[*run];
        let Some(RunStop::BoxInput(index)) = run.sections.last().map(|section| section.to) else { continue };
        let item = &site.boxes[index];
        let own = site.box_model(item);
        if own.role.value != BoxRole::Distributor || own.kind.value == BoxKind::Regenerated {
            continue;
        }
        let mut models: Vec<_> = site
            .catalogue
            .boxes
            .values()
            .filter(|model| {
                model.family.value == own.family.value
                    && model.role.value == BoxRole::Distributor
                    && model.kind.value == BoxKind::Regenerated
            })
            .collect();
        models.sort_by(|a, b| by_price(&a.head, &b.head));
        let place = place_text(site, &item.place);
        list.extend(models.into_iter().map(|model| {
            let edit = Edit::set(
                &["distributors", &name],
                format!("{{ model = {}{place} }}", quoted(&model.head.name)),
            )
            .then(Edit::set(&["runs", run.id.as_str(), "to"], ending_at(bench, run, &name)))
            .then(Edit::set(
                &["runs", &onward],
                short_run(&format!("{name}.1"), item.id.as_str(), &run.cable.value),
            ));
            Candidate::new("regenerating-box-in-front", edit)
        }));
    }
    list
}

/// The stops of a run as the user writes them, with another last one.
fn ending_at(bench: &Bench<'_>, run: &Run, last: &str) -> String {
    let mut stops = stops(bench.site, run);
    if let Some(stop) = stops.last_mut() {
        *stop = last.to_string();
    }
    let is_list = bench.written(&["runs", run.id.as_str(), "to"]).is_some_and(DeValue::is_array);
    if is_list { quoted_list(stops.iter().map(String::as_str)) } else { quoted(&stops[0]) }
}

/// A supply of its own, behind an isolating box, for one of the distributors of a source's tree: those
/// with most stations behind them first.
pub(super) fn supply_nearer_by(bench: &Bench<'_>, source: &str) -> Vec<Candidate> {
    let site = bench.site;
    let layout = bench.layout();
    let Some(stage) = layout.stages.iter().find(|stage| stage.id.as_str() == source) else {
        return Vec::new();
    };
    let StageSource::Supply(supply) = stage.source else { return Vec::new() };
    let family = &site.supply_model(&site.supplies[supply]).family.value;
    let isolating = site.catalogue.boxes.values().filter(|model| {
        model.family.value == *family
            && model.role.value == BoxRole::Distributor
            && model.kind.value == BoxKind::Isolating
    });
    let with_battery = site.supply_model(&site.supplies[supply]).battery.is_some();
    let feeds = site
        .catalogue
        .supplies
        .values()
        .filter(|model| model.family.value == *family && model.battery.is_some() == with_battery);
    let isolating = isolating.min_by(|a, b| by_price(&a.head, &b.head));
    let feed = feeds.min_by(|a, b| by_price(&a.head, &b.head));
    let (Some(isolating), Some(feed)) = (isolating, feed) else { return Vec::new() };
    let mut fed: Vec<(usize, &Run, usize)> = site
        .runs
        .iter()
        .filter(|run| matches!(run.from, RunStart::Port { .. }))
        .filter_map(|run| {
            let RunStop::BoxInput(index) = run.sections.last()?.to else { return None };
            let input = layout.box_input[index]?;
            if layout.stages[input.stage].id.as_str() != source {
                return None;
            }
            let end = layout.stages[input.stage].subtree_end[input.node] as usize;
            Some((end - input.node, run, index))
        })
        .collect();
    fed.sort_by(|a, b| b.0.cmp(&a.0).then(a.2.cmp(&b.2)));
    fed.truncate(MOST_DISTRIBUTORS);
    fed.into_iter()
        .map(|(_, run, index)| {
            let item = &site.boxes[index];
            let place = place_text(site, &item.place);
            let box_name = free_name(bench, "distributors", "D-new");
            let supply_name = free_name(bench, "supplies", "PS-new");
            let to = ending_at(bench, run, &format!("{box_name}.link"));
            let cable = &run.cable.value;
            let part = |model: &str| format!("{{ model = {}{place} }}", quoted(model));
            let edit = Edit::set(&["supplies", &supply_name], part(&feed.head.name))
                .then(Edit::set(&["distributors", &box_name], part(&isolating.head.name)))
                .then(Edit::set(&["runs", run.id.as_str(), "to"], to))
                .then(Edit::set(
                    &["runs", &free_name(bench, "runs", &format!("{supply_name}-feed"))],
                    short_run(&supply_name, &box_name, cable),
                ))
                .then(Edit::set(
                    &["runs", &free_name(bench, "runs", &format!("{box_name}-out"))],
                    short_run(&format!("{box_name}.1"), item.id.as_str(), cable),
                ));
            Candidate::new("supply-nearer-by", edit)
        })
        .collect()
}

/// A distributor beside a supply, on one of its outputs, for the runs that the outputs do not take.
pub(super) fn distributor_at_the_supply(bench: &Bench<'_>, supply: &str) -> Vec<Candidate> {
    let site = bench.site;
    let Some(index) = site.supplies.iter().position(|one| one.id.as_str() == supply) else {
        return Vec::new();
    };
    let own = site.supply_model(&site.supplies[index]);
    let Some(most) = own.most_runs().filter(|most| *most > 0) else { return Vec::new() };
    let runs: Vec<&Run> = site.runs_from_supply(index).collect();
    // The new distributor takes one of the outputs.
    let Some(moved) = runs.get(most - 1..).filter(|moved| !moved.is_empty()) else { return Vec::new() };
    let mut models: Vec<_> = site
        .catalogue
        .boxes
        .values()
        .filter(|model| {
            model.family.value == own.family.value
                && model.role.value == BoxRole::Distributor
                && model.kind.value != BoxKind::Isolating
                && model.ports.value as usize >= moved.len()
        })
        .collect();
    models.sort_by(|a, b| by_price(&a.head, &b.head));
    let place = place_text(site, &site.supplies[index].place);
    let name = free_name(bench, "distributors", "D-new");
    let feed = free_name(bench, "runs", &format!("{name}-feed"));
    let candidate = |model: &latchline_site::catalogue::BoxModel| {
        let mut edit =
            Edit::set(&["distributors", &name], format!("{{ model = {}{place} }}", quoted(&model.head.name)))
                .then(Edit::set(&["runs", &feed], short_run(supply, &name, &moved[0].cable.value)));
        for (port, run) in (1..).zip(moved) {
            edit =
                edit.then(Edit::set(&["runs", run.id.as_str(), "from"], quoted(&format!("{name}.{port}"))));
        }
        Candidate::new("distributor-at-the-supply", edit)
    };
    models.into_iter().map(candidate).collect()
}

pub(super) fn short_run(from: &str, to: &str, cable: &str) -> String {
    let (from, to, cable) = (quoted(from), quoted(to), quoted(cable));
    format!("{{ from = {from}, to = {to}, cable = {cable}, length = {} }}", quoted(&metres(SIDE_BY_SIDE_M)))
}

pub(super) fn place_text(site: &Site, place: &Place) -> String {
    site.place_key(place).map_or(String::new(), |place| format!(", place = {}", quoted(&place)))
}
