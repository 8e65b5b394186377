//! A second distributor beside a box or supply that has no place left for one more run.

use super::moved::free_starts;
use super::places::free_name;
use super::rearranged::{place_text, short_run};
use super::run_text::{keep_head, new_run};
use super::wiring::{cuts, distributors};
use crate::bench::Bench;
use crate::candidate::{Candidate, quoted};
use latchline_finding::Edit;
use latchline_site::model::{Place, Run, RunStart, RunStop, Site};

/// Most runs of a place whose port the new distributor takes, one at a time.
const MOST_PORTS: usize = 3;
/// Most places at which a chain is cut.
const MOST_CUTS: usize = 2;

/// Where the new distributor hangs.
struct Feed<'s> {
    /// Where its run starts, as the user writes it.
    from: String,
    /// The run that hung there and now hangs on the new distributor.
    instead_of: Option<&'s Run>,
}

/// A chain cut in two where no port is free: the far part on a distributor that hangs beside. It is fed from a free place from which the box
/// is fed, or takes the port of a run and carries that as well: of the chain itself, or of the shortest beside.
pub(super) fn for_port_or_run(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let is_it = |run: &&Run| run.id.as_str() == element || site.start_id(run.from).as_str() == element;
    let Some(run) = site.runs.iter().find(is_it) else { return Vec::new() };
    if run.sections.len() < 2 || !free_starts(site, run.from).is_empty() {
        return Vec::new();
    }
    let Some((place, family)) = place_and_family(site, run.from) else { return Vec::new() };
    let place = place_text(site, place);
    let mut candidates = Vec::new();
    for model in distributors(site, family) {
        for feed in feeds(site, run) {
            if model.ports.value as usize <= usize::from(feed.instead_of.is_some()) {
                continue;
            }
            let box_text = format!("{{ model = {}{place} }}", quoted(&model.head.name));
            let cuts = cuts(run.sections.len()).into_iter().take(MOST_CUTS);
            candidates.extend(cuts.map(|cut| cut_to_box(bench, run, cut, &feed, &box_text)));
        }
    }
    candidates
}

/// The place of what a run starts at, and its family.
fn place_and_family(site: &Site, start: RunStart) -> Option<(&Place, &str)> {
    match start {
        RunStart::Port { box_index, .. } => {
            let item = &site.boxes[box_index];
            Some((&item.place, site.box_model(item).family.value.as_str()))
        }
        RunStart::Supply(index) => {
            let supply = &site.supplies[index];
            Some((&supply.place, site.supply_model(supply).family.value.as_str()))
        }
        RunStart::Station(_) => None,
    }
}

/// Where the new distributor may hang, the free places first.
fn feeds<'s>(site: &'s Site, run: &'s Run) -> Vec<Feed<'s>> {
    let mut feeds = Vec::new();
    if let RunStart::Port { box_index, .. } = run.from {
        let feeds_it =
            |one: &&Run| one.sections.last().map(|last| last.to) == Some(RunStop::BoxInput(box_index));
        let above = site.runs.iter().find(feeds_it);
        // Only where that is beside: the way to it would be a guess.
        let is_beside = |start: RunStart| {
            place_and_family(site, start).is_some_and(|(place, _)| *place == site.boxes[box_index].place)
        };
        let free = above.filter(|above| is_beside(above.from)).map(|above| free_starts(site, above.from));
        let free = free.into_iter().flatten().take(1);
        feeds.extend(free.map(|free| Feed { from: free.text, instead_of: None }));
    }
    let is_here = |other: &&Run| match (run.from, other.from) {
        (RunStart::Port { box_index: one, .. }, RunStart::Port { box_index: other, .. }) => one == other,
        (one, other) => one == other,
    };
    let mut here: Vec<&Run> = site.runs.iter().filter(is_here).collect();
    here.sort_by_key(|other| (other.id != run.id, other.sections.len()));
    let taken = here.into_iter().take(MOST_PORTS);
    feeds.extend(
        taken.map(|other| Feed { from: site.start_id(other.from).to_string(), instead_of: Some(other) }),
    );
    feeds
}

/// The change itself: the chain up to the cut stays, or goes to the new distributor with its port; the rest starts at the new distributor.
fn cut_to_box(bench: &Bench<'_>, run: &Run, cut: usize, feed: &Feed<'_>, box_text: &str) -> Candidate {
    let name = free_name(bench, "distributors", "D-new");
    let feed_name = free_name(bench, "runs", &format!("{name}-feed"));
    let tail_name = free_name(bench, "runs", run.id.as_str());
    let cable = feed.instead_of.map_or(&run.cable.value, |other| &other.cable.value);
    let mut edit = keep_head(bench, run, cut)
        .then(Edit::set(&["distributors", &name], box_text))
        .then(Edit::set(&["runs", &feed_name], short_run(&feed.from, &name, cable)));
    let mut ports = (1..).map(|port| format!("{name}.{port}"));
    let mut next = || ports.next().unwrap_or_default();
    if let Some(other) = feed.instead_of {
        edit = edit.then(Edit::set(&["runs", other.id.as_str(), "from"], quoted(&next())));
    }
    let first_m: f64 = run.section_lengths_m()[..=cut].iter().sum();
    let tail = new_run(bench, run, cut..run.sections.len(), &next(), first_m);
    Candidate::new("another-distributor", edit.then(Edit::set(&["runs", &tail_name], tail)))
}
