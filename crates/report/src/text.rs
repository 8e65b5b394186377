//! The person's output: verdict first, then each supply with its runs, then the findings.
//!
//! Voltages and margins are rounded down and currents up, so that no shown figure is better than
//! the computed one.

mod alike;
mod findings;
mod open;
mod run_table;
mod supplies;
mod troubled;

use self::findings::{findings, in_a_line, in_full};
use self::open::{accepted, assumed, left_open, not_judged};
use self::supplies::{releases, supplies};
use self::troubled::Troubled;
use crate::jobs_text::Room;
use crate::paint::Look;
use crate::report::Report;
use crate::table::paragraph;
use crate::{jobs_text, wording};
use latchline_assess::{Assessment, Verdict};
use latchline_finding::{Finding, Language, Severity};
use latchline_words::report::Remark;

/// How much stands on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// What is to be done first. Of a site that fails only the runs that do; lines of files only where the text is at fault.
    FirstPage,
    /// Every run, every finding with the lines that it points at, every assumed value.
    Lines,
}

/// Lines of the first page of a site that fails, if it can be said in so many.
const MOST_LINES: usize = 80;

/// The report as text. A first page that is too long is said in fewer words: of what is further down, who has it and not how much.
pub fn render(report: &Report<'_>, look: &Look, detail: Detail) -> String {
    let mut text = page(report, look, detail, Room::Ample);
    if detail == Detail::FirstPage && report.jobs.is_some() && report.fails() {
        for room in [Room::Little, Room::Least, Room::Numbers] {
            if text.lines().count() > MOST_LINES {
                text = page(report, look, detail, room);
            }
        }
    }
    text
}

fn page(report: &Report<'_>, look: &Look, detail: Detail, room: Room) -> String {
    let little_room = room > Room::Ample;
    let mut blocks = vec![verdict(report, look)];
    let jobs = report.assessment.zip(report.jobs);
    if let Some((assessment, jobs)) = jobs {
        blocks.push(jobs_text::list(report, assessment, jobs, room, look));
    }
    let shortened = detail == Detail::FirstPage && jobs.is_some();
    let troubled =
        jobs.filter(|_| shortened && report.fails()).map(|(assessment, _)| Troubled::new(assessment));
    if let Some(assessment) = report.assessment {
        let supplies = supplies(assessment, look, troubled.as_ref(), room);
        match little_room {
            // Their heads stand out without empty lines between.
            true => blocks.push(supplies.concat()),
            false => blocks.extend(supplies),
        }
    }
    // An advice is about no mistake of the text: without its lines on a first page.
    let told = |finding: &Finding| match shortened && finding.severity == Severity::Advice {
        true => in_a_line(finding, look),
        false => in_full(report, finding, look),
    };
    let read = report.read.iter().map(|finding| told(finding));
    // Of a site that could be used only warnings and advice were met while it was read.
    let (first, last): (Vec<String>, Vec<String>) = match report.is_unusable() {
        true => (read.collect(), Vec::new()),
        false => (Vec::new(), read.collect()),
    };
    blocks.extend(first);
    match jobs {
        Some((assessment, jobs)) if shortened => {
            blocks.push(jobs_text::causes(report, assessment, jobs, room, look));
            let advice = jobs_text::advice(report, room, look);
            match blocks.last_mut().filter(|_| little_room) {
                Some(causes) => causes.push_str(&advice),
                None => blocks.push(advice),
            }
        }
        _ => blocks.extend(findings(report, look)),
    }
    blocks.extend(last);
    if let Some(assessment) = report.assessment {
        blocks.push(not_judged(assessment, little_room, look));
        if troubled.is_none() {
            blocks.push(assumed(assessment, look));
        }
    }
    blocks.push(accepted(report, look));
    if let Some(assessment) = report.assessment {
        let file = report.file_in_command().filter(|_| troubled.is_some());
        let releases = file.as_ref().and_then(|_| releases(assessment));
        let rest =
            file.as_ref().map(|file| Remark::MoreOnThePage { file, assumed: assessment.assumed.len() });
        let lines = [Some(Remark::Caution), releases, rest].into_iter().flatten();
        let text: Vec<String> = lines.map(|line| line.say(look.language)).collect();
        let text = paragraph(&text.join(" "), 0, look.width);
        blocks.push(format!("{}\n", look.faint(text.trim_end())));
    }
    blocks.retain(|block| !block.trim().is_empty());
    blocks.join("\n")
}

/// How many releases outside calls the states of a site hold, as a sentence; `None` where it has no lock.
pub fn releases_said(assessment: &Assessment, language: Language) -> Option<String> {
    releases(assessment).map(|words| words.say(language))
}

/// How the report begins: what needs no remedies and no jobs to be said, so that whoever asks hears it at once.
pub fn opening(report: &Report<'_>, look: &Look) -> String {
    let (first, second) = wording::verdict(report, look.language);
    let lines = paragraph(&format!("{}: {first}.", report.title()), 0, look.width);
    let lines = lines.trim_end();
    let mut text = match report.assessment.map(|assessment| &assessment.verdict) {
        None | Some(Verdict::Fails) => look.severity(Severity::Error, lines),
        _ if report.counts().errors > 0 => look.severity(Severity::Error, lines),
        Some(Verdict::NotJudged | Verdict::FailsAsAccepted) => look.severity(Severity::Warning, lines),
        Some(Verdict::Holds | Verdict::HoldsOnAssumedData) => look.good(lines),
    };
    text.push('\n');
    if let Some(second) = second {
        text.push_str(&paragraph(&format!("{}.", wording::capital(&second)), 0, look.width));
    }
    if let Some(assessment) = report.assessment.filter(|_| !report.fails()) {
        text.push_str(&left_open(assessment, look));
    }
    text
}

fn verdict(report: &Report<'_>, look: &Look) -> String {
    let mut text = opening(report, look);
    if let Some(jobs) = report.jobs {
        text.push_str(&jobs_text::in_danger(jobs, look));
    }
    text
}
