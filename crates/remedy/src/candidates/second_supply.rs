//! A second supply that takes some of the runs of a distributor.
//!
//! The runs hang on an isolating box: it is fed by the new supply, and passes nothing but signals from the old bus, so that all doors go on
//! reaching all dwellings. A family that has no such box has no such change, since a bus of its own would leave doors without dwellings.

use super::places::free_name;
use super::prices::by_price;
use super::rearranged::{place_text, short_run};
use crate::bench::Bench;
use crate::candidate::{Candidate, quoted};
use latchline_finding::Edit;
use latchline_network::StageSource;
use latchline_site::catalogue::{BoxKind, BoxModel, BoxRole, SupplyModel};
use latchline_site::model::{Run, RunStart, RunStop, Site};

/// Most distributors of which runs are taken, one at a time.
const MOST_DISTRIBUTORS: usize = 3;
/// Most models of supply and of isolating box that are tried, the cheapest first.
const MOST_MODELS: usize = 2;

/// For each distributor of a supply's tree, those with most stations first: its largest run, then its two largest, and so on, on an isolating
/// box beside it that a new supply feeds. The link between the two takes the port of the first run.
pub(super) fn for_supply(bench: &Bench<'_>, source: &str) -> Vec<Candidate> {
    let site = bench.site;
    let layout = bench.layout();
    let Some(stage) = layout.stages.iter().position(|stage| stage.id.as_str() == source) else {
        return Vec::new();
    };
    let StageSource::Supply(supply) = layout.stages[stage].source else { return Vec::new() };
    let own = site.supply_model(&site.supplies[supply]);
    let isolating = isolating_boxes(site, &own.family.value);
    let mut boxes: Vec<(usize, Vec<&Run>)> = (0..site.boxes.len())
        .filter(|index| layout.box_input[*index].is_some_and(|input| input.stage == stage))
        .map(|index| (index, runs_of(site, index)))
        .filter(|(_, runs)| runs.len() > 1)
        .collect();
    boxes
        .sort_by_key(|(_, runs)| std::cmp::Reverse(runs.iter().map(|run| run.sections.len()).sum::<usize>()));
    let mut list = Vec::new();
    for (index, runs) in boxes.into_iter().take(MOST_DISTRIBUTORS) {
        for isolating in isolating.iter().take(MOST_MODELS) {
            // One run at least stays.
            let most = (isolating.ports.value as usize).min(runs.len() - 1);
            for model in supplies(site, own).into_iter().take(MOST_MODELS) {
                let moved = (1..=most).map(|count| &runs[..count]);
                list.extend(moved.map(|moved| moved_to(bench, index, moved, isolating, model)));
            }
        }
    }
    list
}

/// The runs of a box that lead to stations alone, those with most stations first.
fn runs_of(site: &Site, index: usize) -> Vec<&Run> {
    let is_of_it = |run: &&Run| matches!(run.from, RunStart::Port { box_index, .. } if box_index == index);
    let to_stations =
        |run: &&Run| run.sections.iter().all(|section| matches!(section.to, RunStop::Station(_)));
    let mut runs: Vec<&Run> = site.runs.iter().filter(is_of_it).filter(to_stations).collect();
    runs.sort_by_key(|run| std::cmp::Reverse(run.sections.len()));
    runs
}

fn isolating_boxes<'s>(site: &'s Site, family: &str) -> Vec<&'s BoxModel> {
    let of_family = site.catalogue.boxes.values().filter(|model| {
        model.family.value == family
            && model.role.value == BoxRole::Distributor
            && model.kind.value == BoxKind::Isolating
    });
    let mut models: Vec<&BoxModel> = of_family.collect();
    models.sort_by(|a, b| by_price(&a.head, &b.head));
    models
}

/// Supplies of the same family, with a battery where this one has one, cheapest first.
fn supplies<'s>(site: &'s Site, own: &SupplyModel) -> Vec<&'s SupplyModel> {
    let mut models: Vec<&SupplyModel> = site
        .catalogue
        .supplies
        .values()
        .filter(|model| model.family.value == own.family.value)
        .filter(|model| model.battery.is_some() == own.battery.is_some())
        .collect();
    models.sort_by(|a, b| by_price(&a.head, &b.head));
    models
}

/// The change itself.
fn moved_to(
    bench: &Bench<'_>,
    index: usize,
    moved: &[&Run],
    isolating: &BoxModel,
    supply: &SupplyModel,
) -> Candidate {
    let site = bench.site;
    let item = &site.boxes[index];
    let place = place_text(site, &item.place);
    let part = |model: &str| format!("{{ model = {}{place} }}", quoted(model));
    let box_name = free_name(bench, "distributors", "D-new");
    let supply_name = free_name(bench, "supplies", "PS-new");
    let ends_there = |run: &&Run| run.sections.last().map(|last| last.to) == Some(RunStop::BoxInput(index));
    let cable = &site.runs.iter().find(ends_there).unwrap_or(moved[0]).cable.value;
    let link_from = site.start_id(moved[0].from);
    let mut edit = Edit::set(&["supplies", &supply_name], part(&supply.head.name))
        .then(Edit::set(&["distributors", &box_name], part(&isolating.head.name)));
    for (port, run) in (1..).zip(moved) {
        edit =
            edit.then(Edit::set(&["runs", run.id.as_str(), "from"], quoted(&format!("{box_name}.{port}"))));
    }
    edit = edit
        .then(Edit::set(
            &["runs", &free_name(bench, "runs", &format!("{supply_name}-feed"))],
            short_run(&supply_name, &box_name, cable),
        ))
        .then(Edit::set(
            &["runs", &free_name(bench, "runs", &format!("{box_name}-link"))],
            short_run(link_from.as_str(), &format!("{box_name}.link"), cable),
        ));
    Candidate::new("second-supply", edit)
}
