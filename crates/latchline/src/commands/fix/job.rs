//! Jobs of `check` that are asked for.

use super::names::JobName;
use crate::commands::sentence;
use crate::refusal::{Refusal, Refused, Result};
use latchline_assess::jobs::{Job, JobChange};
use latchline_finding::{Edit, ElementId, Finding, Remedy, shown};
use latchline_remedy::{Bench, again, of_kind, pair};
use latchline_report::Look;
use latchline_session::View;
use latchline_words::commands::FixWords;
use latchline_words::refusals::{NameRefusal, SiteRefusal};
use latchline_words::report::remedy_kind;

/// A job that was asked for.
pub(super) struct Asked {
    /// Its first finding.
    pub finding: Finding,
    /// The change that does it, if one is known, alone or in a pair.
    pub remedy: Option<Remedy>,
    /// Whether that does it on the site as it is, and none does once the jobs before it are done.
    pub is_as_it_is: bool,
    /// The kind of the change in the list, where that is another.
    pub listed: Option<&'static str>,
}

/// A job of `check` that mends a finding.
pub(super) struct ByJob {
    pub words: String,
    /// Whether it does on the site as it is, and not only once the jobs before it are done.
    pub does_now: bool,
}

/// The job of `check` that mends a finding by a change that is none of its own.
pub(super) fn by_job(view: &View, finding: usize, own: &[Remedy], look: &Look) -> Result<Option<ByJob>> {
    let Some(jobs) = view.jobs()? else { return Ok(None) };
    let language = look.language;
    let mut told = jobs.jobs.iter().enumerate().filter_map(|(index, job)| {
        let change = job.told_change().filter(|change| change.clears.contains(&finding))?;
        Some((index + 1, job, &change.remedy))
    });
    let is_own = |remedy: &Remedy| own.iter().any(|one| one.edit == remedy.edit);
    let Some((number, of, remedy)) = told.find(|(_, _, remedy)| !is_own(remedy)) else { return Ok(None) };
    let change = &*remedy_kind(remedy.kind, language);
    let file = &*shown::whole(&view.sources().file(view.site_file()).name, &[]);
    let does_now = !of.in_order.as_ref().is_some_and(|in_order| in_order.is_other);
    let words = match does_now {
        true => FixWords::ByJob { job: number, change, file }.say(language),
        false => FixWords::ByJobInOrder { job: number, change }.say(language),
    };
    Ok(Some(ByJob { words, does_now }))
}

/// The first finding of a job and the change that does it.
pub(super) fn job(view: &View, bench: &Bench<'_>, name: &JobName) -> Result<Asked> {
    let (jobs, assessment) = (view.jobs()?, view.remedies()?);
    let jobs = jobs.refused(|| SiteRefusal::NotJudged)?;
    if jobs.jobs.is_empty() {
        return Err(SiteRefusal::NoJobs.into());
    }
    let all = assessment.map_or(&[][..], |assessment| &assessment.findings);
    let of = |job: &Job| -> Vec<&Finding> {
        let findings = job.causes.iter().flat_map(|cause| &jobs.causes[*cause].findings);
        findings.map(|index| &all[*index]).collect()
    };
    let job = match name {
        JobName::Number(number) => number
            .checked_sub(1)
            .and_then(|index| jobs.jobs.get(index))
            .refused(|| NameRefusal::NoJob { number: *number, all: jobs.jobs.len() })?,
        JobName::Finding { code, elements, .. } => {
            let is_it = |one: &&Finding| is_named(one, code, elements);
            let element = elements.first().map(String::as_str);
            jobs.jobs
                .iter()
                .find(|job| of(job).iter().any(is_it))
                .refused(|| NameRefusal::NotFound { code, element })?
        }
    };
    let mut findings = of(job);
    // Of the same at several places only what was asked for: the others may have jobs of their own in the list that it is from.
    let asked_for = match name {
        JobName::Finding { code, elements, .. } if job.is_of_several => {
            let asked_for: Vec<&Finding> =
                findings.iter().copied().filter(|one| is_named(one, code, elements)).collect();
            let is_left_out = |one: &&Finding| one.code.as_str() == code && !is_named(one, code, elements);
            findings.iter().any(is_left_out).then_some(asked_for)
        }
        _ => None,
    };
    if let Some(asked_for) = &asked_for {
        findings.clone_from(asked_for);
    }
    let finding = *findings.first().refused(|| SiteRefusal::JobWithoutFinding)?;
    let kind = match name {
        JobName::Finding { kind, .. } => kind.as_deref(),
        JobName::Number(_) => None,
    };
    let is_wanted = |remedy: &&Remedy| kind.is_none_or(|kind| remedy.kind == kind);
    let mends_all =
        |remedy: &Remedy| findings.iter().all(|one| remedy.clears.contains(&(one.code, one.element.clone())));
    let of_change = |change: Option<&JobChange>| {
        let known = change.map(|change| &change.remedy).filter(is_wanted)?;
        again(bench, finding, known).filter(mends_all)
    };
    let (told, now) = (|| of_change(job.told_change()), || of_change(job.change.as_ref()));
    // By its number it is done as the list says; by what it mends, whose turn has come, as would be done now.
    let all_of_it = match name {
        _ if asked_for.is_some() => at_each(bench, &findings, kind),
        JobName::Number(_) => told().or_else(now),
        JobName::Finding { .. } => now().or_else(told),
    };
    let part_of_it = || {
        let change = job.change.as_ref().filter(|_| asked_for.is_none());
        change.map(|change| change.remedy.clone()).filter(|one| is_wanted(&one))
    };
    // The finding that was named first: the job may begin with another by now.
    let is_of_code = |one: &&&Finding| match name {
        JobName::Finding { code, .. } => one.code.as_str() == code,
        JobName::Number(_) => false,
    };
    let other = || {
        let named = findings.iter().find(is_of_code).into_iter();
        named.chain(&findings).find_map(|one| of_kind(bench, one, kind?))
    };
    let change = all_of_it.or_else(part_of_it).or_else(other);
    if let (None, Some(kind)) = (&change, kind) {
        let said = |language| {
            SiteRefusal::NoChangeOfKind { kind, finding: &sentence(finding, language) }.say(language)
        };
        return Err(Refusal::in_each(said));
    }
    let is_as_it_is = matches!(name, JobName::Number(_))
        && job.in_order.is_some()
        && job.told_change().is_none()
        && job.done_by().is_empty();
    let remedy = change.or_else(|| pair(bench, finding));
    let told = job.told_change().map(|change| &change.remedy).filter(|_| matches!(name, JobName::Number(_)));
    let is_other = |told: &&Remedy| remedy.as_ref().is_some_and(|remedy| remedy.edit != told.edit);
    let listed = told.filter(is_other).map(|told| told.kind);
    Ok(Asked { finding: finding.clone(), remedy, is_as_it_is, listed })
}

/// Whether a finding is of a code and about one of these, or about nothing where none is named.
fn is_named(finding: &Finding, code: &str, elements: &[String]) -> bool {
    let about = finding.element.as_ref().map(ElementId::as_str);
    let is_about = match about {
        Some(about) => elements.iter().any(|element| element == about),
        None => elements.is_empty(),
    };
    finding.code.as_str() == code && is_about
}

/// The change of a kind at each of some places, as one; `None` where one of them has none.
fn at_each(bench: &Bench<'_>, findings: &[&Finding], kind: Option<&str>) -> Option<Remedy> {
    let each: Vec<Remedy> =
        findings.iter().map(|one| of_kind(bench, one, kind?)).collect::<Option<Vec<Remedy>>>()?;
    let first = each.first()?;
    let edit = each.iter().fold(Edit::default(), |edit, one| edit.then(one.edit.clone()));
    let parts = each.iter().flat_map(|one| one.parts.iter().cloned()).collect();
    again(bench, findings.first()?, &Remedy { edit, parts, ..first.clone() })
}
