//! `latchline compare`: two versions of a site.

use super::locale::LanguageArguments;
use crate::codes;
use crate::files::ResultFile;
use crate::load::{self, Opened};
use crate::refusal::Result;
use crate::surroundings::{Colour, Surroundings};
use clap::{Args, ValueEnum};
use latchline_assess::comparison::Comparison;
use latchline_finding::Sourced;
use latchline_report::compare::{self, Compared};
use latchline_report::{Look, Report, catalogue, json, wording};
use latchline_session::View;
use latchline_site::changes::Changes;
use latchline_site::model::Site;
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

/// Compare two versions of a site: what to buy, pull, move and set again, and what gets better and worse
///
/// Exit status: 0 the new one does not fail, 1 it fails, 2 one of the two cannot be used.
#[derive(Debug, Args)]
pub struct CompareArguments {
    /// The site file as it is
    old: PathBuf,
    /// The site file as it is to become
    new: PathBuf,
    /// Form of the result
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    #[command(flatten)]
    language: LanguageArguments,
    #[command(flatten)]
    result: ResultFile,
}

/// Form of the result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// For a person
    Text,
    /// For programs; its form: latchline schema compare
    Json,
}

/// Runs the command.
///
/// # Errors
/// If a file cannot be read or the result not be written.
pub fn run(
    arguments: &CompareArguments,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    arguments.result.refuse(&[&arguments.old, &arguments.new])?;
    let language = arguments.language.language();
    let look = surroundings.look(Colour::Auto, arguments.result.is_named()).in_language(language);
    let nothing = &mut std::io::empty();
    let Opened { session: old, files: mut of_both, .. } = load::open(&arguments.old, nothing)?;
    let Opened { session: new, files, .. } = load::open(&arguments.new, nothing)?;
    of_both.extend(files);
    let (old, new) = (old.view(), new.view());
    if old.assessment()?.is_none() {
        return super::refuse(&old, &look);
    }
    let Some((text, fails)) = between(&old, &new, arguments.format, &look)? else {
        return super::refuse(&new, &look);
    };
    arguments.result.put(&text, &of_both, output)?;
    Ok(ExitCode::from(u8::from(fails)))
}

/// What is different between two views, and whether the new one fails; `None` if one of them cannot be judged.
///
/// # Errors
/// If the work was given up.
pub(super) fn between(old: &View, new: &View, format: Format, look: &Look) -> Result<Option<(String, bool)>> {
    let (Some(old_site), Some(old_found)) = (old.site(), old.assessment()?) else { return Ok(None) };
    let (Some(new_site), Some(new_found)) = (new.site(), new.assessment()?) else { return Ok(None) };
    let changes = Changes::between(old_site, new_site);
    let comparison = {
        let calls = |site: &Site| {
            let policy = &site.policy;
            let value = |stated: &Option<Sourced<f64>>| stated.as_ref().map(|stated| stated.value);
            let call = policy.call_duration.as_ref().map(|time| time.value.as_seconds());
            (value(&policy.calls_per_hour), call)
        };
        Comparison::between(old_found, new_found, calls(old_site) == calls(new_site))
    };
    let parts =
        catalogue::other_parts((&old_site.catalogue, old.sources()), (&new_site.catalogue, new.sources()));
    let (old_verdict, _) = verdict(old, look)?;
    let (new_verdict, fails) = verdict(new, look)?;
    let compared = Compared {
        old: &old_verdict,
        new: &new_verdict,
        changes: &changes,
        comparison: &comparison,
        parts: &parts,
        currency: &new_site.catalogue.currency,
    };
    let text = match format {
        Format::Text => compare::text(&compared, look),
        Format::Json => {
            let document = compare::document(&compared, word(old)?, word(new)?);
            json::text(&document)?
        }
    };
    Ok(Some((text, fails)))
}

fn report<'a>(view: &'a View, name: &'a str) -> Result<Report<'a>> {
    Ok(Report::new(name, view.sources(), view.reading(), view.assessment()?, codes::all()))
}

/// The name of the site file with its verdict, and whether it fails.
fn verdict(view: &View, look: &Look) -> Result<(String, bool)> {
    let name = &view.sources().file(view.site_file()).name;
    let report = report(view, name)?;
    let (verdict, _) = wording::verdict(&report, look.language);
    let name = latchline_finding::shown::whole(name, &[]);
    Ok((format!("{name}: {verdict}"), report.fails()))
}

/// The word of the verdict as in the check document.
fn word(view: &View) -> Result<&'static str> {
    let name = &view.sources().file(view.site_file()).name;
    Ok(report(view, name)?.verdict_word())
}
