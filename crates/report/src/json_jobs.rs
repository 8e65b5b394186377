//! Jobs in the check document.

use crate::job_change::command;
use crate::jobs_text;
use crate::json_findings::{FindingName, RemedyDocument, finding_name, remedy};
use crate::report::Report;
use latchline_assess::Assessment;
use latchline_assess::jobs::{Cause, Job, Jobs};
use latchline_finding::Language;
use schemars::JsonSchema;
use serde::Serialize;

/// One thing to do.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct JobDocument {
    /// "people", "fire", "supply", "riser", "run", "station", "address" or "site": what is in danger while it is not done.
    danger: &'static str,
    /// What is wrong, in English.
    message: String,
    /// What it mends, worst first.
    causes: Vec<CauseDocument>,
    /// The verified change that mends it when the jobs before it are done, with its figures as they are then; absent where no single change
    /// of the file does.
    #[serde(skip_serializing_if = "Option::is_none")]
    change: Option<RemedyDocument>,
    /// Whether that is another change than would do on the site as it is.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    change_in_order: bool,
    /// The jobs before it, the first is 1, that leave nothing of it to do.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    done_by: Vec<usize>,
    /// Findings that go with the change.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    clears: Vec<FindingName>,
    /// Dwellings that have to be entered for the change; absent where that is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    enters: Option<Vec<String>>,
    /// The command that does the job, also on the file with the jobs before it done.
    #[serde(skip_serializing_if = "Option::is_none")]
    command: Option<String>,
}

/// Findings that one thing explains.
#[derive(Debug, Serialize, JsonSchema)]
struct CauseDocument {
    /// What is in danger.
    danger: &'static str,
    /// "error" or "warning".
    severity: &'static str,
    /// Supply, run, station, door or dwelling.
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<String>,
    /// Where stations or a riser are concerned, the runs on the way there, the first from the supply.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    way: Vec<String>,
    /// Its findings, worst first.
    findings: Vec<FindingName>,
}

pub(crate) fn documents(report: &Report<'_>) -> Vec<JobDocument> {
    let (Some(assessment), Some(jobs)) = (report.assessment, report.jobs) else { return Vec::new() };
    jobs.jobs.iter().map(|job| document(report, assessment, jobs, job)).collect()
}

fn document(report: &Report<'_>, assessment: &Assessment, jobs: &Jobs, job: &Job) -> JobDocument {
    let change = job.told_change();
    JobDocument {
        danger: jobs.danger(job).word(),
        message: jobs_text::title(assessment, jobs, job, Language::English),
        causes: job.causes.iter().map(|index| cause(assessment, &jobs.causes[*index])).collect(),
        change: change.map(|change| remedy(report, &change.remedy)),
        change_in_order: job.waits || job.in_order.as_ref().is_some_and(|in_order| in_order.is_other),
        done_by: job.done_by().iter().map(|index| index + 1).collect(),
        clears: change.map(|change| named(assessment, &change.clears)).unwrap_or_default(),
        enters: change
            .and_then(|change| change.enters.as_ref())
            .map(|enters| enters.iter().map(|dwelling| dwelling.to_string()).collect()),
        command: command(report, assessment, jobs, job),
    }
}

fn cause(assessment: &Assessment, cause: &Cause) -> CauseDocument {
    CauseDocument {
        danger: cause.danger.word(),
        severity: cause.severity.word(),
        place: cause.place.as_ref().map(|place| place.to_string()),
        way: cause.way.iter().map(|run| run.to_string()).collect(),
        findings: named(assessment, &cause.findings),
    }
}

fn named(assessment: &Assessment, findings: &[usize]) -> Vec<FindingName> {
    let one = |index: &usize| finding_name(&assessment.findings[*index]);
    findings.iter().map(one).collect()
}
