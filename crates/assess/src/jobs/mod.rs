//! What is to be done about a site: its findings by cause, and the causes by the change that mends them.
//!
//! Findings that one thing explains are one [`Cause`]: whatever is too much for a supply, the stations that are low on one
//! riser. A [`Job`] is what one change of the site mends: one cause or several. Jobs come worst danger first.

mod cause;
mod danger;

pub use cause::{Cause, excess};
pub use danger::Danger;

use crate::assessment::Assessment;
use cause::causes;
use latchline_finding::{Edit, ElementId, Finding, Remedy, Severity};
use latchline_site::changes::dwellings_to_enter;
use latchline_site::model::Site;
use std::cmp::Reverse;
use std::collections::BTreeSet;

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
    /// The change that mends most of the first cause, the cheapest of those; `None` if none is known.
    pub change: Option<JobChange>,
}

/// Causes and jobs of a site, both worst first.
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

    /// How many jobs stand on a first page that has room for `most`: those that endanger people are never left out.
    pub fn on_first_page(&self, most: usize) -> usize {
        let for_people = self.jobs.iter().filter(|job| self.danger(job) == Danger::People).count();
        for_people.max(most).min(self.jobs.len())
    }
}

/// The jobs of a site. Changes are those that the findings carry; `changed` gives the site with a change made.
pub fn jobs(site: &Site, assessment: &Assessment, changed: &dyn Fn(&Edit) -> Option<Site>) -> Jobs {
    let causes = causes(site, assessment);
    let mut jobs: Vec<Job> = Vec::new();
    let mut cleared: Vec<BTreeSet<usize>> = Vec::new();
    for (index, cause) in causes.iter().enumerate() {
        // What an earlier job mends as well is no job of its own.
        let is_cleared = |one: &BTreeSet<usize>| cause.findings.iter().all(|finding| one.contains(finding));
        if let Some(job) = cleared.iter().position(is_cleared) {
            jobs[job].causes.push(index);
            continue;
        }
        let change = best_change(assessment, cause).map(|(finding, number, clears)| {
            let remedy = assessment.findings[finding].remedies[number].clone();
            let enters = changed(&remedy.edit).map(|after| dwellings_to_enter(site, &after));
            JobChange { finding, number, remedy, clears, enters }
        });
        cleared.push(change.iter().flat_map(|change| change.clears.iter().copied()).collect());
        jobs.push(Job { causes: vec![index], change });
    }
    Jobs { causes, jobs }
}

/// The change that mends most findings of a cause; then the cheapest, least labour, the one that mends most of all. The finding that
/// carries it, its number there, and what it clears.
fn best_change(assessment: &Assessment, cause: &Cause) -> Option<(usize, usize, Vec<usize>)> {
    let own: BTreeSet<usize> = cause.findings.iter().copied().collect();
    let all = |finding: &usize| {
        let (finding, remedies) = (*finding, &assessment.findings[*finding].remedies);
        remedies.iter().enumerate().map(move |(number, remedy)| (finding, number, remedy))
    };
    let remedies = cause.findings.iter().flat_map(all).filter(|(_, _, remedy)| remedy.changes_the_file());
    let cost = |remedy: &Remedy| {
        let hundredths = |minutes: f64| (minutes * 100.0).round() as i64;
        // What has no price stands behind what has one.
        (remedy.cost.is_none(), remedy.cost, remedy.minutes.map_or(i64::MAX, hundredths))
    };
    let with_clears = remedies.map(|(finding, number, remedy)| {
        let goes = |one: &Finding| {
            remedy.clears.iter().any(|(code, element)| *code == one.code && *element == one.element)
        };
        let clears: Vec<usize> =
            standing(assessment).filter(|(_, one)| goes(one)).map(|(index, _)| index).collect();
        (finding, number, remedy, clears)
    });
    let best = with_clears.min_by_key(|(_, _, remedy, clears)| {
        let mended = clears.iter().filter(|index| own.contains(index)).count();
        (Reverse(mended), cost(remedy), Reverse(clears.len()))
    });
    best.map(|(finding, number, _, clears)| (finding, number, clears))
}

/// Findings that are not accepted, with their places in the assessment.
fn standing(assessment: &Assessment) -> impl Iterator<Item = (usize, &Finding)> {
    assessment.findings.iter().enumerate().filter(|(_, finding)| finding.accepted.is_none())
}

/// Standing findings that somebody has to do something about.
fn to_be_mended(assessment: &Assessment) -> impl Iterator<Item = (usize, &Finding)> {
    standing(assessment).filter(|(_, finding)| finding.severity > Severity::Advice)
}
