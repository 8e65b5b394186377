//! The first page of a site on which something is found: what is to be done, and the causes one by one.

use crate::paint::Look;
use crate::report::Report;
use crate::table::{hanging, paragraph};
use crate::{figures, template, wording};
use latchline_assess::Assessment;
use latchline_assess::jobs::{Cause, Danger, Job, JobChange, Jobs};
use latchline_finding::{ElementId, Finding, Language, Severity};
use latchline_words::codes;
use latchline_words::report::{DangerWord, JobHead, JobWords, severity};

/// Jobs on the first page; more only where people are in danger.
const MOST_JOBS: usize = 7;
/// Names that one line lists.
const MOST_NAMES: usize = 8;

/// The word of a danger.
pub fn danger_word(danger: Danger, language: Language) -> &'static str {
    match danger {
        Danger::People => DangerWord::People,
        Danger::Fire => DangerWord::Fire,
        Danger::Supply => DangerWord::Supply,
        Danger::Riser => DangerWord::Riser,
        Danger::Run => DangerWord::Run,
        Danger::Station => DangerWord::Station,
        Danger::Address => DangerWord::Address,
        Danger::Site => DangerWord::Site,
    }
    .say(language)
}

/// How many errors and warnings there are by what they endanger, in one sentence; empty where there are none.
pub(crate) fn in_danger(jobs: &Jobs, look: &Look) -> String {
    let count = |danger| -> usize {
        let causes = jobs.causes.iter().filter(|cause| cause.danger == danger);
        causes.map(|cause| cause.findings.len()).sum()
    };
    let counted: Vec<String> = Danger::ALL
        .iter()
        .map(|danger| (danger, count(*danger)))
        .filter(|(_, count)| *count > 0)
        .map(|(danger, count)| format!("{} {count}", danger_word(*danger, look.language)))
        .collect();
    if counted.is_empty() {
        return String::new();
    }
    let line = JobWords::InDanger { counted: &counted.join(", ") }.say(look.language);
    paragraph(&line, 0, look.width)
}

/// The list of jobs; empty where there are none.
pub(crate) fn list(report: &Report<'_>, assessment: &Assessment, jobs: &Jobs, look: &Look) -> String {
    if jobs.jobs.is_empty() {
        return String::new();
    }
    let language = look.language;
    let shown = jobs.on_first_page(MOST_JOBS);
    let mut text = format!("{}\n", look.bold(JobHead::Jobs.say(language)));
    for (index, job) in jobs.jobs.iter().take(shown).enumerate() {
        let danger = danger_word(jobs.danger(job), language);
        let what = title(assessment, jobs, job, language);
        let line = JobWords::Title { danger, what: &what }.say(language);
        text.push_str(&hanging(&format!("{:>2}. ", index + 1), &line, look.width));
        text.push_str(&paragraph(&what_to_do(assessment, jobs, job, language), 4, look.width));
    }
    if jobs.jobs.len() > shown {
        let more = JobWords::MoreJobs { jobs: jobs.jobs.len() - shown }.say(language);
        text.push_str(&paragraph(&more, 4, look.width));
    }
    let command = report.command_of_job("N");
    let foot = command.map_or(JobWords::FootWithoutCommand.say(language), |command| {
        JobWords::Foot { command: &command }.say(language)
    });
    text.push_str(&paragraph(&foot, 2, look.width));
    text
}

/// What is wrong, in one sentence without full stop.
pub fn title(assessment: &Assessment, jobs: &Jobs, job: &Job, language: Language) -> String {
    let Some(cause) = job.causes.first().map(|index| &jobs.causes[*index]) else { return String::new() };
    let Some(worst) = cause.findings.first().map(|index| &assessment.findings[*index]) else {
        return String::new();
    };
    let message = codes::wording(worst, language).message;
    let names = elements(assessment, &cause.findings);
    match (&cause.place, cause.way.as_slice()) {
        (_, []) if cause.findings.len() == 1 => message,
        (_, []) if names.len() == 1 => message,
        (_, []) => JobWords::AndMore { message: &message, more: cause.findings.len() - 1 }.say(language),
        (Some(run), way) if way.last() == Some(run) => {
            let run = &template::plain(run.as_str());
            JobWords::OnRun { run, stations: names.len(), worst: &message }.say(language)
        }
        // The way of a collapse; of a single station it stands on the run that its message names.
        (Some(place), way) if worst.element.as_ref() == Some(place) && is_source(assessment, place) => {
            let way = &named(way, language);
            JobWords::Collapse { message: &message, way }.say(language)
        }
        _ => message,
    }
}

fn is_source(assessment: &Assessment, element: &ElementId) -> bool {
    assessment.sources.iter().any(|source| source.id == *element)
}

/// The change of a job with what it costs and clears, or what can be done without one.
pub fn what_to_do(assessment: &Assessment, jobs: &Jobs, job: &Job, language: Language) -> String {
    if let Some(change) = &job.change {
        return change_words(change, language);
    }
    let worst = job.causes.first().and_then(|cause| jobs.causes[*cause].findings.first());
    let hint = worst.and_then(|index| codes::wording(&assessment.findings[*index], language).hint);
    JobWords::NoChange { hint: hint.as_deref() }.say(language)
}

fn change_words(change: &JobChange, language: Language) -> String {
    let remedy = &change.remedy;
    let mut parts = vec![wording::remedy(remedy, language)];
    if let Some(minutes) = remedy.minutes.filter(|minutes| minutes.is_finite()) {
        parts.push(if minutes.abs() < 0.5 {
            JobWords::SameLabour.say(language)
        } else if minutes > 0.0 {
            JobWords::MoreLabour { minutes: &figures::fixed(minutes.ceil(), 0) }.say(language)
        } else {
            JobWords::LessLabour { minutes: &figures::fixed((-minutes).floor(), 0) }.say(language)
        });
    }
    match change.enters.as_deref() {
        Some([]) => parts.push(JobWords::EntersNone.say(language)),
        Some(dwellings) => {
            let names = &named(dwellings, language);
            parts.push(JobWords::Enters { dwellings: dwellings.len(), names }.say(language));
        }
        None => {}
    }
    parts.push(JobWords::Clears { findings: change.clears.len() }.say(language));
    parts.join("; ")
}

/// Names in a row, the rest counted.
fn named(elements: &[ElementId], language: Language) -> String {
    let shown = elements.iter().take(MOST_NAMES).map(|element| template::plain(element.as_str()));
    let names = shown.collect::<Vec<_>>().join(", ");
    match elements.len().saturating_sub(MOST_NAMES) {
        0 => names,
        more => JobWords::NamesAndMore { names: &names, more }.say(language),
    }
}

/// The elements of findings, each once.
fn elements(assessment: &Assessment, findings: &[usize]) -> Vec<ElementId> {
    let mut names: Vec<ElementId> = Vec::new();
    for element in findings.iter().filter_map(|index| assessment.findings[*index].element.as_ref()) {
        if !names.contains(element) {
            names.push(element.clone());
        }
    }
    names
}

/// Every cause with a line for each kind of finding in it, by the number of its job.
pub(crate) fn causes(report: &Report<'_>, assessment: &Assessment, jobs: &Jobs, look: &Look) -> String {
    if jobs.causes.is_empty() {
        return String::new();
    }
    let mut text = format!("{}\n", look.bold(JobHead::Causes.say(look.language)));
    let mut order: Vec<(usize, usize)> =
        (0..jobs.causes.len()).map(|cause| (jobs.job_of(cause).unwrap_or(usize::MAX), cause)).collect();
    order.sort_unstable();
    for (job, cause) in order {
        let cause: &Cause = &jobs.causes[cause];
        let findings: Vec<&Finding> =
            cause.findings.iter().map(|index| &assessment.findings[*index]).collect();
        for (at, line) in by_code(report, &findings, look).into_iter().enumerate() {
            let number = if at == 0 { (job + 1).to_string() } else { String::new() };
            text.push_str(&hanging(&format!("{number:>3} "), &line, look.width));
        }
    }
    text
}

/// Advice, a line for each kind; empty where there is none.
pub(crate) fn advice(report: &Report<'_>, look: &Look) -> String {
    let findings: Vec<&Finding> =
        report.judged.iter().copied().filter(|finding| finding.severity == Severity::Advice).collect();
    if findings.is_empty() {
        return String::new();
    }
    let lines = by_code(report, &findings, look);
    let lines: String = lines.iter().map(|line| hanging("  ", line, look.width)).collect();
    format!("{}\n{lines}", look.severity(Severity::Advice, JobHead::Advice.say(look.language)))
}

/// One line for each code: its first finding, the names of the others, and where it is written.
fn by_code(report: &Report<'_>, findings: &[&Finding], look: &Look) -> Vec<String> {
    let language = look.language;
    let mut rest = findings.to_vec();
    let mut lines = Vec::new();
    while let Some(first) = rest.first().copied() {
        let (same, others): (Vec<&Finding>, Vec<&Finding>) =
            rest.iter().partition(|finding| (finding.code, finding.severity) == (first.code, first.severity));
        rest = others;
        let mut message = codes::wording(first, language).message;
        let mut names: Vec<ElementId> = Vec::new();
        for element in same[1..].iter().filter_map(|finding| finding.element.as_ref()) {
            if !names.contains(element) && first.element.as_ref() != Some(element) {
                names.push(element.clone());
            }
        }
        if !names.is_empty() {
            message =
                JobWords::AndOthers { message: &message, names: &named(&names, language) }.say(language);
        } else if same.len() > 1 {
            message = JobWords::AndMore { message: &message, more: same.len() - 1 }.say(language);
        }
        if let Some(place) = report.places.short(&first.origin, language) {
            message = JobWords::At { message: &message, place: &place }.say(language);
        }
        let lead = look.severity(
            first.severity,
            &format!("{}[{}]", severity(first.severity, language), first.code.as_str()),
        );
        lines.push(format!("{lead} {message}"));
    }
    lines
}
