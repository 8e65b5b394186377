//! Jobs one after the other.
//!
//! A list of jobs is worked off from the top, so each is tried on the site as it is when those before it are done: what they have done
//! already is said, the figures are those of then, and a change that no longer fits gives way to another. The same fault with the same
//! remedy at several doors is one job. A job that no change does while another fault is there, and one does once that is mended, comes after
//! those that mend it; where that replaces a supply that an earlier job replaces, both are one job: it is bought once.

use crate::view::View;
use latchline_assess::jobs::{InOrder, Job, JobChange, Jobs, excess, jobs as first_jobs, replaced_supply};
use latchline_assess::{Assessment, GivenUp};
use latchline_finding::{Code, Edit, EditStep, ElementId, Finding, Remedy, Severity};
use latchline_remedy::{Bench, again, most_looked_at, offered};
use latchline_site::changes::dwellings_to_enter;
use latchline_site::edit;
use latchline_site::model::Site;
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
            let changed = |change: &Edit| {
                let text = edit::apply_at(self.text(), &self.known.places, change).ok()?;
                self.known
                    .catalogues
                    .loaded
                    .resolve(&self.sources().with_text(self.site_file, text), self.site_file)
                    .site
            };
            let mut first = first_jobs(site, assessment, &changed);
            let mut joined = 0;
            let found = loop {
                match in_order(self, assessment, first.clone())? {
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

type Key = (Code, Option<ElementId>);

fn key(finding: &Finding) -> Key {
    (finding.code, finding.element.clone())
}

/// The site as it is after the jobs so far.
struct After<'a> {
    /// The assessment that the jobs are of.
    first: &'a Assessment,
    now: View,
    /// By which job a finding went.
    went: BTreeMap<Key, usize>,
    /// The last job that was done, and what stood before it.
    last: Option<(usize, BTreeSet<Key>)>,
    /// Changes that may yet be looked at for jobs that come after others.
    most_after: usize,
}

/// What came of trying jobs in their order.
enum Tried {
    /// The jobs with what is left of each.
    Done(Jobs),
    /// Jobs of which two are made one, to be tried from the beginning.
    Join(Jobs),
}

/// The jobs with what is left of each when those before it are done.
fn in_order(view: &View, assessment: &Assessment, mut jobs: Jobs) -> Result<Tried, GivenUp> {
    let stations = view.site().map_or(1, |site| site.stations.len().max(1));
    let most = LEAST_TRIED.max(MOST_WORK / stations);
    let most_after = MOST_WORK_AFTER / stations;
    let mut after =
        After { first: assessment, now: view.clone(), went: BTreeMap::new(), last: None, most_after };
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

/// Writes down what went with the last job that was done; what has become less than a warning is gone as well.
fn settle(
    last: &mut Option<(usize, BTreeSet<Key>)>,
    went: &mut BTreeMap<Key, usize>,
    standing: &BTreeSet<Key>,
) {
    if let Some((job, before)) = last.take() {
        for key in before.difference(standing) {
            went.entry(key.clone()).or_insert(job);
        }
    }
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
            let Some(next) = self.now.with_change(&change.remedy.edit) else {
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

    /// Which of the findings of the first assessment that still stand go with a change.
    fn cleared(&self, remedy: &Remedy, standing: &BTreeSet<Key>) -> Vec<usize> {
        let clears: BTreeSet<&Key> = remedy.clears.iter().collect();
        let of_it = |one: &Finding| clears.contains(&key(one)) && standing.contains(&key(one));
        let all = self.first.findings.iter().enumerate();
        all.filter(|(_, one)| of_it(one)).map(|(at, _)| at).collect()
    }

    fn try_job(&mut self, jobs: &mut Jobs, index: usize) -> Result<(), GivenUp> {
        let (Some(site), Some(now)) = (self.now.site(), self.now.assessment()?) else { return Ok(()) };
        let standing: BTreeSet<Key> = standing(now).map(key).collect();
        settle(&mut self.last, &mut self.went, &standing);
        let own = |job: &Job| -> Vec<Key> {
            let findings = job.causes.iter().flat_map(|cause| &jobs.causes[*cause].findings);
            findings.map(|finding| key(&self.first.findings[*finding])).collect()
        };
        let mut wanted: Vec<Key> = own(&jobs.jobs[index]);
        wanted.retain(|key| standing.contains(key));
        if wanted.is_empty() {
            let by: BTreeSet<usize> =
                own(&jobs.jobs[index]).iter().filter_map(|key| self.went.get(key).copied()).collect();
            let done_by = by.into_iter().collect();
            jobs.jobs[index].in_order = Some(InOrder { change: None, is_other: false, done_by });
            return Ok(());
        }
        let Some(change) = jobs.jobs[index].change.clone() else { return Ok(()) };
        let Some(bench) = self.now.bench()? else { return Ok(()) };
        // The same fault with the same remedy at other doors goes with it.
        let alike: Vec<usize> = (index + 1..jobs.jobs.len())
            .filter(|other| is_alike(site, self.first, jobs, index, *other))
            .collect();
        let is_of_several = !alike.is_empty();
        let mut remedy = is_of_several.then(|| self.at_all_doors(jobs, now, &bench, index, &alike)).flatten();
        let together = remedy.is_some();
        if together {
            for other in alike.into_iter().rev() {
                let other = jobs.jobs.remove(other);
                jobs.jobs[index].causes.extend(other.causes);
            }
            let head = |cause: &usize| &self.first.findings[jobs.causes[*cause].findings[0]];
            let mut causes = std::mem::take(&mut jobs.jobs[index].causes);
            causes.sort_by(|a, b| excess(head(b)).total_cmp(&excess(head(a))));
            jobs.jobs[index].causes = causes;
        } else {
            let head = self.head(jobs, index);
            remedy = now_standing(now, &head, &wanted)
                .and_then(|finding| mending(&bench, finding, &change.remedy, &wanted));
            // The figure of another finding says nothing of the one that is named.
            if !wanted.contains(&head) {
                remedy.iter_mut().for_each(|remedy| remedy.value_after = None);
            }
        }
        let Some(remedy) = remedy else {
            jobs.jobs[index].in_order = Some(InOrder { change: None, is_other: true, done_by: Vec::new() });
            return Ok(());
        };
        let Some(next) = self.now.with_change(&remedy.edit) else { return Ok(()) };
        let enters = match (&change.enters, next.site()) {
            (Some(enters), _) if change.remedy.edit == remedy.edit => Some(enters.clone()),
            (_, Some(changed)) => Some(dwellings_to_enter(site, changed)),
            (_, None) => None,
        };
        let is_other = change.remedy.edit != remedy.edit && !together;
        let clears = self.cleared(&remedy, &standing);
        let carried_by = change.carried_by.filter(|_| change.remedy.edit == remedy.edit);
        let change = JobChange { carried_by, remedy, clears, enters };
        jobs.jobs[index].in_order = Some(InOrder { change: Some(change), is_other, done_by: Vec::new() });
        self.now = next;
        self.last = Some((index, standing));
        Ok(())
    }

    /// What names the worst finding of a job, that of its headline.
    fn head(&self, jobs: &Jobs, index: usize) -> Key {
        key(&self.first.findings[jobs.causes[jobs.jobs[index].causes[0]].findings[0]])
    }

    /// The changes of jobs that are alike as one, if that mends what each of them was for; with the figure of the worst of them.
    fn at_all_doors(
        &self,
        jobs: &Jobs,
        now: &Assessment,
        bench: &Bench<'_>,
        index: usize,
        alike: &[usize],
    ) -> Option<Remedy> {
        let all: Vec<&Job> = std::iter::once(&index).chain(alike).map(|one| &jobs.jobs[*one]).collect();
        let remedies: Vec<&Remedy> =
            all.iter().filter_map(|job| Some(&job.change.as_ref()?.remedy)).collect();
        let edit = remedies.iter().fold(Edit::default(), |edit, one| edit.then(one.edit.clone()));
        let findings: Vec<&Finding> = all
            .iter()
            .flat_map(|job| &job.causes)
            .flat_map(|cause| &jobs.causes[*cause].findings)
            .map(|finding| &self.first.findings[*finding])
            .collect();
        let worst = findings.iter().max_by(|a, b| excess(a).total_cmp(&excess(b)))?;
        let wanted: Vec<Key> = findings.iter().map(|finding| key(finding)).collect();
        let worst = now_standing(now, &key(worst), &wanted)?;
        let parts = remedies.iter().flat_map(|one| one.parts.iter().cloned()).collect();
        let remedy = again(bench, worst, &Remedy { edit, parts, ..(*remedies.first()?).clone() })?;
        wanted.iter().all(|key| remedy.clears.contains(key)).then_some(remedy)
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

/// Findings that stand.
fn standing(assessment: &Assessment) -> impl Iterator<Item = &Finding> {
    assessment.findings.iter().filter(|finding| finding.is_to_be_mended())
}

/// The finding as it is now, or where it is gone the first of those that are wanted gone.
fn now_standing<'a>(now: &'a Assessment, head: &Key, wanted: &[Key]) -> Option<&'a Finding> {
    let of = |wanted: &Key| standing(now).find(|finding| key(finding) == *wanted);
    of(head).or_else(|| wanted.iter().find_map(of))
}

/// The change that was found for the site as it was, if it still mends all that is left; else, of it and the others that are found now, the
/// one that mends most.
fn mending(bench: &Bench<'_>, finding: &Finding, known: &Remedy, wanted: &[Key]) -> Option<Remedy> {
    let mended = |remedy: &Remedy| wanted.iter().filter(|key| remedy.clears.contains(key)).count();
    let offered = || offered(bench, finding).into_iter().filter(Remedy::changes_the_file);
    // Of a pair one half may be done by now: what mends all on the site as it is then goes before.
    let is_pair = !known.parts.is_empty();
    if is_pair && let Some(now) = offered().find(|remedy| mended(remedy) == wanted.len()) {
        return Some(now);
    }
    let same = again(bench, finding, known);
    if let Some(same) = same.as_ref().filter(|remedy| mended(remedy) == wanted.len()) {
        return Some(same.clone());
    }
    let others = offered();
    // The first of equals is the one that was known, then the cheapest.
    let all: Vec<Remedy> = same.into_iter().chain(others).collect();
    let most = all.iter().map(mended).max()?;
    all.into_iter().find(|remedy| mended(remedy) == most)
}

/// Whether two jobs are the same fault with the same remedy at two doors.
fn is_alike(site: &Site, first: &Assessment, jobs: &Jobs, one: usize, other: usize) -> bool {
    let of = |index: usize| {
        let job: &Job = &jobs.jobs[index];
        let findings: Vec<&Finding> = job
            .causes
            .iter()
            .flat_map(|cause| &jobs.causes[*cause].findings)
            .map(|finding| &first.findings[*finding])
            .collect();
        let door = findings.first()?.element.as_ref()?;
        let is_door = site.entrances.iter().any(|entrance| entrance.id == *door);
        let is_of_it = is_door && findings.iter().all(|finding| finding.element.as_ref() == Some(door));
        let codes: Vec<(Code, Severity)> =
            findings.iter().map(|finding| (finding.code, finding.severity)).collect();
        let remedy = &job.change.as_ref()?.remedy;
        is_of_it.then(|| (jobs.danger(job), codes, remedy.kind, without(&remedy.edit, door)))
    };
    of(one).is_some_and(|shape| of(other).is_some_and(|other| shape == other))
}

/// A change with the name of a door left open.
fn without(edit: &Edit, door: &ElementId) -> Edit {
    let mut edit = edit.clone();
    for step in edit.changes.iter_mut().flat_map(|(path, _)| path) {
        if matches!(step, EditStep::Key(name) if name == door.as_str()) {
            *step = EditStep::Key(String::new());
        }
    }
    edit
}
