//! Changes for signals that arrive too weak or uneven: another way for a link, terminators, other cables, a branch
//! looped into its chain.

use super::places::free_port;
use super::wiring::{cables_by_price, fits, lengths_m, replace_cable, stops, write_lengths};
use crate::bench::Bench;
use crate::candidate::{Candidate, quoted, quoted_list};
use latchline_finding::{Argument, Edit, Finding};
use latchline_site::catalogue::{BoxKind, BoxRole};
use latchline_site::model::{Run, RunStart, RunStop, Site};

/// Most ends that are tried with a terminator.
const MOST_TERMINATORS: usize = 6;
/// Most branches that are looped in.
const MOST_BRANCHES: usize = 4;

/// Candidates for a station that hears too little, or too unevenly.
pub(super) fn for_signal(bench: &Bench<'_>, finding: &Finding) -> Vec<Candidate> {
    let mut list = links(bench);
    let concerned = concerned_runs(bench, finding);
    list.extend(terminated(bench, &concerned));
    for &run in &concerned {
        list.extend(other_cables(bench, run));
    }
    list.extend(looped_branches(bench));
    list
}

/// The runs that a finding is about: the one it names, those that lead to the station and to its caller, and
/// branches from stations, which end open.
fn concerned_runs(bench: &Bench<'_>, finding: &Finding) -> Vec<usize> {
    let site = bench.site;
    let mut concerned = Vec::new();
    let mut add = |run: Option<usize>| {
        if let Some(run) = run.filter(|run| !concerned.contains(run)) {
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
fn links(bench: &Bench<'_>) -> Vec<Candidate> {
    let site = bench.site;
    let mut list = Vec::new();
    for run in &site.runs {
        let is_link = matches!(run.sections.last().map(|section| section.to), Some(RunStop::BoxLink(_)));
        if !is_link {
            continue;
        }
        for (index, item) in site.boxes.iter().enumerate() {
            let is_there = matches!(run.from, RunStart::Port { box_index, .. } if box_index == index);
            let gives_links = site.box_model(item).role.value == BoxRole::Distributor
                && site.box_model(item).kind.value != BoxKind::Isolating;
            if is_there || !gives_links {
                continue;
            }
            if let Some(port) = free_port(site, index) {
                let edit = Edit::set(&["runs", run.id.as_str(), "from"], quoted(&port));
                list.push(Candidate::new("another-port", edit));
            }
        }
    }
    list
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
            Candidate::new("terminator", edit)
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

/// A branch from a station in the middle of a chain, looped into the chain: out to the end of the branch and back
/// the same way, which is the longest that it can be.
fn looped_branches(bench: &Bench<'_>) -> Vec<Candidate> {
    let site = bench.site;
    let mut list = Vec::new();
    for branch in &site.runs {
        let RunStart::Station(at) = branch.from else { continue };
        let chain = site.runs.iter().find_map(|run| {
            let stop = run.sections.iter().position(|section| section.to == RunStop::Station(at))?;
            (stop + 1 < run.sections.len()).then_some((run, stop))
        });
        let Some((chain, stop)) = chain.filter(|(chain, _)| chain.cable.value == branch.cable.value) else {
            continue;
        };
        let (mut names, mut lengths) = (stops(site, chain), lengths_m(chain));
        let (out, back) = (lengths_m(branch), lengths_m(branch).iter().sum::<f64>());
        lengths[stop + 1] += back;
        names.splice(stop + 1..stop + 1, stops(site, branch));
        lengths.splice(stop + 1..stop + 1, out);
        let to = quoted_list(names.iter().map(String::as_str));
        let id = chain.id.as_str();
        let edit = Edit::set(&["runs", id, "to"], to)
            .then(write_lengths(bench, id, &lengths))
            .then(Edit::remove(&["runs", branch.id.as_str()]));
        list.push(Candidate::new("branch-looped-in", edit));
        if list.len() == MOST_BRANCHES {
            break;
        }
    }
    list
}
