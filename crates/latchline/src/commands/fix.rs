//! `latchline fix`: applies verified remedies.

use super::fix_unmended::{no_change, tried};
use super::locale::LanguageArguments;
use super::sentence;
use crate::difference::difference;
use crate::files::{self, Original};
use crate::load::{self, Opened};
use crate::refusal::{Refusal, Refused, Result};
use crate::surroundings::{Colour, Surroundings};
use clap::Args;
use latchline_assess::Assessment;
use latchline_assess::jobs::{Job, JobChange};
use latchline_finding::{Edit, ElementId, Finding, Remedy, Severity, shown};
use latchline_remedy::{Bench, again, of_kind, offered, pair};
use latchline_report::table::hanging;
use latchline_report::{Look, job_change, wording};
use latchline_session::{Mended, Session, View};
use latchline_site::changes::dwellings_to_enter;
use latchline_words::commands::FixWords;
use latchline_words::refusals::{ArgumentRefusal, NameRefusal, SiteRefusal};
use latchline_words::report::{remedy_kind, severity};
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

/// Mend findings by remedies that were calculated and checked
///
/// Every remedy was made in a copy of the site file, and the copy was checked as a whole: its finding is gone, no new
/// error has come, and any other new finding is named. Shows the change of the file line by line; writes it only with --write. Without
/// --finding or --all, lists the findings with their remedies. Exit status: 0 nothing of severity error is
/// left, 1 something is, 2 the site cannot be used.
#[derive(Debug, Args)]
pub struct FixArguments {
    /// The site file
    site: PathBuf,
    /// Mend the finding of this name in the list of fix: F3
    #[arg(long, value_name = "FINDING", value_parser = finding_name, conflicts_with = "all")]
    finding: Option<usize>,
    /// Do the job of this name in the list of check: J3, or what it mends, which stays its name when others are done:
    /// voltage-too-low:A-4, with =KIND by a change of that kind
    #[arg(long, value_name = "JOB", value_parser = job_name, conflicts_with_all = ["all", "finding"])]
    job: Option<JobName>,
    /// Which change of that finding, by number [default: the first, which is the cheapest]
    #[arg(long, value_name = "NUMBER", requires = "finding")]
    remedy: Option<usize>,
    /// Mend every error and warning that can be mended, one after the other
    #[arg(long)]
    all: bool,
    /// Write the changed site file in place of the old one
    #[arg(long)]
    write: bool,
    #[command(flatten)]
    language: LanguageArguments,
}

/// How a job is asked for.
#[derive(Debug, Clone, PartialEq)]
enum JobName {
    /// Its number in the list of check, from 1.
    Number(usize),
    /// A finding that it mends: code, and whom it is about, or several of the same; and the kind of change that is wanted.
    Finding { code: String, elements: Vec<String>, kind: Option<String> },
}

/// 3 of "J3" or "3"; "voltage-too-low", "A-4" and "doubled-pair" of "voltage-too-low:A-4=doubled-pair".
fn job_name(text: &str) -> Result<JobName> {
    if let Some(number) = named_number(text, 'J') {
        return Ok(JobName::Number(number));
    }
    if let Some(number) = named_number(text, 'F') {
        return Err(ArgumentRefusal::FindingNotJob { number }.into());
    }
    let (finding, kind) = match text.rsplit_once('=') {
        Some((finding, kind)) => (finding, Some(kind.to_string())),
        None => (text, None),
    };
    let (code, elements) = match finding.split_once(':') {
        Some((code, elements)) => (code, elements.split(',').map(str::to_string).collect()),
        None => (finding, Vec::new()),
    };
    match latchline_words::codes::of(code) {
        Some(_) => Ok(JobName::Finding { code: code.to_string(), elements, kind }),
        None => Err(ArgumentRefusal::NoJobName { text }.into()),
    }
}

/// The number in the name of a finding: 3 of "F3" or "3".
fn finding_name(text: &str) -> Result<usize> {
    named_number(text, 'F').ok_or_else(|| {
        match named_number(text, 'J') {
            Some(number) => ArgumentRefusal::JobNotFinding { number },
            None => ArgumentRefusal::NoFindingName { text },
        }
        .into()
    })
}

fn named_number(text: &str, letter: char) -> Option<usize> {
    let text = text.trim();
    let number = text.strip_prefix([letter, letter.to_ascii_lowercase()]).unwrap_or(text);
    number.parse().ok()
}

/// Runs the command.
///
/// # Errors
/// If the site cannot be used, there is no such finding or remedy, or the file cannot be written.
pub fn run(
    arguments: &FixArguments,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let look = &surroundings.look(Colour::Never, false).in_language(arguments.language.language());
    load::refuse_standard_input(&arguments.site)?;
    let Opened { mut session, original, .. } = load::open(&arguments.site, &mut std::io::empty())?;
    let view = session.view();
    let (Some(assessment), Some(bench)) = (view.assessment()?, view.bench()?) else {
        return super::refuse(&view, look);
    };
    let before = view.text();
    let all = assessment.findings.iter().enumerate();
    let open: Vec<(usize, &Finding)> = all.filter(|(_, finding)| finding.is_to_be_mended()).collect();
    if arguments.all {
        surroundings.working(&FixWords::LookingForAll.say(look.language));
        let mended = session.mend(Severity::Warning)?;
        let after = session.view();
        let left = after.assessment()?.map_or(&[][..], |after| &after.findings);
        show_steps(&mended, currency(&view), look, output)?;
        write!(output, "{}", difference(before, after.text()))?;
        show_rest(left, look, output)?;
        finish(arguments, &original, after.text(), look, output)?;
        // Without --write the file is what it was.
        return Ok(status(if arguments.write { left } else { &assessment.findings }));
    }
    if let Some(name) = &arguments.job {
        surroundings.working(&FixWords::Looking.say(look.language));
        let Asked { finding, remedy, is_as_it_is, listed } = job(&view, &bench, name)?;
        if let Some(kind) = listed {
            let change = &*remedy_kind(kind, look.language);
            let words = FixWords::OtherThanListed { change }.say(look.language);
            write!(output, "{}", hanging("", &words, look.width))?;
        }
        if is_as_it_is && remedy.is_some() {
            write!(output, "{}", hanging("", &FixWords::AsItIsNow.say(look.language), look.width))?;
        }
        let Some(remedy) = remedy else {
            write!(output, "{}", hanging("", &told(&finding, look), look.width))?;
            no_change(&finding, "  ", look, output)?;
            tried(&bench, &finding, look, output)?;
            return Ok(status(&assessment.findings));
        };
        return make(arguments, &mut session, &original, &finding, &remedy, assessment, look, output);
    }
    let Some(number) = arguments.finding else {
        surroundings.working(&FixWords::Looking.say(look.language));
        list(&view, &bench, &open, look, output)?;
        return Ok(status(&assessment.findings));
    };
    let Some((at, finding)) = number.checked_sub(1).and_then(|index| open.get(index)) else {
        let file = &arguments.site.display().to_string();
        return Err(NameRefusal::NoFinding { number, all: open.len(), file }.into());
    };
    let remedies = offered(&bench, finding);
    if let (true, Some(which)) = (remedies.is_empty(), arguments.remedy) {
        let said = |language| {
            SiteRefusal::NoChange { number, finding: &sentence(finding, language), which }.say(language)
        };
        return Err(Refusal::in_each(said));
    }
    if remedies.is_empty() {
        write!(output, "{}", hanging("", &told(finding, look), look.width))?;
        if let Some(job) = by_job(&view, *at, &[], look)? {
            write!(output, "{}", hanging("  ", &job.words, look.width))?;
            if job.does_now {
                return Ok(status(&assessment.findings));
            }
        }
        no_change(finding, "  ", look, output)?;
        tried(&bench, finding, look, output)?;
        return Ok(status(&assessment.findings));
    }
    let which = arguments.remedy.unwrap_or(1);
    let Some(remedy) = which.checked_sub(1).and_then(|index| remedies.get(index)) else {
        let changes = remedies.len();
        let said = |language| {
            SiteRefusal::NoSuchChange { number, finding: &sentence(finding, language), changes, which }
                .say(language)
        };
        return Err(Refusal::in_each(said));
    };
    make(arguments, &mut session, &original, finding, remedy, assessment, look, output)
}

/// A job that was asked for.
struct Asked {
    /// Its first finding.
    finding: Finding,
    /// The change that does it, if one is known, alone or in a pair.
    remedy: Option<Remedy>,
    /// Whether that does it on the site as it is, and none does once the jobs before it are done.
    is_as_it_is: bool,
    /// The kind of the change in the list, where that is another.
    listed: Option<&'static str>,
}

/// A job of `check` that mends a finding.
struct ByJob {
    words: String,
    /// Whether it does on the site as it is, and not only once the jobs before it are done.
    does_now: bool,
}

/// The job of `check` that mends a finding by a change that is none of its own.
fn by_job(view: &View, finding: usize, own: &[Remedy], look: &Look) -> Result<Option<ByJob>> {
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
fn job(view: &View, bench: &Bench<'_>, name: &JobName) -> Result<Asked> {
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

/// The currency of the site's prices, if its catalogue names one.
fn currency(view: &View) -> Option<&str> {
    view.site().map(|site| site.catalogue.currency.as_str()).filter(|word| !word.is_empty())
}

/// Shows a change and makes it if that is wanted.
#[allow(clippy::too_many_arguments, reason = "what a command was given, what it found, and where to say it")]
fn make(
    arguments: &FixArguments,
    session: &mut Session,
    original: &Original,
    finding: &Finding,
    remedy: &Remedy,
    assessment: &Assessment,
    look: &Look,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let view = session.view();
    let (before, currency) = (view.text().to_string(), currency(&view));
    if !remedy.changes_the_file() {
        write!(output, "{}", hanging("", &sentence(finding, look.language), look.width))?;
        write!(output, "{}", hanging("  ", &wording::remedy(remedy, currency, look.language), look.width))?;
        let why =
            if remedy.measure.is_some() { FixWords::NothingBeforeMeasured } else { FixWords::NothingToWrite };
        writeln!(output, "{}", why.say(look.language))?;
        return Ok(status(&assessment.findings));
    }
    session.edit(&remedy.edit).refused(|| SiteRefusal::CannotApply)?;
    let after = session.view();
    write!(output, "{}", hanging("", &sentence(finding, look.language), look.width))?;
    write!(output, "{}", hanging("  ", &wording::remedy(remedy, currency, look.language), look.width))?;
    if let (Some(old), Some(new)) = (view.site(), after.site()) {
        let entered = job_change::entered(&dwellings_to_enter(old, new), look.language);
        write!(output, "{}", hanging("  ", &entered, look.width))?;
    }
    write!(output, "{}", difference(&before, after.text()))?;
    finish(arguments, original, after.text(), look, output)?;
    if !arguments.write {
        return Ok(status(&assessment.findings));
    }
    let after = after.assessment()?.refused(|| SiteRefusal::ChangedUnusable)?;
    Ok(status(&after.findings))
}

/// The findings by number, with their remedies by number.
fn list(
    view: &View,
    bench: &Bench<'_>,
    open: &[(usize, &Finding)],
    look: &Look,
    output: &mut dyn Write,
) -> Result<()> {
    if open.is_empty() {
        let things = bench.assessment.not_judged.len();
        let file = &shown::whole(&view.sources().file(view.site_file()).name, &[]);
        let words = match things {
            0 => FixWords::NothingToMend,
            things => FixWords::NotAllJudged { things, file },
        };
        writeln!(output, "{}", hanging("", &words.say(look.language), look.width))?;
    } else {
        let file = &view.sources().file(view.site_file()).name;
        let head = FixWords::ListHead { file: &shown::whole(file, &[]) }.say(look.language);
        writeln!(output, "{}", hanging("", &head, look.width))?;
    }
    let currency = currency(view);
    for (index, (at, finding)) in open.iter().enumerate() {
        let number = index + 1;
        let told = told(finding, look);
        write!(output, "{}", hanging(&format!("{:<3} ", format!("F{number}")), &told, look.width))?;
        output.flush()?;
        let remedies = offered(bench, finding);
        let by_job = by_job(view, *at, &remedies, look)?;
        match &by_job {
            Some(job) => write!(output, "{}", hanging("    ", &job.words, look.width))?,
            None if remedies.is_empty() => no_change(finding, "    ", look, output)?,
            None => {}
        }
        if let Some(hint) = job_change::look_first(finding, look.language).filter(|_| !remedies.is_empty()) {
            let first = FixWords::LookFirst { hint: &hint }.say(look.language);
            write!(output, "{}", hanging("    ", &first, look.width))?;
        }
        for (index, remedy) in remedies.iter().enumerate() {
            let remedy = wording::remedy(remedy, currency, look.language);
            write!(
                output,
                "{}",
                hanging(
                    &format!("    {} ", FixWords::Change { number: index + 1 }.say(look.language)),
                    &remedy,
                    look.width
                )
            )?;
        }
    }
    Ok(())
}

fn show_steps(mended: &Mended, currency: Option<&str>, look: &Look, output: &mut dyn Write) -> Result<()> {
    for step in &mended.steps {
        write!(output, "{}", hanging("- ", &sentence(&step.finding, look.language), look.width))?;
        let remedy = wording::remedy(&step.remedy, currency, look.language);
        write!(output, "{}", hanging("  ", &remedy, look.width))?;
    }
    if !mended.dropped.is_empty() {
        write!(output, "{}", hanging("", &FixWords::Dropped.say(look.language), look.width))?;
        for step in &mended.dropped {
            let remedy = Remedy { value_after: None, ..step.remedy.clone() };
            write!(
                output,
                "{}",
                hanging("- ", &wording::remedy(&remedy, currency, look.language), look.width)
            )?;
        }
    }
    Ok(())
}

fn show_rest(left: &[Finding], look: &Look, output: &mut dyn Write) -> Result<()> {
    let rest: Vec<&Finding> = left.iter().filter(|finding| finding.is_to_be_mended()).collect();
    if rest.is_empty() {
        writeln!(output, "{}", FixWords::NothingLeft.say(look.language))?;
    } else {
        write!(output, "{}", hanging("", &FixWords::Left.say(look.language), look.width))?;
        for finding in rest {
            write!(output, "{}", hanging("  ", &told(finding, look), look.width))?;
        }
    }
    Ok(())
}

/// A finding with its severity.
fn told(finding: &Finding, look: &Look) -> String {
    let severity = severity(finding.severity, look.language);
    FixWords::Severity { severity, finding: &sentence(finding, look.language) }.say(look.language)
}

fn finish(
    arguments: &FixArguments,
    original: &Original,
    after: &str,
    look: &Look,
    output: &mut dyn Write,
) -> Result<()> {
    let file = &shown::path(&arguments.site);
    if *original.text == *after {
        return Ok(());
    }
    if arguments.write {
        files::edit(&arguments.site, original, after)?;
        writeln!(output, "{}", FixWords::Written { file }.say(look.language))?;
    } else {
        writeln!(output, "{}", FixWords::NotWritten { file }.say(look.language))?;
    }
    Ok(())
}

fn status(findings: &[Finding]) -> ExitCode {
    let fails =
        findings.iter().any(|finding| finding.severity == Severity::Error && finding.accepted.is_none());
    ExitCode::from(u8::from(fails))
}
