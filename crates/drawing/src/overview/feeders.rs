//! What hangs on what: the boxes of a building below what feeds them.

use latchline_site::model::{RunStart, RunStop, Site};

/// Deepest indent: what hangs deeper stands below it.
const MOST_INDENT: usize = 5;

/// What a box takes its power from.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Feeder {
    Supply(usize),
    Box(usize),
}

/// What feeds a box: that at which the run to it starts, however many stations that run leads through.
pub(super) fn feeder(site: &Site, index: usize) -> Option<Feeder> {
    let run_to =
        |stop: RunStop| site.runs.iter().find(|run| run.sections.iter().any(|section| section.to == stop));
    let mut run = run_to(RunStop::BoxInput(index))?;
    // No more steps than runs: a circle of stations ends.
    for _ in 0..site.runs.len() {
        match run.from {
            RunStart::Supply(supply) => return Some(Feeder::Supply(supply)),
            RunStart::Port { box_index, .. } => return Some(Feeder::Box(box_index)),
            RunStart::Station(station) => run = run_to(RunStop::Station(station))?,
        }
    }
    None
}

/// The boxes of a building that hang on something, each with its indent and behind it what hangs on it.
pub(super) fn hanging(
    site: &Site,
    building: Option<usize>,
    on: Feeder,
    indent: usize,
    shown: &mut Vec<usize>,
) -> Vec<(usize, usize)> {
    let mut list = Vec::new();
    for index in 0..site.boxes.len() {
        let is_here = site.boxes[index].place.building == building && feeder(site, index) == Some(on);
        if is_here && !shown.contains(&index) {
            shown.push(index);
            list.push((index, indent));
            let deeper = (indent + 1).min(MOST_INDENT);
            list.extend(hanging(site, building, Feeder::Box(index), deeper, shown));
        }
    }
    list
}
