//! Jobs one after the other.
//!
//! A list of jobs is worked off from the top, so each is tried on the site as it is when those before it are done: what they have done
//! already is said, the figures are those of then, and a change that no longer fits gives way to another. The same fault with the same
//! remedy at several doors is one job.

use crate::view::View;
use latchline_assess::jobs::{InOrder, Job, JobChange, Jobs, excess, jobs as first_jobs};
use latchline_assess::{Assessment, GivenUp};
use latchline_finding::{Code, Edit, EditStep, ElementId, Finding, Remedy, Severity};
use latchline_remedy::{Bench, again, offered};
use latchline_site::changes::dwellings_to_enter;
use latchline_site::edit;
use latchline_site::model::Site;
use std::collections::{BTreeMap, BTreeSet};

/// Jobs that are tried in order whatever the size of the site: those of a first page, and some.
const LEAST_TRIED: usize = 12;
/// Jobs tried, times the stations of the site.
const MOST_WORK: usize = 3_000;

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
            let found = in_order(self, assessment, first_jobs(site, assessment, &changed))?;
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
}

/// The jobs with what is left of each when those before it are done.
fn in_order(view: &View, assessment: &Assessment, mut jobs: Jobs) -> Result<Jobs, GivenUp> {
    let stations = view.site().map_or(1, |site| site.stations.len().max(1));
    let most = LEAST_TRIED.max(MOST_WORK / stations);
    let mut after = After { first: assessment, now: view.clone(), went: BTreeMap::new(), last: None };
    let mut index = 0;
    while index < jobs.jobs.len().min(most) {
        after.try_job(&mut jobs, index)?;
        index += 1;
    }
    Ok(jobs)
}

impl After<'_> {
    fn try_job(&mut self, jobs: &mut Jobs, index: usize) -> Result<(), GivenUp> {
        let (Some(site), Some(now)) = (self.now.site(), self.now.assessment()?) else { return Ok(()) };
        let standing: BTreeSet<Key> = standing(now).map(key).collect();
        // What has become less than a warning is gone as well.
        if let Some((job, before)) = self.last.take() {
            for key in before.difference(&standing) {
                self.went.entry(key.clone()).or_insert(job);
            }
        }
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
        let clears: BTreeSet<&Key> = remedy.clears.iter().collect();
        let clears = self.first.findings.iter().enumerate().filter(|(_, one)| clears.contains(&key(one)));
        let clears: Vec<usize> =
            clears.filter(|(_, one)| standing.contains(&key(one))).map(|(at, _)| at).collect();
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
    let same = again(bench, finding, known);
    if let Some(same) = same.as_ref().filter(|remedy| mended(remedy) == wanted.len()) {
        return Some(same.clone());
    }
    let others = offered(bench, finding).into_iter().filter(Remedy::changes_the_file);
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
