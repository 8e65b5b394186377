//! Changes for signals that arrive too weak or uneven: another way for a link, terminators, other cables, a branch or the run
//! of a star looped into a chain.

use super::places::free_port;
use super::rearranged::regenerating_box_in_front;
use super::run_text::{stops, write_lengths};
use super::settings::fitted;
use super::wiring::{cables_by_price, fits, replace_cable};
use crate::bench::Bench;
use crate::candidate::{Candidate, quoted, quoted_list};
use latchline_finding::{Argument, Edit, Finding};
use latchline_site::catalogue::{BoxKind, BoxRole};
use latchline_site::model::{Run, RunStart, RunStop, Site};

/// Most ends that are tried with a terminator.
const MOST_TERMINATORS: usize = 6;
/// Most branches that are looped in, from stations and from boxes each.
const MOST_BRANCHES: usize = 4;

/// Candidates for a station that hears too little, or too unevenly.
pub(super) fn for_signal<'c>(
    bench: &'c Bench<'_>,
    finding: &Finding,
) -> impl Iterator<Item = Candidate> + use<'c> {
    let concerned = concerned_runs(bench, finding);
    let terminated = terminated(bench, &concerned);
    let for_branches = concerned.clone();
    let element = finding.element.as_ref().map(|element| element.as_str().to_string());
    links(bench)
        .chain(terminated)
        .chain(concerned.into_iter().flat_map(|run| other_cables(bench, run)))
        .chain(std::iter::once_with(move || looped_branches(bench, &for_branches)).flatten())
        .chain(std::iter::once_with(move || in_front(bench, element.as_deref())).flatten())
}

/// A regenerating box in front of a distributor on the way: waiting stations behind it load the pair before it no longer.
fn in_front(bench: &Bench<'_>, station: Option<&str>) -> Vec<Candidate> {
    station.map_or(Vec::new(), |station| regenerating_box_in_front(bench, station))
}

/// The runs that a finding is about: the one it names, those that lead to the station and to its caller, and
/// branches from stations, which end open.
fn concerned_runs(bench: &Bench<'_>, finding: &Finding) -> Vec<usize> {
    let site = bench.site;
    let mut concerned = Vec::new();
    let mut is_in = vec![false; site.runs.len()];
    let mut add = |run: Option<usize>| {
        if let Some(run) = run.filter(|run| !std::mem::replace(&mut is_in[*run], true)) {
            concerned.push(run);
        }
    };
    if let Some(Argument::Element(named)) = finding.argument("run") {
        add(site.runs.iter().position(|run| run.id == *named));
    }
    let caller = match finding.argument("caller") {
        Some(Argument::Element(caller)) => Some(caller),
        _ => None,
    };
    for device in finding.element.iter().chain(caller) {
        add(site
            .runs
            .iter()
            .position(|run| run.sections.iter().any(|section| site.stop_id(section.to) == device)));
    }
    for (index, run) in site.runs.iter().enumerate() {
        if matches!(run.from, RunStart::Station(_)) {
            add(Some(index));
        }
    }
    concerned
}

/// A link from another distributor.
fn links<'c>(bench: &'c Bench<'_>) -> impl Iterator<Item = Candidate> + use<'c> {
    let site = bench.site;
    let is_link =
        |run: &&Run| matches!(run.sections.last().map(|section| section.to), Some(RunStop::BoxLink(_)));
    site.runs.iter().filter(is_link).flat_map(move |run| {
        site.boxes.iter().enumerate().filter_map(move |(index, item)| {
            let is_there = matches!(run.from, RunStart::Port { box_index, .. } if box_index == index);
            let gives_links = site.box_model(item).role.value == BoxRole::Distributor
                && site.box_model(item).kind.value != BoxKind::Isolating;
            if is_there || !gives_links {
                return None;
            }
            let port = free_port(site, index)?;
            let edit = Edit::set(&["runs", run.id.as_str(), "from"], quoted(&port));
            Some(Candidate::new("another-port", edit))
        })
    })
}

/// A terminator, with its capacitor, at the end of a run.
fn terminated(bench: &Bench<'_>, runs: &[usize]) -> Vec<Candidate> {
    let site = bench.site;
    runs.iter()
        .map(|run| &site.runs[*run])
        .filter(|run| run.terminator.as_ref().is_none_or(|set| !set.value) && is_end(site, run))
        .take(MOST_TERMINATORS)
        .map(|run| {
            let id = run.id.as_str();
            let edit = Edit::set(&["runs", id, "terminator"], "true")
                .then(Edit::set(&["runs", id, "terminator_capacitor"], "true"));
            fitted(site, run, Candidate::new("terminator", edit))
        })
        .collect()
}

/// Whether nothing goes on from the end of a run.
fn is_end(site: &Site, run: &Run) -> bool {
    let Some(RunStop::Station(last)) = run.sections.last().map(|section| section.to) else { return false };
    !site.runs.iter().any(|other| other.from == RunStart::Station(last))
}

/// Every other cable that may lie there and whose line constants are known, cheapest first.
fn other_cables(bench: &Bench<'_>, run: usize) -> Vec<Candidate> {
    let site = bench.site;
    let own = &site.runs[run].cable.value;
    cables_by_price(site)
        .into_iter()
        .filter(|name| {
            *name != own.as_str() && fits(bench, run, name) && site.catalogue.cables[*name].line.is_some()
        })
        .map(|name| Candidate::new("other-cable", replace_cable(bench, run, name)))
        .collect()
}

/// Branches looped into a chain: from stations in the middle of a chain, and shorter runs of a star at a box into longer
/// ones of it, where one of the two is concerned.
fn looped_branches(bench: &Bench<'_>, concerned: &[usize]) -> Vec<Candidate> {
    let runs = || bench.site.runs.iter().enumerate();
    let at_stations = runs().filter_map(|(_, branch)| {
        let RunStart::Station(at) = branch.from else { return None };
        runs().find_map(|(_, chain)| {
            let stop = chain.sections.iter().position(|section| section.to == RunStop::Station(at))?;
            (stop + 1 < chain.sections.len()).then(|| looped_in(bench, branch, chain, stop + 1))?
        })
    });
    let at_boxes = runs().flat_map(|(index, branch)| {
        runs().filter_map(move |(other, chain)| {
            let (RunStart::Port { box_index: a, .. }, RunStart::Port { box_index: b, .. }) =
                (branch.from, chain.from)
            else {
                return None;
            };
            let is_star = a == b && index != other && total_m(branch) <= total_m(chain);
            let is_concerned = concerned.contains(&index) || concerned.contains(&other);
            (is_star && is_concerned).then(|| looped_in(bench, branch, chain, 0))?
        })
    });
    at_stations.take(MOST_BRANCHES).chain(at_boxes.take(MOST_BRANCHES)).collect()
}

fn total_m(run: &Run) -> f64 {
    run.length().as_metres()
}

/// A branch looped into the chain before the chain's stop `place`: out to the end of the branch and back the same way, which is
/// the longest that it can be. `None` where it is wired in another way than the chain, or leads to more than stations.
fn looped_in(bench: &Bench<'_>, branch: &Run, chain: &Run, place: usize) -> Option<Candidate> {
    let site = bench.site;
    let is_alike = branch.cable.value == chain.cable.value
        && branch.pairs.value == chain.pairs.value
        && branch.surge_protection.is_none()
        && branch.terminator.as_ref().is_none_or(|set| !set.value)
        && branch.sections.iter().all(|section| matches!(section.to, RunStop::Station(_)));
    if !is_alike {
        return None;
    }
    let (mut names, mut lengths) = (stops(site, chain), chain.section_lengths_m());
    lengths[place] += total_m(branch);
    names.splice(place..place, stops(site, branch));
    lengths.splice(place..place, branch.section_lengths_m());
    let to = quoted_list(names.iter().map(String::as_str));
    let id = chain.id.as_str();
    let edit = Edit::set(&["runs", id, "to"], to)
        .then(write_lengths(bench, id, &lengths))
        .then(Edit::remove(&["runs", branch.id.as_str()]));
    Some(Candidate::new("branch-looped-in", edit))
}
