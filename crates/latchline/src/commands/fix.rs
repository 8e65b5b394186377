//! `latchline fix`: applies verified remedies.

use super::sentence;
use crate::difference::difference;
use crate::files::{self, Original};
use crate::load;
use crate::surroundings::Surroundings;
use anyhow::{Context, Result, bail};
use clap::Args;
use latchline_finding::{Finding, Remedy, Severity, shown};
use latchline_remedy::{Bench, Mended, mend, pair, propose};
use latchline_report::english;
use latchline_report::table::hanging;
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
    let loaded = load::load(&arguments.site, &mut std::io::empty())?;
    let Some(site) = &loaded.resolved.site else {
        return super::refuse(&loaded, surroundings);
    };
    let before = &loaded.sources.file(loaded.site_file).text;
    let assessment = latchline_assess::assess(site);
    let bench = Bench::new(&loaded.sources, loaded.site_file, &loaded.catalogues, site, &assessment);
    let open: Vec<&Finding> = assessment
        .findings
        .iter()
        .filter(|finding| finding.accepted.is_none() && finding.severity > Severity::Advice)
        .collect();
    let width = surroundings.width;
    if arguments.all {
        surroundings.working("looking for what mends each finding, and checking the whole after each step");
        let mended = mend(&loaded.sources, loaded.site_file, &loaded.catalogues, site, Severity::Warning);
        show_steps(&mended, width, output)?;
        write!(output, "{}", difference(before, &mended.text))?;
        show_rest(&mended, width, output)?;
        finish(arguments, &loaded.original, &mended.text, output)?;
        // Without --write the file is what it was.
        let left = if arguments.write { &mended.assessment.findings } else { &assessment.findings };
        return Ok(status(left));
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
    let text = latchline_site::edit::apply(before, &remedy.edit).context("cannot apply the remedy")?;
    write!(output, "{}", hanging("", &sentence(finding), width))?;
    write!(output, "{}", hanging("  ", &english::remedy(remedy), width))?;
    write!(output, "{}", difference(before, &text))?;
    finish(arguments, &loaded.original, &text, output)?;
    if !arguments.write {
        return Ok(status(&assessment.findings));
    }
    let after = bench.try_edit(&remedy.edit).context("the changed site cannot be resolved")?;
    Ok(status(&after.assessment.findings))
}

fn remedies_of(bench: &Bench<'_>, finding: &Finding) -> Vec<Remedy> {
    let single = propose(bench, finding);
    if single.is_empty() { pair(bench, finding).into_iter().collect() } else { single }
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
            write!(output, "{}", hanging(&format!("   {}) ", index + 1), &english::remedy(remedy), width))?;
        }
    }
    Ok(())
}

fn show_steps(mended: &Mended, width: usize, output: &mut dyn Write) -> Result<()> {
    for (index, step) in mended.steps.iter().enumerate() {
        write!(output, "{}", hanging(&format!("{}. ", index + 1), &sentence(&step.finding), width))?;
        write!(output, "{}", hanging("   ", &english::remedy(&step.remedy), width))?;
    }
    Ok(())
}

fn show_rest(mended: &Mended, width: usize, output: &mut dyn Write) -> Result<()> {
    let rest: Vec<&Finding> = mended
        .assessment
        .findings
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
