//! Changes at a supply for its battery and its cupboard.

use super::places::set_model;
use super::settings::lighter_stations;
use crate::bench::Bench;
use crate::candidate::Candidate;
use latchline_finding::Edit;
use latchline_site::catalogue::SupplyModel;
use latchline_site::model::{Run, RunStart};

/// Most batteries in parallel that are proposed (common practice: strings age apart).
const MOST_BATTERIES: u32 = 4;

/// Candidates for a battery that does not last, a charger that takes too long, a cupboard that is too hot:
/// more or fewer batteries, other supplies of the family that have a battery where this one has one and
/// give at least its current, lighter stations.
pub(super) fn for_supply(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let Some(supply) = site.supplies.iter().find(|one| one.id.as_str() == element) else {
        return Vec::new();
    };
    let own = site.supply_model(supply);
    let now = supply.batteries.value.max(1);
    let mut list = Vec::new();
    if own.battery.is_some() {
        for count in (now + 1..=MOST_BATTERIES).chain((1..now).rev()) {
            let more = batteries(element, count);
            list.push(if count > now { more } else { Candidate::new("fewer-batteries", more.edit) });
        }
    }
    list.extend(other_supplies(bench, element, |model| own.battery.is_none() || model.battery.is_some()));
    list.extend(lighter_stations(bench, element));
    list
}

/// Other supplies of the family that have a battery, each alone and with further batteries in parallel: where there is none yet, neither
/// is tried without the other.
pub(super) fn with_battery(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let supplies = other_supplies(bench, element, |model| model.battery.is_some());
    let batteries: Vec<Candidate> = (2..=MOST_BATTERIES).map(|count| batteries(element, count)).collect();
    let both = |supply: &Candidate| -> Vec<Candidate> {
        batteries.iter().map(|more| Candidate::both(supply, more)).collect()
    };
    let together: Vec<Candidate> = supplies.iter().flat_map(both).collect();
    supplies.into_iter().chain(together).collect()
}

/// So many batteries in parallel at a supply.
fn batteries(supply: &str, count: u32) -> Candidate {
    let edit = Edit::set(&["supplies", supply, "batteries"], count.to_string());
    Candidate::new("more-batteries", edit).unpriced()
}

/// Other supplies of the family that take as many runs as start here.
pub(super) fn with_more_outputs(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let start = |run: &&Run| matches!(run.from, RunStart::Supply(index) if site.supplies[index].id.as_str() == element);
    let runs = site.runs.iter().filter(start).count();
    other_supplies(bench, element, |model| model.most_runs().is_some_and(|most| most >= runs))
}

/// Other supplies of the family that give at least the current of this one.
fn other_supplies(
    bench: &Bench<'_>,
    element: &str,
    is_wanted: impl Fn(&SupplyModel) -> bool,
) -> Vec<Candidate> {
    let site = bench.site;
    let Some(supply) = site.supplies.iter().find(|one| one.id.as_str() == element) else {
        return Vec::new();
    };
    let own = site.supply_model(supply);
    let amps = |model: &SupplyModel| model.rated_current.value.as_amps();
    let others = site.catalogue.supplies.values().filter(|model| {
        model.head.name != own.head.name
            && model.family.value == own.family.value
            && amps(model) >= amps(own)
            && is_wanted(model)
    });
    let candidate = |model: &SupplyModel| {
        Some(Candidate::new("other-supply", set_model(bench, element, &model.head.name)?))
    };
    others.filter_map(candidate).collect()
}
