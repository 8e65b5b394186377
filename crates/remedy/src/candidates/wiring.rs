//! Changes to runs: thicker conductors, doubled pairs, split and moved runs, boxes nearer by.

use super::moved::{free_starts, run_for_each_landing};
use super::places::{boxes_at, free_name, free_port, free_ports};
use super::prices::by_price;
use super::run_text::{keep_head, new_run, run_has};
use crate::bench::Bench;
use crate::candidate::{Candidate, metres, quoted};
use latchline_finding::{Argument, Edit, Finding};
use latchline_network::resistance::conductor_ohm_per_m;
use latchline_network::{Layout, NodeRef, Segment};
use latchline_site::catalogue::{BoxKind, BoxModel, BoxRole, Cable};
use latchline_site::model::{RunStart, RunStop, Site};
use latchline_site::outdoors::is_made_for_run;

/// Loop resistance of a pair as installed, per metre, at 20 °C.
fn loop_per_metre(cable: &Cable, pairs: u32) -> f64 {
    2.0 * conductor_ohm_per_m(cable, 20.0) / f64::from(pairs.max(1))
}

/// The runs from a source to a device, the one with most resistance to gain first.
pub(crate) fn runs_on_path(layout: &Layout, at: NodeRef) -> Vec<usize> {
    let stage = &layout.stages[at.stage];
    let mut by_run: Vec<(usize, f64)> = Vec::new();
    let mut node = at.node;
    while node != 0 {
        if let Segment::Cable { run, .. } = stage.segment[node] {
            // What lies behind a segment makes it matter more.
            let behind = f64::from(stage.subtree_end[node]) - node as f64;
            let weight = stage.resistance_ohm[0][node] * behind;
            match by_run.iter_mut().find(|(known, _)| *known == run) {
                Some((_, sum)) => *sum += weight,
                None => by_run.push((run, weight)),
            }
        }
        node = stage.parent[node] as usize;
    }
    by_run.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    by_run.into_iter().map(|(run, _)| run).collect()
}

/// Candidates for a device with too little voltage.
pub(super) fn for_device(bench: &Bench<'_>, device: &str) -> Vec<Candidate> {
    let site = bench.site;
    let layout = bench.layout();
    let station = site.stations.iter().position(|station| station.id.as_str() == device);
    let box_index = site.boxes.iter().position(|one| one.id.as_str() == device);
    let at = station
        .and_then(|index| layout.station[index])
        .or_else(|| box_index.and_then(|index| layout.box_input[index]));
    let Some(at) = at else { return Vec::new() };
    let path = runs_on_path(layout, at);
    let mut list = Vec::new();
    for &run in &path {
        list.extend(thicker(bench, run));
        list.extend(doubled_pair(bench, run));
    }
    for &run in path.iter().take(2) {
        list.extend(split(bench, run));
        list.extend(run_for_each_landing(bench, run));
        list.extend(box_nearer(bench, run));
    }
    // Every run of the way that has a pair to spare.
    let spare: Vec<Edit> = path.iter().filter_map(|run| Some(doubled_pair(bench, *run)?.edit)).collect();
    if spare.len() > 1 {
        let edit = spare.into_iter().fold(Edit::default(), Edit::then);
        list.push(Candidate::new("doubled-pairs-all-the-way", edit));
    }
    // All thin runs of the way at once, with the same cable.
    for name in cables_by_price(site) {
        let thinner: Vec<usize> = path.iter().copied().filter(|run| is_thicker(bench, *run, name)).collect();
        if thinner.len() > 1 {
            let edit = thinner
                .iter()
                .filter(|run| fits(bench, **run, name))
                .map(|run| replace_cable(bench, *run, name))
                .fold(Edit::default(), Edit::then);
            list.push(Candidate::new("thicker-conductors-all-the-way", edit));
        }
    }
    list
}

/// Kinds that put what hangs on a run elsewhere.
const KINDS_OF_RUNS: [&str; 4] =
    ["another-port", "another-output", "another-distributor", "run-for-each-landing"];

/// Candidates for a port (`D1.3`) or run that carries too much or reaches too far.
pub(super) fn for_port_or_run(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let run = site
        .runs
        .iter()
        .position(|run| run.id.as_str() == element || site.start_id(run.from).as_str() == element);
    match run {
        Some(run) => {
            let mut list = split(bench, run);
            list.extend(run_for_each_landing(bench, run));
            list.extend(box_nearer(bench, run));
            list
        }
        // A device: the run that leads to it.
        None => for_device(bench, element)
            .into_iter()
            .filter(|candidate| KINDS_OF_RUNS.contains(&candidate.kind))
            .collect(),
    }
}

/// Another cable on every run that a finding is about: the run of that name, or the runs that it lists.
pub(super) fn other_cables(bench: &Bench<'_>, finding: &Finding, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let mut names = vec![element.to_string()];
    if let Some(Argument::Elements(listed)) = finding.argument("elements") {
        names.extend(listed.iter().map(ToString::to_string));
    }
    let runs: Vec<usize> = (0..site.runs.len())
        .filter(|run| names.iter().any(|name| site.runs[*run].id.as_str() == name))
        .collect();
    let mut list: Vec<Candidate> = cables_by_price(site)
        .into_iter()
        .filter(|name| runs.iter().any(|run| *name != site.runs[*run].cable.value))
        .filter(|name| runs.iter().all(|run| fits(bench, *run, name)))
        .map(|name| {
            let edits = runs.iter().map(|run| replace_cable(bench, *run, name));
            Candidate::new("other-cable", edits.fold(Edit::default(), Edit::then))
        })
        .collect();
    if let [run] = runs[..] {
        let two = two_pairs(bench, run);
        list.extend(two.map(|name| Candidate::new("other-cable", replace_by_two_pairs(bench, run, name))));
    }
    list
}

/// Cables of which two pairs in parallel come to less than one pair of any cable that is made for where a run lies: where only few are, one
/// pair may not do.
fn two_pairs<'b>(bench: &'b Bench<'_>, run: usize) -> impl Iterator<Item = &'b str> + use<'b> {
    let cables = &bench.site.catalogue.cables;
    let fitting: Vec<&str> =
        cables_by_price(bench.site).into_iter().filter(|name| fits(bench, run, name)).collect();
    let single = fitting.iter().map(|name| loop_per_metre(&cables[*name], 1));
    let least_single = single.fold(f64::INFINITY, f64::min);
    let two_do =
        move |name: &&str| cables[*name].pairs.value >= 2 && loop_per_metre(&cables[*name], 2) < least_single;
    // A run that has as many already is no run with one too few.
    fitting.into_iter().filter(move |name| bench.site.runs[run].pairs.value < 2 && two_do(name))
}

/// A new cable in place of the old one, two pairs of it in parallel.
fn replace_by_two_pairs(bench: &Bench<'_>, run: usize, name: &str) -> Edit {
    let id = bench.site.runs[run].id.as_str();
    replace_cable(bench, run, name).then(Edit::set(&["runs", id, "pairs"], "2"))
}

/// New cable in place of an old one that measures badly: of the same kind, else thicker.
pub(super) fn new_cable(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let Some(run) = site.runs.iter().position(|run| run.id.as_str() == element) else { return Vec::new() };
    let same = Some(site.runs[run].cable.value.as_str()).filter(|same| fits(bench, run, same));
    let names = same.into_iter().chain(thicker_cables(bench, run));
    names.map(|name| Candidate::new("new-cable", replace_cable(bench, run, name))).collect()
}

/// The runs that a finding lists, each to a free port of a box at the same place as the supply where they start: the cable
/// stays as it is.
pub(super) fn to_a_port_beside(bench: &Bench<'_>, finding: &Finding, supply: &str) -> Vec<Candidate> {
    let site = bench.site;
    let Some(supply) = site.supplies.iter().find(|one| one.id.as_str() == supply) else { return Vec::new() };
    let Some(Argument::Elements(runs)) = finding.argument("runs") else { return Vec::new() };
    let mut list = Vec::new();
    for box_index in boxes_at(site, &supply.place) {
        let mut ports = free_ports(site, box_index).into_iter();
        let mut edit = Edit::default();
        for run in runs {
            let Some(port) = ports.next() else { break };
            edit = edit.then(Edit::set(&["runs", run.as_str(), "from"], quoted(&port)));
        }
        if edit != Edit::default() {
            list.push(Candidate::new("another-port", edit));
        }
    }
    list
}

/// Names of all cables, cheapest first; those without price last.
pub(super) fn cables_by_price(site: &Site) -> Vec<&str> {
    let mut cables: Vec<&Cable> = site.catalogue.cables.values().collect();
    cables.sort_by(|a, b| by_price(&a.head, &b.head));
    cables.into_iter().map(|cable| cable.head.name.as_str()).collect()
}

pub(super) fn is_thicker(bench: &Bench<'_>, run: usize, name: &str) -> bool {
    let run = &bench.site.runs[run];
    let now = loop_per_metre(bench.site.cable(run), run.pairs.value);
    loop_per_metre(&bench.site.catalogue.cables[name], 1) < 0.95 * now
}

/// Whether a cable is made for where the run lies.
pub(super) fn fits(bench: &Bench<'_>, run: usize, name: &str) -> bool {
    is_made_for_run(bench.site, &bench.site.runs[run], &bench.site.catalogue.cables[name])
}

/// Thicker cables for one run, cheapest first.
pub(super) fn thicker(bench: &Bench<'_>, run: usize) -> Vec<Candidate> {
    let single = thicker_cables(bench, run).map(|name| replace_cable(bench, run, name));
    let own = &bench.site.runs[run];
    let now = loop_per_metre(bench.site.cable(own), own.pairs.value);
    let is_less = |name: &&str| loop_per_metre(&bench.site.catalogue.cables[*name], 2) < 0.95 * now;
    // Two pairs of the cable that lies there are a change of their own.
    let two = two_pairs(bench, run).filter(|name| is_less(name) && *name != own.cable.value);
    let two = two.map(|name| replace_by_two_pairs(bench, run, name));
    single.chain(two).map(|edit| Candidate::new("thicker-conductor", edit)).collect()
}

fn thicker_cables<'a>(bench: &'a Bench<'_>, run: usize) -> impl Iterator<Item = &'a str> {
    let cables = cables_by_price(bench.site).into_iter();
    cables.filter(move |name| is_thicker(bench, run, name) && fits(bench, run, name))
}

/// A new cable in place of the old one: it is no longer an existing one, and what was measured of
/// the old one no longer holds.
pub(super) fn replace_cable(bench: &Bench<'_>, run: usize, name: &str) -> Edit {
    let id = bench.site.runs[run].id.as_str();
    let mut edit = Edit::set(&["runs", id, "cable"], quoted(name));
    for key in ["existing", "measured"] {
        if run_has(bench, id, key) {
            edit = edit.then(Edit::remove(&["runs", id, key]));
        }
    }
    if bench.site.runs[run].pairs.value > bench.site.catalogue.cables[name].pairs.value {
        edit = edit.then(Edit::set(&["runs", id, "pairs"], "1"));
    }
    edit
}

/// One more pair of a cable that has a spare one.
fn doubled_pair(bench: &Bench<'_>, index: usize) -> Option<Candidate> {
    let run = &bench.site.runs[index];
    let spare = bench.site.cable(run).pairs.value > run.pairs.value;
    // A measured loop is that of the pairs as they are.
    if !spare || run.measured.loop_resistance.is_some() {
        return None;
    }
    let pairs = (run.pairs.value + 1).to_string();
    Some(Candidate::new("doubled-pair", Edit::set(&["runs", run.id.as_str(), "pairs"], pairs)))
}

/// Places where a chain may be cut in two: spread evenly, the middle first.
pub(super) fn cuts(stops: usize) -> Vec<usize> {
    let mut cuts: Vec<usize> = (1..stops).collect();
    let middle = stops / 2;
    cuts.sort_by_key(|cut| (cut.abs_diff(middle), *cut));
    cuts.truncate(5);
    cuts
}

/// The far part of a chain on a port or output of its own.
fn split(bench: &Bench<'_>, index: usize) -> Vec<Candidate> {
    let run = &bench.site.runs[index];
    let free = free_starts(bench.site, run.from);
    let Some(start) = free.first() else { return Vec::new() };
    let name = free_name(bench, "runs", run.id.as_str());
    cuts(run.sections.len())
        .into_iter()
        .map(|cut| {
            let first_m: f64 = run.section_lengths_m()[..=cut].iter().sum();
            let tail = new_run(bench, run, cut..run.sections.len(), &start.text, first_m);
            let edit = keep_head(bench, run, cut).then(Edit::set(&["runs", &name], tail));
            Candidate::new(start.kind, edit)
        })
        .collect()
}

/// The cheapest distributor of each kind in a family: one that cannot be judged must not stand in the way of one that can.
pub(super) fn distributors<'s>(site: &'s Site, family: &str) -> Vec<&'s BoxModel> {
    let of_kind = |kind: BoxKind| {
        let models = site.catalogue.boxes.values().filter(move |model| {
            model.role.value == BoxRole::Distributor
                && model.kind.value == kind
                && model.family.value == family
        });
        models.min_by(|a, b| by_price(&a.head, &b.head))
    };
    [BoxKind::PortLimited, BoxKind::Transparent, BoxKind::Regenerated]
        .into_iter()
        .filter_map(of_kind)
        .collect()
}

/// A distributor of the same model where the far part of the chain begins, fed from a free port.
fn box_nearer(bench: &Bench<'_>, index: usize) -> Vec<Candidate> {
    let site = bench.site;
    let run = &site.runs[index];
    let RunStart::Port { box_index, .. } = run.from else { return Vec::new() };
    let (Some(port), stops) = (free_port(site, box_index), run.sections.len()) else {
        return Vec::new();
    };
    let models = distributors(site, &site.box_model(&site.boxes[box_index]).family.value);
    let feeders = feeder_cables(bench, index);
    let box_name = free_name(bench, "distributors", "D-new");
    let feed_name = free_name(bench, "runs", &format!("{}-feed", run.id));
    let run_name = free_name(bench, "runs", run.id.as_str());
    let cuts: Vec<usize> = cuts(stops).into_iter().take(2).collect();
    let tried = models.iter().flat_map(|model| feeders.iter().map(move |cable| (model, *cable)));
    let tried = tried.flat_map(|(model, cable)| cuts.iter().map(move |cut| (model, cable, *cut)));
    tried
        .map(|(model, cable, cut)| {
            let place = match run.sections[cut].to {
                RunStop::Station(station) => site.place_key(site.station_place(&site.stations[station])),
                _ => None,
            };
            let place = place.map_or(String::new(), |place| format!(", place = {}", quoted(&place)));
            let distributor = format!("{{ model = {}{place} }}", quoted(&model.head.name));
            let first_m: f64 = run.section_lengths_m()[..=cut].iter().sum();
            let feed = format!(
                "{{ from = {}, to = {}, cable = {}, length = {} }}",
                quoted(&port),
                quoted(&box_name),
                quoted(cable),
                quoted(&metres(first_m))
            );
            let tail = new_run(bench, run, cut..stops, &format!("{box_name}.1"), 2.0);
            let edit = keep_head(bench, run, cut)
                .then(Edit::set(&["distributors", &box_name], distributor))
                .then(Edit::set(&["runs", &feed_name], feed))
                .then(Edit::set(&["runs", &run_name], tail));
            Candidate::new("another-distributor", edit)
        })
        .collect()
}

/// The cheapest cable with half the resistance of the run's own, for a feeder; where nobody states its line constants, so that signals
/// over it cannot be judged, also the cheapest of which they are known.
fn feeder_cables<'b>(bench: &'b Bench<'_>, run: usize) -> Vec<&'b str> {
    let own = &bench.site.runs[run];
    let cables = &bench.site.catalogue.cables;
    let now = loop_per_metre(bench.site.cable(own), own.pairs.value);
    let thick = |name: &&str| fits(bench, run, name) && loop_per_metre(&cables[*name], 1) < 0.5 * now;
    let thick: Vec<&str> = cables_by_price(bench.site).into_iter().filter(thick).collect();
    let judged = thick.iter().copied().find(|name| cables[*name].line.is_some());
    let mut feeders: Vec<&str> = thick.first().copied().into_iter().chain(judged).collect();
    feeders.dedup();
    feeders
}
