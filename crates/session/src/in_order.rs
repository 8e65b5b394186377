//! Jobs one after the other.
//!
//! A list of jobs is worked off from the top, so each has its turn on the site as it is when those before it are done (`turn`): what they have
//! done already is said, and the change is chosen and priced as it would be then. Jobs that one change of one run does are one (`one_run`). The same fault with the same
//! remedy at several doors is one job. A job that no change does while another fault is there, and one does once that is mended, comes right
//! after those that mend it, and a warning of that kind behind all; where that replaces a supply that another job replaces, both are one job: it
//! is bought once.

use crate::after::{After, Key, Remembered, key, now_standing, settle, standing};
use crate::one_run;
use crate::view::View;
use latchline_assess::jobs::{InOrder, Job, JobChange, Jobs, jobs as first_jobs, replaced_supply};
use latchline_assess::{Assessment, GivenUp};
use latchline_finding::{Edit, EditStep, ElementId, Remedy, Severity};
use latchline_remedy::{TWO_CHANGES, again, most_looked_at, offered};
use latchline_site::changes::dwellings_to_enter;
use std::cell::RefCell;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// Jobs that are tried in order whatever the size of the site: those of a first page, and some.
const LEAST_TRIED: usize = 12;
/// Jobs tried, times the stations of the site.
const MOST_WORK: usize = 3_000;
/// Changes looked at for jobs that come after others, times the stations of the site.
const MOST_WORK_AFTER: usize = 12_000;
/// How often jobs are put elsewhere in their order, or made one, and tried from the beginning.
const MOST_TRIED_AGAIN: usize = 4;

impl View {
    /// What is to be done, the worst danger first, in each danger errors first, with the remedies.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn jobs(&self) -> Result<Option<&Jobs>, GivenUp> {
        if self.known.jobs.get().is_none()
            && let (Some(site), Some(assessment)) = (self.site(), self.remedies()?)
        {
            let work = &self.for_one_answer();
            let mut first = first_jobs(site, assessment, &|change| work.changed(change));
            one_run::join(work, assessment, &mut first)?;
            let remembered = RefCell::default();
            let mut tried_again = 0;
            let found = loop {
                let may_move = tried_again < MOST_TRIED_AGAIN;
                match in_order(work, assessment, first.clone(), &remembered, may_move)? {
                    Tried::Again(jobs) => first = jobs,
                    Tried::Done(jobs) => break jobs,
                }
                tried_again += 1;
            };
            // A trial that was given up mends nothing.
            work.still_wanted()?;
            self.known.jobs.get_or_init(|| found);
        }
        Ok(self.known.jobs.get())
    }
}

/// What came of trying jobs in their order.
enum Tried {
    /// The jobs with what is left of each.
    Done(Jobs),
    /// The jobs as they were first, in another order or two of them made one, to be tried from the beginning.
    Again(Jobs),
}

/// The jobs with what is left of each when those before it are done.
fn in_order(
    view: &View,
    assessment: &Assessment,
    mut jobs: Jobs,
    remembered: &RefCell<Remembered>,
    may_move: bool,
) -> Result<Tried, GivenUp> {
    let stations = view.site().map_or(1, |site| site.stations.len().max(1));
    let most = LEAST_TRIED.max(MOST_WORK / stations);
    let most_after = MOST_WORK_AFTER / stations;
    let mut after = After {
        first: assessment,
        now: view.clone(),
        before: Vec::new(),
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
        // What waits for an error to be mended does not wait for warnings as well.
        let is_behind_last_error =
            || !jobs.jobs[index..].iter().any(|job| severity(&jobs, assessment, job) == Severity::Error);
        if is_end || !is_behind_errors && is_behind_last_error() {
            is_behind_errors = true;
            if let Some(again) = after.try_again(&mut jobs, index, &first, may_move)? {
                return Ok(Tried::Again(again));
            }
        }
        if is_end {
            return Ok(Tried::Done(jobs));
        }
        after.before.push(after.now.clone());
        after.try_job(&mut jobs, index)?;
        if may_move && let Some(again) = after.bought_twice(&jobs, index, &first)? {
            return Ok(Tried::Again(again));
        }
        index += 1;
    }
}

/// How much the worst finding of a job matters.
fn severity(jobs: &Jobs, assessment: &Assessment, job: &Job) -> Severity {
    assessment.findings[jobs.causes[job.causes[0]].findings[0]].severity
}

/// The first of these jobs that replaces the supply which a change replaces.
fn of_the_same_supply(jobs: &[Job], change: &JobChange) -> Option<usize> {
    let supply = replaced_supply(&change.remedy.edit)?;
    let of =
        |job: &Job| job.told_change().is_some_and(|told| replaced_supply(&told.remedy.edit) == Some(supply));
    jobs.iter().position(of)
}

/// The place of a job in another list of the same causes.
fn place(jobs: &Jobs, job: &Job) -> Option<usize> {
    jobs.jobs.iter().position(|one| one.causes[0] == job.causes[0])
}

impl After<'_> {
    /// Tries the jobs before a place again that nothing did at their turn, now that those between are done. One that a change does now comes to
    /// that place. An error comes as far up as its change does it, and one of which the change replaces a supply that another job replaces is one
    /// job with that: what is given back then are the jobs as they were first, with that done, to be tried again.
    fn try_again(
        &mut self,
        jobs: &mut Jobs,
        place: usize,
        first: &Jobs,
        may_move: bool,
    ) -> Result<Option<Jobs>, GivenUp> {
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
            let same = of_the_same_supply(&jobs.jobs[..end], &change);
            let is_error = severity(jobs, self.first, &jobs.jobs[index]) == Severity::Error;
            if may_move && (is_error || same.is_some()) {
                let found = self.place_for(jobs, index, same, end, &change)?;
                // Alone at the end it needs no other order.
                if let Some((earliest, there)) = found.filter(|(at, _)| same.is_some() || *at < end) {
                    return Ok(put_at(first, jobs, index, same, earliest, there));
                }
            }
            let Some(next) = self.with_change(&change.remedy.edit) else {
                index += 1;
                continue;
            };
            let stood: BTreeSet<Key> =
                self.now.assessment()?.into_iter().flat_map(standing).map(key).collect();
            settle(&mut self.last, &mut self.went, &stood);
            self.before.remove(index);
            end -= 1;
            self.before.insert(end, std::mem::replace(&mut self.now, next));
            let mut job = jobs.jobs.remove(index);
            job.waits = true;
            job.in_order = Some(InOrder { change: Some(change), is_other: true, done_by: Vec::new() });
            jobs.jobs.insert(end, job);
            self.taken_out(jobs, index, end);
            self.last = Some((end, stood));
        }
        Ok(None)
    }

    /// Where a job in its turn replaces a supply that one before it replaces already, and its change does for both there: the jobs as they were
    /// first, those two made one.
    fn bought_twice(&mut self, jobs: &Jobs, index: usize, first: &Jobs) -> Result<Option<Jobs>, GivenUp> {
        let Some(change) = jobs.jobs[index].told_change().cloned() else { return Ok(None) };
        let Some(other) = of_the_same_supply(&jobs.jobs[..index], &change) else { return Ok(None) };
        let found = self.place_for(jobs, index, Some(other), index, &change)?;
        Ok(found.and_then(|(earliest, there)| put_at(first, jobs, index, Some(other), earliest, there)))
    }

    /// Where a change does a job, and with it another that replaces the same supply; where it does not do that one as well, both changes together.
    fn place_for(
        &self,
        jobs: &Jobs,
        index: usize,
        same: Option<usize>,
        end: usize,
        change: &JobChange,
    ) -> Result<Option<(usize, JobChange)>, GivenUp> {
        let together: Vec<usize> = std::iter::once(index).chain(same).collect();
        let found = self.earliest(jobs, &together, end, change)?;
        match same.and_then(|other| jobs.jobs[other].told_change()).filter(|_| found.is_none()) {
            Some(told) => self.earliest(jobs, &together, end, &both(told, change)),
            None => Ok(found),
        }
    }

    /// The first place, from that of the first of some jobs to the end of those done, at which a change mends all that stands of them and brings
    /// nothing that it does not bring later on, where none of these jobs was done before; with its figures as they are there.
    fn earliest(
        &self,
        jobs: &Jobs,
        together: &[usize],
        end: usize,
        change: &JobChange,
    ) -> Result<Option<(usize, JobChange)>, GivenUp> {
        let from = together.iter().copied().min().unwrap_or(end);
        let all: Vec<Key> = together.iter().flat_map(|job| self.keys(jobs, *job)).collect();
        let Some(mut view) = self.before.get(from).cloned() else { return Ok(None) };
        for place in from..=end {
            if let Some(there) = self.does_there(&view, &self.head(jobs, together[0]), &all, change)? {
                return Ok(Some((place, there)));
            }
            let told = jobs.jobs.get(place).filter(|_| place < end && !together.contains(&place));
            if let Some(told) = told.and_then(Job::told_change) {
                let Some(next) = self.with_change_on(&view, &told.remedy.edit) else { return Ok(None) };
                view = next;
            }
        }
        Ok(None)
    }

    /// A change as it is on a site, if it mends all of some findings that stand there and brings nothing else.
    fn does_there(
        &self,
        view: &View,
        head: &Key,
        all: &[Key],
        change: &JobChange,
    ) -> Result<Option<JobChange>, GivenUp> {
        let Some(assessment) = view.assessment()? else { return Ok(None) };
        let standing: BTreeSet<Key> = standing(assessment).map(key).collect();
        let wanted: Vec<Key> = all.iter().filter(|key| standing.contains(key)).cloned().collect();
        let Some(worst) = now_standing(assessment, head, &wanted) else { return Ok(None) };
        let Some(bench) = view.bench()? else { return Ok(None) };
        let does = again(&bench, worst, &change.remedy);
        view.still_wanted()?;
        let is_as_good = |remedy: &Remedy| {
            wanted.iter().all(|key| remedy.clears.contains(key))
                && remedy.brings.iter().all(|one| change.remedy.brings.contains(one))
        };
        Ok(does.filter(is_as_good).map(|remedy| {
            let clears = self.cleared(&remedy, &standing);
            let enters = self.entered_on(view, &remedy.edit);
            JobChange { carried_by: None, remedy, clears, enters }
        }))
    }

    /// The dwellings that have to be entered for a change of a site.
    fn entered_on(&self, view: &View, change: &Edit) -> Option<Vec<ElementId>> {
        Some(dwellings_to_enter(view.site()?, self.with_change_on(view, change)?.site()?))
    }

    /// What names the findings of a job.
    pub(crate) fn keys(&self, jobs: &Jobs, index: usize) -> Vec<Key> {
        let findings = jobs.jobs[index].causes.iter().flat_map(|cause| &jobs.causes[*cause].findings);
        findings.map(|finding| key(&self.first.findings[*finding])).collect()
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
        let Some(now) = self.now.assessment()? else { return Ok(None) };
        let standing: BTreeSet<Key> = standing(now).map(key).collect();
        let mut wanted: Vec<Key> = self.keys(jobs, index);
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
        let enters = self.entered_on(&self.now, &remedy.edit);
        let clears: Vec<usize> = self.cleared(&remedy, &standing);
        Ok(Some(JobChange { carried_by: None, remedy, clears, enters }))
    }
}

/// Two changes as one, the later before the earlier where both are of the same key.
fn both(earlier: &JobChange, later: &JobChange) -> JobChange {
    let later_of = |path: &[EditStep]| later.remedy.edit.changes.iter().any(|(other, _)| other == path);
    let parts = |remedy: &Remedy| match &remedy.parts[..] {
        [] => vec![(remedy.kind, remedy.edit.clone())],
        parts => parts.to_vec(),
    };
    let mut parts: Vec<(&'static str, Edit)> =
        parts(&earlier.remedy).into_iter().chain(parts(&later.remedy)).collect();
    let own = parts.len() - if later.remedy.parts.is_empty() { 1 } else { later.remedy.parts.len() };
    parts[..own].iter_mut().for_each(|(_, edit)| edit.changes.retain(|(path, _)| !later_of(path)));
    parts.retain(|(_, edit)| !edit.changes.is_empty());
    let edit = parts.iter().fold(Edit::default(), |edit, (_, part)| edit.then(part.clone()));
    let remedy = Remedy { kind: TWO_CHANGES, edit, parts, cost: None, ..later.remedy.clone() };
    JobChange { carried_by: None, remedy, ..later.clone() }
}

/// The jobs as they were first, with one that was open, and with it another that the same change does, put before the job that stands at a place now.
/// Of two the errors come first, of as severe ones the causes of the one that was done.
fn put_at(
    first: &Jobs,
    now: &Jobs,
    open: usize,
    same: Option<usize>,
    at: usize,
    change: JobChange,
) -> Option<Jobs> {
    let mut jobs = first.clone();
    let mut take = |index: usize| Some(jobs.jobs.remove(place(&jobs, &now.jobs[index])?));
    let mut job = take(open)?;
    if let Some(same) = same {
        let done = take(same)?;
        job.causes = done.causes.into_iter().chain(job.causes).collect();
        job.causes.sort_by_key(|cause| Reverse(now.causes[*cause].severity));
    }
    job.change = Some(change);
    job.in_order = None;
    // Behind those that are before that place now; the two themselves are no measure of it.
    let is_another = |index: &usize| *index != open && Some(*index) != same;
    let before: Vec<usize> = (0..at).filter(is_another).collect();
    let behind = before.last().map_or(Some(0), |last| Some(place(&jobs, &now.jobs[*last])? + 1))?;
    job.waits = before.last().is_some_and(|last| *last > open.min(same.unwrap_or(open)));
    jobs.jobs.insert(behind, job);
    Some(jobs)
}
