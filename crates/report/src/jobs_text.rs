//! The first page of a site on which something is found: what is to be done, and the causes one by one.

use crate::job_change::{MOST_NAMES, all_together, command, first_named, named, number, what_to_do};
use crate::paint::Look;
use crate::report::Report;
use crate::table::{hanging, paragraph};
use crate::template;
use crate::wrap::width;
use latchline_assess::Assessment;
use latchline_assess::jobs::{Danger, Job, Jobs};
use latchline_finding::{Code, ElementId, Finding, Language, Severity};
use latchline_words::codes;
use latchline_words::report::{DangerWord, JobHead, JobWords, severity};

/// Jobs on the first page; more only where people are in danger.
const MOST_JOBS: usize = 7;
/// Names that one line lists where there is least room.
const FEW_NAMES: usize = 3;

/// How much room the first page of a site that fails leaves for what is further down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Room {
    /// Everything in full.
    Ample,
    /// Without lines of the file; advice is counted.
    Little,
    /// Of what no job on the page tells, only who has it.
    Least,
    /// The same, and in place of each job's command the one by its number, once for all.
    Numbers,
}

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

/// The list of jobs; empty where there are none. Where there is little room, without lines of the file.
pub(crate) fn list(
    report: &Report<'_>,
    assessment: &Assessment,
    jobs: &Jobs,
    room: Room,
    look: &Look,
) -> String {
    if jobs.jobs.is_empty() {
        return String::new();
    }
    let language = look.language;
    let shown = on_page(jobs, room);
    let head = JobWords::Jobs { currency: report.currency() }.say(language);
    let mut text = format!("{}\n", look.bold(&head));
    for (index, job) in shown.iter().map(|index| (*index, &jobs.jobs[*index])) {
        let danger = danger_word(jobs.danger(job), language);
        let what = title_with_code(report, assessment, jobs, job, room, language);
        let line = JobWords::Title { danger, what: &what }.say(language);
        text.push_str(&hanging(&format!("{:<4}", number(index, language)), &line, look.width));
        text.push_str(&paragraph(&what_to_do(assessment, jobs, job, language), 4, look.width));
        // A command that is broken by a line cannot be copied: it may be wider than the page.
        if let Some(command) = command(report, assessment, jobs, job).filter(|_| room < Room::Numbers) {
            text.push_str(&format!("    {command}\n"));
        }
    }
    let more = jobs.jobs.len() - shown.len();
    let foot: Vec<String> = (more > 0)
        .then(|| JobWords::MoreJobs { jobs: more }.say(language))
        .into_iter()
        .chain((room < Room::Numbers).then(|| all_together(jobs, language)).flatten())
        .chain(
            jobs.jobs.iter().position(|job| room == Room::Numbers && job.told_change().is_some()).and_then(
                |first| {
                    let job = &number(first, language);
                    Some(JobWords::Foot { job, command: &report.command_of_job(job)? }.say(language))
                },
            ),
        )
        .collect();
    if !foot.is_empty() {
        text.push_str(&paragraph(&foot.join(" "), 2, look.width));
    }
    text
}

/// The jobs that are told on the page; one fewer where there is least room.
fn on_page(jobs: &Jobs, room: Room) -> Vec<usize> {
    jobs.on_first_page(MOST_JOBS - usize::from(room == Room::Numbers))
}

/// What is wrong, in one sentence without full stop.
pub fn title(assessment: &Assessment, jobs: &Jobs, job: &Job, language: Language) -> String {
    let Some(cause) = job.causes.first().map(|index| &jobs.causes[*index]) else { return String::new() };
    let Some(worst) = cause.findings.first().map(|index| &assessment.findings[*index]) else {
        return String::new();
    };
    let message = codes::wording(worst, language).message;
    let names = elements(assessment, &cause.findings);
    // The same fault at other places that the same change mends.
    let same = job.causes[1..].iter().map(|index| &jobs.causes[*index]);
    let same = same.filter(|other| assessment.findings[other.findings[0]].code == worst.code);
    let others: Vec<usize> = same.map(|other| other.findings[0]).collect();
    let others: Vec<ElementId> =
        elements(assessment, &others).into_iter().filter(|one| worst.element.as_ref() != Some(one)).collect();
    match (&cause.place, cause.way.as_slice()) {
        (_, []) if names.len() <= 1 && !others.is_empty() => {
            JobWords::AndOthers { message: &message, names: &named(&others, language) }.say(language)
        }
        (_, []) if cause.findings.len() == 1 => message,
        (_, []) if names.len() == 1 => message,
        (_, []) => JobWords::AndMore { message: &message, more: cause.findings.len() - 1 }.say(language),
        (Some(run), way) if way.last() == Some(run) => {
            let run = &template::plain(run.as_str());
            JobWords::OnRun { run, stations: names.len(), worst: &message }.say(language)
        }
        // A collapse, or a single station: its message names the run.
        _ => message,
    }
}

/// The title with the code of its worst finding and where that is written.
fn title_with_code(
    report: &Report<'_>,
    assessment: &Assessment,
    jobs: &Jobs,
    job: &Job,
    room: Room,
    language: Language,
) -> String {
    let message = title(assessment, jobs, job, language);
    let worst = job.causes.first().and_then(|cause| jobs.causes[*cause].findings.first());
    let Some(worst) = worst.map(|index| &assessment.findings[*index]) else { return message };
    let place = place(report, worst, language).filter(|_| room == Room::Ample);
    JobWords::CodeAt { message: &message, code: worst.code.as_str(), place: place.as_deref() }.say(language)
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

/// Every cause with a line for each kind of finding in it, by the number of its job. What the list of jobs says already is not said
/// again. Where there is little room, without lines of the file; where there is least, only who has it.
pub(crate) fn causes(
    report: &Report<'_>,
    assessment: &Assessment,
    jobs: &Jobs,
    room: Room,
    look: &Look,
) -> String {
    let shown = on_page(jobs, room);
    let mut lines = String::new();
    for alike in alike(assessment, jobs, &shown, room) {
        let of_job =
            |index: &usize| jobs.jobs[*index].causes.iter().flat_map(|cause| &jobs.causes[*cause].findings);
        let findings: Vec<&Finding> =
            alike.iter().flat_map(of_job).map(|index| &assessment.findings[*index]).collect();
        let said = if shown.contains(&alike[0]) { alike.len() } else { 0 };
        let mut own = by_code(report, &findings, said, room, look);
        let together = own.join("; ");
        if room >= Room::Least && own.len() > 1 {
            own = vec![together];
        }
        let numbers: Vec<String> = alike.iter().map(|index| number(*index, look.language)).collect();
        let numbers = numbers.join(", ");
        let first = if width(&numbers) < 4 { format!("{numbers:<4}") } else { format!("{numbers}  ") };
        let further = " ".repeat(width(&first));
        for (at, line) in own.iter().enumerate() {
            let lead = if at == 0 { &first } else { &further };
            lines.push_str(&hanging(lead, line, look.width));
        }
    }
    if lines.is_empty() {
        return lines;
    }
    format!("{}\n{lines}", look.bold(JobHead::Causes.say(look.language)))
}

/// What a job takes, finding by finding.
type Taken = Vec<(Severity, Code)>;

/// Jobs by number, those together that take the same findings of other things where there is little room: two blocks that are built alike.
fn alike(assessment: &Assessment, jobs: &Jobs, shown: &[usize], room: Room) -> Vec<Vec<usize>> {
    let codes = |job: &Job| -> Taken {
        let findings = job.causes.iter().flat_map(|cause| &jobs.causes[*cause].findings);
        let found = findings.map(|index| &assessment.findings[*index]);
        found.map(|finding| (finding.severity, finding.code)).collect()
    };
    let mut groups: Vec<(Taken, Vec<usize>)> = Vec::new();
    for (index, job) in jobs.jobs.iter().enumerate() {
        let own = codes(job);
        let is_like = |group: &&mut (Taken, Vec<usize>)| {
            room > Room::Ample && group.0 == own && shown.contains(&group.1[0]) == shown.contains(&index)
        };
        match groups.iter_mut().find(is_like) {
            Some((_, members)) => members.push(index),
            None => groups.push((own, vec![index])),
        }
    }
    groups.into_iter().map(|(_, members)| members).collect()
}

/// Whether a text fits one line behind the name of its job.
fn fits(text: &str, look: &Look) -> bool {
    width(text) + 4 <= look.width
}

/// Advice, a line for each kind; empty where there is none. Of a site that fails it is named, not told, and where there is
/// little room counted.
pub(crate) fn advice(report: &Report<'_>, room: Room, look: &Look) -> String {
    let findings: Vec<&Finding> =
        report.judged.iter().copied().filter(|finding| finding.severity == Severity::Advice).collect();
    if findings.is_empty() {
        return String::new();
    }
    let groups = groups(&findings);
    let head = look.severity(Severity::Advice, JobHead::Advice.say(look.language));
    if report.fails() {
        let lines = groups.iter().map(|same| {
            if room > Room::Ample {
                let code = same[0].code.as_str();
                return JobWords::Counted { code, findings: same.len() }.say(look.language);
            }
            let names = match (names_of(same).as_slice(), codes::of(same[0].code.as_str())) {
                ([], Some(words)) => words.title(look.language).to_string(),
                (names, _) => named(names, look.language),
            };
            with_code(same[0], &names, look)
        });
        let lines: Vec<String> = lines.collect();
        return hanging(
            "",
            &JobWords::InOneLine { head: &head, what: &lines.join("; ") }.say(look.language),
            look.width,
        );
    }
    let lines: String = groups
        .iter()
        .map(|same| {
            let line = message_and_names(report, same, room, look.language);
            hanging("  ", &with_code(same[0], &line, look), look.width)
        })
        .collect();
    format!("{head}\n{lines}")
}

/// Findings of one code and severity together, in the order of the first of each.
fn groups<'f>(findings: &[&'f Finding]) -> Vec<Vec<&'f Finding>> {
    let mut groups: Vec<Vec<&Finding>> = Vec::new();
    for finding in findings {
        let same = |group: &&mut Vec<&Finding>| {
            (group[0].code, group[0].severity) == (finding.code, finding.severity)
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.push(finding),
            None => groups.push(vec![finding]),
        }
    }
    groups
}

/// One line for each code: its first finding, the names of the others, and where it is written. Of the first code only the names
/// where it was `said` already of so many, and nothing where it has no other finding. Of a site that fails, warnings are named, not told.
fn by_code(report: &Report<'_>, findings: &[&Finding], said: usize, room: Room, look: &Look) -> Vec<String> {
    let mut lines = Vec::new();
    let groups = groups(findings);
    for (at, same) in groups.iter().enumerate() {
        let named_only = report.fails() && same[0].severity < Severity::Error;
        let line = match (said > 0 && at == 0, same.len()) {
            (true, count) if count <= said => continue,
            (said, _) if room >= Room::Least => {
                // The whole sentence where it takes no more room than the names.
                let message = codes::wording(same[0], look.language).message;
                let is_short = fits(&with_code(same[0], &message, look), look);
                match !said && same.len() == 1 && groups.len() == 1 && is_short {
                    true => message,
                    // One more takes no more room than to say so.
                    false => {
                        let most = FEW_NAMES + usize::from(names_of(same).len() == FEW_NAMES + 1);
                        names_or_title(same, most, look.language)
                    }
                }
            }
            (true, _) => names_alone(report, same, room, look.language),
            (false, _) if named_only => names_alone(report, same, room, look.language),
            (false, _) => message_and_names(report, same, room, look.language),
        };
        lines.push(with_code(same[0], &line, look));
    }
    lines
}

/// The rarer severities are named; everything else in the list is an error, and advice stands under its own head.
fn with_code(finding: &Finding, line: &str, look: &Look) -> String {
    let code = match finding.severity {
        Severity::Warning => {
            format!("{} {}", severity(finding.severity, look.language), finding.code.as_str())
        }
        Severity::Error | Severity::Advice => String::from(finding.code.as_str()),
    };
    JobWords::Named { code: &look.severity(finding.severity, &code), names: line }.say(look.language)
}

fn names_of(findings: &[&Finding]) -> Vec<ElementId> {
    let mut names: Vec<ElementId> = Vec::new();
    for element in findings.iter().filter_map(|finding| finding.element.as_ref()) {
        if !names.contains(element) {
            names.push(element.clone());
        }
    }
    names
}

fn placed(report: &Report<'_>, finding: &Finding, line: String, room: Room, language: Language) -> String {
    match place(report, finding, language).filter(|_| room == Room::Ample) {
        Some(place) => JobWords::At { message: &line, place: &place }.say(language),
        None => line,
    }
}

fn names_alone(report: &Report<'_>, same: &[&Finding], room: Room, language: Language) -> String {
    placed(report, same[0], names_or_title(same, MOST_NAMES, language), room, language)
}

/// Who has it, or what it is where nobody is named.
fn names_or_title(same: &[&Finding], most: usize, language: Language) -> String {
    match (names_of(same).as_slice(), codes::of(same[0].code.as_str())) {
        ([], Some(words)) => words.title(language).to_string(),
        ([], None) => codes::wording(same[0], language).message,
        (names, _) => first_named(names, most, language),
    }
}

fn message_and_names(report: &Report<'_>, same: &[&Finding], room: Room, language: Language) -> String {
    let message = codes::wording(same[0], language).message;
    let names = names_of(same);
    let line = match names.get(1..).unwrap_or_default() {
        [] if same.len() > 1 => JobWords::AndMore { message: &message, more: same.len() - 1 }.say(language),
        [] => message,
        others => JobWords::AndOthers { message: &message, names: &named(others, language) }.say(language),
    };
    placed(report, same[0], line, room, language)
}

/// The line of the site file, or the whole place where it is another file.
fn place(report: &Report<'_>, finding: &Finding, language: Language) -> Option<String> {
    match report.places.of(&finding.origin) {
        Some(place) if place.file == report.name => Some(JobWords::Line { line: place.line }.say(language)),
        _ => report.places.short(&finding.origin, language),
    }
}
