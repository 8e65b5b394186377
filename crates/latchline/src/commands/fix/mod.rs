//! `latchline fix`: applies verified remedies.

mod job;
mod names;
mod unmended;

use self::job::{Asked, by_job, job};
use self::names::{JobName, finding_name, job_name};
use self::unmended::{no_change, tried};
use crate::commands::locale::LanguageArguments;
use crate::commands::sentence;
use crate::difference::difference;
use crate::files::{self, Original};
use crate::load::{self, Opened};
use crate::refusal::{Refusal, Refused, Result};
use crate::surroundings::{Colour, Surroundings};
use clap::Args;
use latchline_assess::Assessment;
use latchline_finding::{Finding, Remedy, Severity, shown};
use latchline_remedy::{Bench, offered};
use latchline_report::table::hanging;
use latchline_report::{Look, job_change, wording};
use latchline_session::{Mended, Session, View};
use latchline_site::changes::dwellings_to_enter;
use latchline_words::commands::FixWords;
use latchline_words::refusals::{NameRefusal, SiteRefusal};
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
        return crate::commands::refuse(&view, look);
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
