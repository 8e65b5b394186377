//! What is to be done about a site: its findings by cause, and the causes by the change that mends them.
//!
//! Findings that one thing explains are one [`Cause`]: whatever is too much for a supply, the stations that are low on one
//! riser. A [`Job`] is what one change of the site mends: one cause or several. Jobs come errors first, in each severity the worst danger first.

mod cause;
mod danger;
mod standing;

pub use cause::{Cause, excess};
pub use danger::Danger;

use crate::assessment::Assessment;
use cause::causes;
use latchline_finding::{Code, Edit, EditStep, ElementId, Remedy, Severity};
use latchline_site::changes::dwellings_to_enter;
use latchline_site::model::Site;
use standing::standing;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// A change that was verified to mend something, of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct JobChange {
    /// The finding that carries it: index into [`Assessment::findings`].
    pub finding: usize,
    /// Its number among the remedies of that finding, from 0.
    pub number: usize,
    /// The change with its cost.
    pub remedy: Remedy,
    /// Standing findings that go with it: indices into [`Assessment::findings`].
    pub clears: Vec<usize>,
    /// Dwellings that have to be entered for it; `None` where the changed site cannot be told.
    pub enters: Option<Vec<ElementId>>,
}

/// One thing to do.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// What is mended by it, worst first: indices into [`Jobs::causes`].
    pub causes: Vec<usize>,
    /// Of the changes that mend most of the first cause, the one that brings no warning and for which the fewest dwellings are entered
    /// (an appointment costs more than most parts; common practice, no source), of these the cheapest; `None` if none is known.
    pub change: Option<JobChange>,
}

/// Causes and jobs of a site, both errors first, in each severity the worst danger first.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Jobs {
    /// The causes of all standing errors and warnings of the rules.
    pub causes: Vec<Cause>,
    /// What is to be done about them; each cause is in exactly one job.
    pub jobs: Vec<Job>,
}

impl Jobs {
    /// The danger of a job: that of its worst cause.
    pub fn danger(&self, job: &Job) -> Danger {
        job.causes.iter().map(|cause| self.causes[*cause].danger).min().unwrap_or(Danger::Site)
    }

    /// The job that a cause is in, from 0.
    pub fn job_of(&self, cause: usize) -> Option<usize> {
        self.jobs.iter().position(|job| job.causes.contains(&cause))
    }

    /// The jobs on a first page that has room for `most`, as indices: those that endanger people are never left out.
    pub fn on_first_page(&self, most: usize) -> Vec<usize> {
        let for_people = |job: &usize| self.danger(&self.jobs[*job]) == Danger::People;
        let later = (most..self.jobs.len()).filter(for_people).count();
        let first = most.saturating_sub(later);
        (0..self.jobs.len()).filter(|job| *job < first || for_people(job)).collect()
    }
}

/// The jobs of a site. Changes are those that the findings carry; `changed` gives the site with a change made.
pub fn jobs(site: &Site, assessment: &Assessment, changed: &dyn Fn(&Edit) -> Option<Site>) -> Jobs {
    let causes = causes(site, assessment);
    let mut jobs: Vec<Job> = Vec::new();
    let mut cleared: Vec<BTreeSet<usize>> = Vec::new();
    let offers = Offers::new(assessment);
    for (index, cause) in causes.iter().enumerate() {
        // What an earlier job mends as well is no job of its own.
        let is_cleared = |one: &BTreeSet<usize>| cause.findings.iter().all(|finding| one.contains(finding));
        if let Some(job) = cleared.iter().position(is_cleared) {
            jobs[job].causes.push(index);
            continue;
        }
        let change = best_change(site, &offers, cause, changed);
        cleared.push(change.iter().flat_map(|change| change.clears.iter().copied()).collect());
        jobs.push(Job { causes: vec![index], change });
    }
    Jobs { causes, jobs }
}

/// Most changes of which it is looked at whether a dwelling has to be entered.
const MOST_LOOKED_INTO: usize = 6;

/// Whether a change is of acceptances alone, for which nobody goes anywhere.
fn is_of_paper(edit: &Edit) -> bool {
    let of_acceptances =
        |path: &[EditStep]| matches!(path.first(), Some(EditStep::Key(key)) if key == "accept");
    edit.changes.iter().all(|(path, _)| of_acceptances(path))
}

/// A change that a finding carries.
struct Offered<'a> {
    finding: usize,
    number: usize,
    remedy: &'a Remedy,
    /// The standing findings that go with it, in their order.
    clears: Vec<usize>,
    warns: bool,
}

/// Every change of the file that standing findings carry, and by finding which of them mend it.
struct Offers<'a> {
    all: Vec<Offered<'a>>,
    mending: BTreeMap<usize, Vec<usize>>,
}

impl<'a> Offers<'a> {
    fn new(assessment: &'a Assessment) -> Self {
        let mut named: BTreeMap<(Code, Option<&ElementId>), Vec<usize>> = BTreeMap::new();
        for (index, one) in standing(assessment) {
            named.entry((one.code, one.element.as_ref())).or_default().push(index);
        }
        let mut offers = Offers { all: Vec::new(), mending: BTreeMap::new() };
        for (finding, found) in standing(assessment) {
            for (number, remedy) in
                found.remedies.iter().enumerate().filter(|(_, one)| one.changes_the_file())
            {
                let of =
                    |(code, element): &'a (Code, Option<ElementId>)| named.get(&(*code, element.as_ref()));
                let clears: BTreeSet<usize> =
                    remedy.clears.iter().filter_map(of).flatten().copied().collect();
                for mended in &clears {
                    offers.mending.entry(*mended).or_default().push(offers.all.len());
                }
                let warns = remedy.brings.iter().any(|brought| brought.severity > Severity::Advice);
                let clears = clears.into_iter().collect();
                offers.all.push(Offered { finding, number, remedy, clears, warns });
            }
        }
        offers
    }

    /// Those that mend a finding of a cause, in their order.
    fn of(&self, cause: &Cause) -> BTreeSet<usize> {
        cause.findings.iter().filter_map(|finding| self.mending.get(finding)).flatten().copied().collect()
    }
}

/// The change that mends most findings of a cause, whichever finding carries it.
fn best_change(
    site: &Site,
    offers: &Offers<'_>,
    cause: &Cause,
    changed: &dyn Fn(&Edit) -> Option<Site>,
) -> Option<JobChange> {
    let own: BTreeSet<usize> = cause.findings.iter().copied().collect();
    let cost = |remedy: &Remedy| {
        let hundredths = |minutes: f64| (minutes * 100.0).round() as i64;
        // What has no price stands behind what has one.
        (remedy.cost.is_none(), remedy.cost, remedy.minutes.map_or(i64::MAX, hundredths))
    };
    let mut mending: Vec<_> = offers
        .of(cause)
        .into_iter()
        .map(|offer| {
            let Offered { finding, number, remedy, clears, warns } = &offers.all[offer];
            let mended = clears.iter().filter(|index| own.contains(index)).count();
            ((Reverse(mended), *warns), *finding, *number, *remedy, clears)
        })
        .collect();
    mending.sort_by_key(|(first, finding, number, remedy, clears)| {
        let is_others = !own.contains(finding);
        (*first, cost(remedy), is_others, Reverse(clears.len()), *finding, *number)
    });
    let best = mending.first()?.0;
    mending.retain(|(first, ..)| *first == best);
    mending.dedup_by(|later, first| later.3.edit == first.3.edit);
    let enters = |remedy: &Remedy| match is_of_paper(&remedy.edit) {
        true => Some(Vec::new()),
        false => changed(&remedy.edit).map(|after| dwellings_to_enter(site, &after)),
    };
    let chosen = mending.into_iter().take(MOST_LOOKED_INTO).map(|(_, finding, number, remedy, clears)| {
        let enters = enters(remedy);
        JobChange { finding, number, remedy: remedy.clone(), clears: clears.clone(), enters }
    });
    // The first of equals is the cheapest.
    chosen.min_by_key(|change| change.enters.as_ref().map_or(usize::MAX, Vec::len))
}
