//! Surge protectors of a site: where each sits, what it adds to the loop, and the conductor that earths it.
//!
//! A run that leads from one building to another has one at each end, since lightning nearby lifts the earth of either against the
//! other; any other run has one where it starts, unless the site file says otherwise. A door station at the end of a run may bring its own,
//! which then is the one at that end.

use crate::catalogue::Gauge;
use crate::model::{Entrance, ProtectedEnds, Run, RunStop, Site};
use crate::outdoors;
use latchline_finding::quantity::Resistance;

/// Where a surge protector sits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ProtectorAt {
    /// In the line of an entrance's door station, beside it: index into [`Site::entrances`].
    Entrance(usize),
    /// Where a run starts: index into [`Site::runs`].
    StartOf(usize),
    /// Where a run ends: index into [`Site::runs`].
    EndOf(usize),
}

/// The surge protectors in the line of one section of a run.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SectionProtectors {
    /// Loop resistance of the one before the section, where the run starts.
    pub before: Option<Resistance>,
    /// Loop resistance of the one behind it: at the end of the run, or beside the door station to which it leads.
    pub behind: Option<Resistance>,
}

impl SectionProtectors {
    /// What they add to the loop of the section, in ohms.
    pub fn ohm(self) -> f64 {
        [self.before, self.behind].into_iter().flatten().map(Resistance::as_ohms).sum()
    }
}

/// Those in the line of each section of a run.
pub fn of_sections(site: &Site, run: &Run) -> Vec<SectionProtectors> {
    let (at_start, at_end) = ends(site, run);
    let resistance = run.surge_protection.as_ref().map(|stated| stated.value);
    let last = run.sections.len().saturating_sub(1);
    let of_section = |(number, stop): (usize, RunStop)| SectionProtectors {
        before: resistance.filter(|_| at_start && number == 0),
        behind: match protected_entrance(site, stop) {
            Some(entrance) => site.entrances[entrance].surge_protection.as_ref().map(|stated| stated.value),
            None => resistance.filter(|_| at_end && number == last),
        },
    };
    run.sections.iter().map(|section| section.to).enumerate().map(of_section).collect()
}

/// The one beside the door station to which a section leads, if it has one of its own: index into [`Site::entrances`].
pub fn protected_entrance(site: &Site, stop: RunStop) -> Option<usize> {
    let is_there = |entrance: &Entrance| {
        entrance.surge_protection.is_some() && stop == RunStop::Station(entrance.station)
    };
    site.entrances.iter().position(is_there)
}

/// Whether a run has a protector of its own where it starts, and where it ends.
pub fn ends(site: &Site, run: &Run) -> (bool, bool) {
    if run.surge_protection.is_none() {
        return (false, false);
    }
    let usual = match outdoors::leaves_its_building(site, run) {
        true => ProtectedEnds::Both,
        false => ProtectedEnds::Start,
    };
    let at = run.surge_protection_at.as_ref().map_or(usual, |stated| stated.value);
    let last = run.sections.last().map(|section| section.to);
    let has_other = last.is_some_and(|stop| protected_entrance(site, stop).is_some());
    (at != ProtectedEnds::End, at != ProtectedEnds::Start && !has_other)
}

/// Every protector of a site: those of the doors, then run by run.
pub fn all(site: &Site) -> Vec<ProtectorAt> {
    let at_doors =
        (0..site.entrances.len()).filter(|index| site.entrances[*index].surge_protection.is_some());
    let mut list: Vec<ProtectorAt> = at_doors.map(ProtectorAt::Entrance).collect();
    for (index, run) in site.runs.iter().enumerate() {
        let (at_start, at_end) = ends(site, run);
        list.extend(at_start.then_some(ProtectorAt::StartOf(index)));
        list.extend(at_end.then_some(ProtectorAt::EndOf(index)));
    }
    list
}

/// The loop resistance of one.
pub fn resistance(site: &Site, at: ProtectorAt) -> Option<Resistance> {
    let stated = match at {
        ProtectorAt::Entrance(index) => &site.entrances[index].surge_protection,
        ProtectorAt::StartOf(run) | ProtectorAt::EndOf(run) => &site.runs[run].surge_protection,
    };
    stated.as_ref().map(|stated| stated.value)
}

/// The copper conductor that earths one, where it is stated.
pub fn earth(site: &Site, at: ProtectorAt) -> Option<Gauge> {
    let stated = match at {
        ProtectorAt::Entrance(index) => &site.entrances[index].surge_earth,
        ProtectorAt::StartOf(run) | ProtectorAt::EndOf(run) => &site.runs[run].surge_earth,
    };
    stated.as_ref().map(|stated| stated.value)
}
