//! What is to be done about a site: its findings by cause, and the causes by the change that mends them.
//!
//! Findings that one thing explains are one [`Cause`]: whatever is too much for a supply, the stations that are low on one
//! riser. A [`Job`] is what one change of the site mends: one cause or several. Jobs come worst danger first, in each
//! danger errors first. Whoever can try changes on top of each other fills in what is left of each when those before it are done ([`InOrder`]).

mod cause;
mod danger;
mod offers;
mod one_supply;
mod standing;

pub use cause::{Cause, excess};
pub use danger::Danger;
pub use offers::JobChange;
pub use one_supply::replaced_supply;

use crate::assessment::Assessment;
use cause::Causes;
use latchline_finding::{Code, Edit, Money, Remedy};
use latchline_site::model::Site;
use offers::{Offered, Offers, entered};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// One thing to do.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// What is mended by it, worst first: indices into [`Jobs::causes`]. The first are those that its change was looked for; the change
    /// mends every finding of them.
    pub causes: Vec<usize>,
    /// The change that does it on the site as it is: where it can be, one that leaves dwellings the stations that were chosen for them. Of
    /// those that mend most of its cause, one that brings no warning; of these one
    /// for which nothing is bought; else the one for which the fewest dwellings are entered (an appointment costs more than most parts;
    /// common practice, no source), of these the cheapest; `None` if none is known.
    pub change: Option<JobChange>,
    /// What is left to do of it when the jobs before it are done, in their order; `None` where that was not tried.
    pub in_order: Option<InOrder>,
    /// Whether it stands behind jobs of less danger, since no change does it before they are done.
    pub waits: bool,
    /// Whether it is the same fault with the same change at several places, each of which could be done alone.
    pub is_of_several: bool,
}

/// A job once those before it are done.
#[derive(Debug, Clone, PartialEq)]
pub struct InOrder {
    /// The change that does it then, with its figures as they are then; `None` if none is known.
    pub change: Option<JobChange>,
    /// Whether it is another than would do on the site as it is.
    pub is_other: bool,
    /// The jobs before it, from 0, that leave nothing of it to do.
    pub done_by: Vec<usize>,
}

impl Job {
    /// The change as it is told: when the jobs before it are done, where that was tried.
    pub fn told_change(&self) -> Option<&JobChange> {
        self.in_order.as_ref().map_or(self.change.as_ref(), |in_order| in_order.change.as_ref())
    }

    /// The jobs before it that leave nothing of it to do.
    pub fn done_by(&self) -> &[usize] {
        self.in_order.as_ref().map_or(&[], |in_order| &in_order.done_by)
    }
}

/// Causes and jobs of a site, both the worst danger first, in each danger errors first.
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
///
/// A cause whose findings no single change mends is parted: what one change mends is a job, and what it leaves is another.
pub fn jobs(site: &Site, assessment: &Assessment, changed: &dyn Fn(&Edit) -> Option<Site>) -> Jobs {
    let mut left = Causes::new(site, assessment);
    let mut found = Jobs::default();
    let mut cleared: Vec<BTreeSet<usize>> = Vec::new();
    // The first job that clears a finding.
    let mut cleared_by: BTreeMap<usize, usize> = BTreeMap::new();
    let offers = Offers::new(assessment);
    while let Some(grouped) = left.next() {
        // What an earlier job mends as well is no job of its own.
        let by = grouped.cause.findings.iter().filter_map(|finding| cleared_by.get(finding).copied());
        if let Some(job) = by.min() {
            if let Some(part) = left.part(grouped, |finding| cleared[job].contains(&finding)) {
                found.jobs[job].causes.push(found.causes.len());
                found.causes.push(part);
            }
            continue;
        }
        let change = best_change(site, &offers, &grouped.cause.findings, changed);
        let clears: BTreeSet<usize> =
            change.iter().flat_map(|change| change.clears.iter().copied()).collect();
        let is_wanted = |finding| change.is_none() || clears.contains(&finding);
        let Some(cause) = left.part(grouped, is_wanted) else { continue };
        let change = change.map(|change| of_the_worst(assessment, cause.findings.first(), change));
        // The same at other places that nothing is known to mend either is told once.
        let code = only_code(assessment, &cause).filter(|_| change.is_none());
        let is_like = |job: &Job| {
            let first = &found.causes[job.causes[0]];
            job.change.is_none() && first.severity == cause.severity && only_code(assessment, first) == code
        };
        if let Some(job) = code.and_then(|_| found.jobs.iter().position(is_like)) {
            found.jobs[job].causes.push(found.causes.len());
            found.causes.push(cause);
            continue;
        }
        found.jobs.push(Job {
            causes: vec![found.causes.len()],
            change,
            in_order: None,
            waits: false,
            is_of_several: false,
        });
        found.causes.push(cause);
        for finding in &clears {
            cleared_by.entry(*finding).or_insert(cleared.len());
        }
        cleared.push(clears);
    }
    found
}

/// The code of all findings of a cause that is about no run that they share, if they have one.
fn only_code(assessment: &Assessment, cause: &Cause) -> Option<Code> {
    let mut codes = cause.findings.iter().map(|finding| assessment.findings[*finding].code);
    let first = codes.next().filter(|_| cause.way.is_empty())?;
    codes.all(|code| code == first).then_some(first)
}

/// The change that a job of these findings would have, the one it is named after first: of those that the findings carry the one that
/// [`jobs`] would choose. `None` if they carry none that mends any of them.
pub fn change_for(
    site: &Site,
    assessment: &Assessment,
    findings: &[usize],
    changed: &dyn Fn(&Edit) -> Option<Site>,
) -> Option<JobChange> {
    let change = best_change(site, &Offers::new(assessment), findings, changed)?;
    Some(of_the_worst(assessment, findings.first(), change))
}

/// The change with the figure of the worst finding of its job: what another finding comes to says nothing of the one that is named.
fn of_the_worst(assessment: &Assessment, worst: Option<&usize>, mut change: JobChange) -> JobChange {
    let Some(worst) = worst.map(|worst| &assessment.findings[*worst]) else { return change };
    let carried = change.carried_by.map(|(finding, _)| &assessment.findings[finding]);
    if carried.is_some_and(|one| (one.code, &one.element) != (worst.code, &worst.element)) {
        let same = worst.remedies.iter().find(|remedy| remedy.edit == change.remedy.edit);
        change.remedy.value_after = same.and_then(|remedy| remedy.value_after);
    }
    change
}

/// Most changes of which it is looked at whether a dwelling has to be entered.
const MOST_LOOKED_INTO: usize = 6;

/// The change that mends most of some findings, whichever finding carries it; a supply that it replaces does for whatever else asks for another.
fn best_change(
    site: &Site,
    offers: &Offers<'_>,
    findings: &[usize],
    changed: &dyn Fn(&Edit) -> Option<Site>,
) -> Option<JobChange> {
    let change = most_mending(site, offers, findings, changed)?;
    Some(one_supply::for_all(site, offers, findings, change, changed))
}

fn most_mending(
    site: &Site,
    offers: &Offers<'_>,
    findings: &[usize],
    changed: &dyn Fn(&Edit) -> Option<Site>,
) -> Option<JobChange> {
    let own: BTreeSet<usize> = findings.iter().copied().collect();
    let cost = |remedy: &Remedy| {
        let hundredths = |minutes: f64| (minutes * 100.0).round() as i64;
        // What has no price stands behind what has one.
        (remedy.cost.is_none(), remedy.cost, remedy.minutes.map_or(i64::MAX, hundredths))
    };
    let mut mending: Vec<_> = offers
        .of(findings)
        .into_iter()
        .map(|offer| {
            let Offered { finding, number, remedy, clears, warns } = &offers.all[offer];
            let mended = clears.iter().filter(|index| own.contains(index)).count();
            // What is only set, hung elsewhere or wired with cores that are there goes before whatever is bought.
            let buys = remedy.buys || remedy.cost.map(Money::rounded) != Some(Money::ZERO);
            // What a client has chosen is changed last, even where it alone mends all: what other changes leave is a job of its own.
            let is_chosen = remedy.edit.changes_stations_of_dwellings();
            // The same holds of a pair where single changes do, part by part.
            let is_pair = !remedy.parts.is_empty();
            ((is_chosen, is_pair, Reverse(mended), *warns, buys), *finding, *number, *remedy, clears)
        })
        .collect();
    mending.sort_by_key(|(first, finding, number, remedy, clears)| {
        let is_others = !own.contains(finding);
        (*first, cost(remedy), is_others, Reverse(clears.len()), *finding, *number)
    });
    let best = mending.first()?.0;
    mending.retain(|(first, ..)| *first == best);
    mending.dedup_by(|later, first| later.3.edit == first.3.edit);
    let chosen = mending.into_iter().take(MOST_LOOKED_INTO).map(|(_, finding, number, remedy, clears)| {
        let enters = entered(site, remedy, changed);
        JobChange {
            carried_by: Some((finding, number)),
            remedy: remedy.clone(),
            clears: clears.clone(),
            enters,
        }
    });
    // The first of equals is the cheapest.
    chosen.min_by_key(|change| change.enters.as_ref().map_or(usize::MAX, Vec::len))
}
