//! Jobs one after the other.
//!
//! A list of jobs is worked off from the top, so each has its turn on the site as it is when those before it are done (`turn`): what they have
//! done already is said, and the change is chosen and priced as it would be then. Jobs that one change of one run does are one (`one_run`). The same fault with the same
//! remedy at several doors is one job. A job that no change does while another fault is there, and one does once that is mended, comes after
//! those that mend it; where that replaces a supply that an earlier job replaces, both are one job: it is bought once.

use crate::after::{After, Key, Remembered, key, now_standing, settle, standing};
use crate::one_run;
use crate::view::View;
use latchline_assess::jobs::{InOrder, Job, JobChange, Jobs, jobs as first_jobs, replaced_supply};
use latchline_assess::{Assessment, GivenUp};
use latchline_finding::{Remedy, Severity};
use latchline_remedy::{most_looked_at, offered};
use latchline_site::changes::dwellings_to_enter;
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

/// Jobs that are tried in order whatever the size of the site: those of a first page, and some.
const LEAST_TRIED: usize = 12;
/// Jobs tried, times the stations of the site.
const MOST_WORK: usize = 3_000;
/// Changes looked at for jobs that come after others, times the stations of the site.
const MOST_WORK_AFTER: usize = 12_000;
/// How often jobs that replace the same supply are made one.
const MOST_JOINED: usize = 4;

impl View {
    /// What is to be done, errors first, in each severity the worst danger first, with the remedies.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn jobs(&self) -> Result<Option<&Jobs>, GivenUp> {
        if self.known.jobs.get().is_none()
            && let (Some(site), Some(assessment)) = (self.site(), self.remedies()?)
        {
            let mut first = first_jobs(site, assessment, &|change| self.changed(change));
            one_run::join(self, assessment, &mut first)?;
            let mut joined = 0;
            let remembered = RefCell::default();
            let found = loop {
                match in_order(self, assessment, first.clone(), &remembered)? {
                    Tried::Join(jobs) if joined < MOST_JOINED => first = jobs,
                    Tried::Join(_) => break first,
                    Tried::Done(jobs) => break jobs,
                }
                joined += 1;
            };
            self.known.jobs.get_or_init(|| found);
        }
        Ok(self.known.jobs.get())
    }
}

/// What came of trying jobs in their order.
enum Tried {
    /// The jobs with what is left of each.
    Done(Jobs),
    /// Jobs of which two are made one, to be tried from the beginning.
    Join(Jobs),
}

/// The jobs with what is left of each when those before it are done.
fn in_order(
    view: &View,
    assessment: &Assessment,
    mut jobs: Jobs,
    remembered: &RefCell<Remembered>,
) -> Result<Tried, GivenUp> {
    let stations = view.site().map_or(1, |site| site.stations.len().max(1));
    let most = LEAST_TRIED.max(MOST_WORK / stations);
    let most_after = MOST_WORK_AFTER / stations;
    let mut after = After {
        first: assessment,
        now: view.clone(),
        remembered,
        went: BTreeMap::new(),
        last: None,
        most_after,
    };
    let first = jobs.clone();
    let mut is_behind_errors = false;
    let mut index = 0;
    loop {
        let is_end = index >= jobs.jobs.len().min(most);
        // Errors come first, so those that come after other errors do so before the first that is none.
        let is_first_lesser = !is_behind_errors
            && jobs.jobs.get(index).is_some_and(|job| severity(&jobs, assessment, job) < Severity::Error);
        if is_end || is_first_lesser {
            is_behind_errors = true;
            if let Some(joined) = after.try_again(&mut jobs, index, &first)? {
                return Ok(Tried::Join(joined));
            }
        }
        if is_end {
            return Ok(Tried::Done(jobs));
        }
        after.try_job(&mut jobs, index)?;
        index += 1;
    }
}

/// How much the worst finding of a job matters.
fn severity(jobs: &Jobs, assessment: &Assessment, job: &Job) -> Severity {
    assessment.findings[jobs.causes[job.causes[0]].findings[0]].severity
}

impl After<'_> {
    /// Tries the jobs before a place again that nothing did at their turn, now that those between are done. One that a change does now comes to
    /// that place. Where it replaces a supply that a job before it replaces, what is given back are the jobs as they were first, those two made
    /// one there.
    fn try_again(&mut self, jobs: &mut Jobs, place: usize, first: &Jobs) -> Result<Option<Jobs>, GivenUp> {
        let mut index = 0;
        let mut end = place.min(jobs.jobs.len());
        while index < end {
            let is_open = jobs.jobs[index].told_change().is_none() && jobs.jobs[index].done_by().is_empty();
            let is_after_another = jobs.jobs[index + 1..end].iter().any(|job| job.told_change().is_some());
            if !is_open || !is_after_another {
                index += 1;
                continue;
            }
            let Some(change) = self.change_now(jobs, index)? else {
                index += 1;
                continue;
            };
            let same = replaced_supply(&change.remedy.edit).and_then(|supply| {
                let replaces = |job: &Job| {
                    job.told_change().is_some_and(|told| replaced_supply(&told.remedy.edit) == Some(supply))
                };
                jobs.jobs[..end].iter().position(replaces)
            });
            if let Some(other) = same {
                return Ok(joined(self.first, first, &jobs.jobs[index], &jobs.jobs[other], &change));
            }
            let Some(next) = self.with_change(&change.remedy.edit) else {
                index += 1;
                continue;
            };
            let stood: BTreeSet<Key> =
                self.now.assessment()?.into_iter().flat_map(standing).map(key).collect();
            settle(&mut self.last, &mut self.went, &stood);
            self.now = next;
            let mut job = jobs.jobs.remove(index);
            job.waits = true;
            job.in_order = Some(InOrder { change: Some(change), is_other: true, done_by: Vec::new() });
            end -= 1;
            jobs.jobs.insert(end, job);
            self.taken_out(jobs, index, end);
            self.last = Some((end, stood));
        }
        Ok(None)
    }

    /// The numbers of jobs behind one that was taken out and put in further down, where it has none that others refer to.
    fn taken_out(&mut self, jobs: &mut Jobs, from: usize, to: usize) {
        let shift = |job: &mut usize| {
            if *job > from && *job <= to {
                *job -= 1;
            }
        };
        self.went.values_mut().for_each(shift);
        let tried = jobs.jobs.iter_mut().filter_map(|job| job.in_order.as_mut());
        tried.flat_map(|in_order| &mut in_order.done_by).for_each(shift);
    }

    /// The change that does a job now and mends all that is left of it, within what may yet be looked at.
    fn change_now(&mut self, jobs: &Jobs, index: usize) -> Result<Option<JobChange>, GivenUp> {
        let (Some(site), Some(now)) = (self.now.site(), self.now.assessment()?) else { return Ok(None) };
        let standing: BTreeSet<Key> = standing(now).map(key).collect();
        let findings = jobs.jobs[index].causes.iter().flat_map(|cause| &jobs.causes[*cause].findings);
        let mut wanted: Vec<Key> = findings.map(|finding| key(&self.first.findings[*finding])).collect();
        wanted.retain(|key| standing.contains(key));
        let Some(finding) = now_standing(now, &self.head(jobs, index), &wanted) else { return Ok(None) };
        let Some(bench) = self.now.bench()? else { return Ok(None) };
        let looked_at = most_looked_at(&bench, finding);
        if looked_at == 0 || looked_at > self.most_after {
            return Ok(None);
        }
        self.most_after -= looked_at;
        let mends_all = |remedy: &Remedy| wanted.iter().all(|key| remedy.clears.contains(key));
        let mut known = offered(&bench, finding).into_iter().filter(Remedy::changes_the_file);
        let Some(remedy) = known.find(mends_all) else { return Ok(None) };
        let enters = self.now.with_change(&remedy.edit);
        let enters = enters.and_then(|next| Some(dwellings_to_enter(site, next.site()?)));
        let clears: Vec<usize> = self.cleared(&remedy, &standing);
        Ok(Some(JobChange { carried_by: None, remedy, clears, enters }))
    }
}

/// The jobs as they were first, two of them made one behind all that are as severe, which this change does: the causes of the one that is
/// done already, then those of the other.
fn joined(assessment: &Assessment, first: &Jobs, open: &Job, done: &Job, change: &JobChange) -> Option<Jobs> {
    let mut jobs = first.clone();
    let place = |jobs: &Jobs, job: &Job| jobs.jobs.iter().position(|one| one.causes[0] == job.causes[0]);
    let done = jobs.jobs.remove(place(&jobs, done)?);
    let mut open = jobs.jobs.remove(place(&jobs, open)?);
    open.causes = done.causes.into_iter().chain(open.causes).collect();
    open.change = Some(JobChange { clears: Vec::new(), ..change.clone() });
    open.in_order = None;
    open.waits = true;
    // Errors first, as in the whole list.
    let own = severity(&jobs, assessment, &open);
    let lesser = jobs.jobs.iter().position(|job| severity(&jobs, assessment, job) < own);
    jobs.jobs.insert(lesser.unwrap_or(jobs.jobs.len()), open);
    Some(jobs)
}
