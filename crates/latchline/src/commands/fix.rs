//! `latchline fix`: applies verified remedies.

use super::sentence;
use crate::difference::difference;
use crate::files::{self, Original};
use crate::load::{self, Opened};
use crate::surroundings::Surroundings;
use anyhow::{Context, Result, bail};
use clap::Args;
use latchline_finding::{Finding, Language, Remedy, Severity, shown};
use latchline_remedy::{Bench, pair, propose};
use latchline_report::table::hanging;
use latchline_report::wording;
use latchline_session::Mended;
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

/// Mend findings by remedies that were solved and checked
///
/// Every remedy has been applied to a copy of the site file, resolved and checked as a whole: its finding is
/// gone, and no other has come. Shows the change of the file line by line; writes it only with --write. Without
/// --finding or --all, lists the findings with their remedies. Exit status: 0 nothing of severity error is
/// left, 1 something is, 2 the site cannot be used.
#[derive(Debug, Args)]
pub struct FixArguments {
    /// The site file
    site: PathBuf,
    /// Mend the finding with this number in the list
    #[arg(long, value_name = "NUMBER", conflicts_with = "all")]
    finding: Option<usize>,
    /// Which of its remedies, by number [default: the first, which is the cheapest]
    #[arg(long, value_name = "NUMBER", requires = "finding")]
    remedy: Option<usize>,
    /// Mend every error and warning that can be mended, one after the other
    #[arg(long)]
    all: bool,
    /// Write the changed site file in place of the old one
    #[arg(long)]
    write: bool,
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
    let Opened { mut session, original, .. } = load::open(&arguments.site, &mut std::io::empty())?;
    let view = session.view();
    let (Some(assessment), Some(bench)) = (view.assessment()?, view.bench()?) else {
        return super::refuse(&view, surroundings);
    };
    let before = view.text();
    let open: Vec<&Finding> = assessment
        .findings
        .iter()
        .filter(|finding| finding.accepted.is_none() && finding.severity > Severity::Advice)
        .collect();
    let width = surroundings.width;
    if arguments.all {
        surroundings.working("looking for what mends each finding, and checking the whole after each step");
        let mended = session.mend(Severity::Warning)?;
        let after = session.view();
        let left = after.assessment()?.map_or(&[][..], |after| &after.findings);
        show_steps(&mended, width, output)?;
        write!(output, "{}", difference(before, after.text()))?;
        show_rest(left, width, output)?;
        finish(arguments, &original, after.text(), output)?;
        // Without --write the file is what it was.
        return Ok(status(if arguments.write { left } else { &assessment.findings }));
    }
    let Some(number) = arguments.finding else {
        surroundings.working("looking for what mends each finding");
        list(&bench, &open, width, output)?;
        return Ok(status(&assessment.findings));
    };
    let Some(finding) = number.checked_sub(1).and_then(|index| open.get(index)) else {
        bail!(
            "there is no finding {number}; there are {}: latchline fix {}",
            open.len(),
            arguments.site.display()
        );
    };
    let remedies = remedies_of(&bench, finding);
    let which = arguments.remedy.unwrap_or(1);
    let Some(remedy) = which.checked_sub(1).and_then(|index| remedies.get(index)) else {
        bail!(
            "finding {number} ({}) has {} remedies; number {which} is not one of them",
            sentence(finding),
            remedies.len()
        );
    };
    if !remedy.changes_the_file() {
        write!(output, "{}", hanging("", &sentence(finding), width))?;
        write!(output, "{}", hanging("  ", &wording::remedy(remedy, Language::English), width))?;
        writeln!(output, "nothing to write: the site file has no key for it")?;
        return Ok(status(&assessment.findings));
    }
    session.edit(&remedy.edit).context("cannot apply the remedy")?;
    let after = session.view();
    write!(output, "{}", hanging("", &sentence(finding), width))?;
    write!(output, "{}", hanging("  ", &wording::remedy(remedy, Language::English), width))?;
    write!(output, "{}", difference(before, after.text()))?;
    finish(arguments, &original, after.text(), output)?;
    if !arguments.write {
        return Ok(status(&assessment.findings));
    }
    let after = after.assessment()?.context("the changed site cannot be resolved")?;
    Ok(status(&after.findings))
}

fn remedies_of(bench: &Bench<'_>, finding: &Finding) -> Vec<Remedy> {
    let single = propose(bench, finding);
    let is_mended = single.iter().any(Remedy::changes_the_file);
    if is_mended { single } else { pair(bench, finding).into_iter().chain(single).collect() }
}

/// The findings by number, with their remedies by number.
fn list(bench: &Bench<'_>, open: &[&Finding], width: usize, output: &mut dyn Write) -> Result<()> {
    if open.is_empty() {
        writeln!(output, "nothing to mend")?;
    }
    for (index, finding) in open.iter().enumerate() {
        let number = index + 1;
        let told = format!("{}: {}", finding.severity.word(), sentence(finding));
        write!(output, "{}", hanging(&format!("{number}. "), &told, width))?;
        output.flush()?;
        let remedies = propose(bench, finding);
        if remedies.is_empty() {
            let none = format!(
                "no single change of the kinds that are tried mends this; --finding {number} tries pairs"
            );
            write!(output, "{}", hanging("   ", &none, width))?;
        }
        for (index, remedy) in remedies.iter().enumerate() {
            write!(
                output,
                "{}",
                hanging(&format!("   {}) ", index + 1), &wording::remedy(remedy, Language::English), width)
            )?;
        }
    }
    Ok(())
}

fn show_steps(mended: &Mended, width: usize, output: &mut dyn Write) -> Result<()> {
    for (index, step) in mended.steps.iter().enumerate() {
        write!(output, "{}", hanging(&format!("{}. ", index + 1), &sentence(&step.finding), width))?;
        write!(output, "{}", hanging("   ", &wording::remedy(&step.remedy, Language::English), width))?;
    }
    Ok(())
}

fn show_rest(left: &[Finding], width: usize, output: &mut dyn Write) -> Result<()> {
    let rest: Vec<&Finding> = left
        .iter()
        .filter(|finding| finding.accepted.is_none() && finding.severity > Severity::Advice)
        .collect();
    if rest.is_empty() {
        writeln!(output, "no error or warning is left")?;
    } else {
        let why = "left, because no change of the kinds that are tried mends it, alone or in a pair:";
        write!(output, "{}", hanging("", why, width))?;
        for finding in rest {
            let told = format!("{}: {}", finding.severity.word(), sentence(finding));
            write!(output, "{}", hanging("  ", &told, width))?;
        }
    }
    Ok(())
}

fn finish(arguments: &FixArguments, original: &Original, after: &str, output: &mut dyn Write) -> Result<()> {
    let shown = shown::path(&arguments.site);
    if *original.text == *after {
        return Ok(());
    }
    if arguments.write {
        files::edit(&arguments.site, original, after)?;
        writeln!(output, "written to {shown}")?;
    } else {
        writeln!(output, "not written; add --write to change {shown}")?;
    }
    Ok(())
}

fn status(findings: &[Finding]) -> ExitCode {
    let fails =
        findings.iter().any(|finding| finding.severity == Severity::Error && finding.accepted.is_none());
    ExitCode::from(u8::from(fails))
}
