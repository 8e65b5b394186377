//! `latchline new`: a starter site, or the demo.

use super::locale::LanguageArguments;
use crate::files::{self, MayReplace, refuse_standing};
use crate::output;
use crate::refusal::{Refusal, Result};
use clap::Args;
use latchline_finding::{Language, shown};
use latchline_words::commands::{NewWords, WrittenWords};
use latchline_words::refusals::ResultRefusal;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// The site file of the demo.
pub(super) const DEMO_SITE: &str = include_str!("../demo/site.toml");
const STARTER: &str = include_str!("../demo/starter.toml");
/// The same with German comments.
const STARTER_GERMAN: &str = include_str!("../demo/starter-de.toml");
const DEMO: &[(&str, &str)] = &[
    ("site.toml", DEMO_SITE),
    ("faulty.toml", include_str!("../demo/faulty.toml")),
    ("designed.toml", include_str!("../demo/designed.toml")),
    ("readings.toml", include_str!("../demo/readings.toml")),
];

/// Write a commented starter site, or the demo
///
/// The starter is a small site that works, with a comment at every step, made to be overwritten with
/// your own. With `--language de` its comments are German. The demo is an invented estate of two blocks, a sibling of it with faults, and its survey with the design made
/// of it; with it readings of a hidden fault.
#[derive(Debug, Args)]
pub struct NewArguments {
    /// The file to write; `-` for standard output
    #[arg(default_value = "site.toml", conflicts_with = "demo")]
    file: PathBuf,
    /// Write the demo into this folder instead: site.toml, faulty.toml that fails, survey.xlsx to design from,
    /// designed.toml, which `design` makes of it, and readings.toml of a hidden fault for `locate`
    #[arg(long, value_name = "DIR")]
    demo: Option<PathBuf>,
    /// Write an empty survey to fill in instead: an XLSX workbook with lists to choose from
    #[arg(long, value_name = "FILE", conflicts_with_all = ["file", "demo"])]
    survey: Option<PathBuf>,
    /// Replace files that exist
    #[arg(long)]
    force: bool,
    #[command(flatten)]
    language: LanguageArguments,
}

/// The starter with comments in a language.
fn starter(language: Language) -> &'static str {
    match language {
        Language::English => STARTER,
        Language::German => STARTER_GERMAN,
    }
}

/// Runs the command.
///
/// # Errors
/// If a file exists and is not to be replaced, or cannot be written.
pub fn run(arguments: &NewArguments, output: &mut dyn Write) -> Result<ExitCode> {
    let language = arguments.language.language();
    if let Some(file) = &arguments.survey {
        return survey(file, arguments.force, language, output);
    }
    if arguments.demo.is_none() && arguments.file == Path::new("-") {
        output::put(starter(language), output)?;
        return Ok(ExitCode::SUCCESS);
    }
    let written: Vec<(PathBuf, &str)> = match &arguments.demo {
        None => vec![(arguments.file.clone(), starter(language))],
        Some(folder) => DEMO.iter().map(|(name, text)| (folder.join(name), *text)).collect(),
    };
    let workbook = arguments.demo.as_ref().map(|folder| folder.join("survey.xlsx"));
    let may_replace = may_replace(arguments.force);
    // All or nothing: look before the first is written.
    for path in written.iter().map(|(path, _)| path).chain(&workbook) {
        refuse_standing(path, may_replace)?;
    }
    if let Some(folder) = &arguments.demo {
        files::make_folder(folder)?;
    }
    for (path, text) in &written {
        files::write(path, text.as_bytes(), may_replace)?;
    }
    if let Some(file) = &workbook {
        files::write(file, &crate::demo_survey::workbook(language)?, may_replace)?;
        wrote(file, language, output)?;
    }
    say(&written, language, output)?;
    Ok(ExitCode::SUCCESS)
}

/// Writes the workbook of a survey to be filled in.
fn survey(file: &Path, force: bool, language: Language, output: &mut dyn Write) -> Result<ExitCode> {
    let may_replace = may_replace(force);
    refuse_standing(file, may_replace)?;
    let bytes = latchline_survey::template::empty(language)
        .map_err(|error| Refusal::of_library(&error).within(ResultRefusal::NoWorkbook))?;
    files::write(file, &bytes, may_replace)?;
    wrote(file, language, output)?;
    writeln!(
        output,
        "{}",
        NewWords::NextDesign { file: &shown::for_shell(&file.to_string_lossy()) }.say(language)
    )?;
    Ok(ExitCode::SUCCESS)
}

fn may_replace(force: bool) -> MayReplace<'static> {
    if force { MayReplace::Anything } else { MayReplace::Nothing }
}

fn wrote(file: &Path, language: Language, output: &mut dyn Write) -> Result<()> {
    Ok(writeln!(output, "{}", WrittenWords::Wrote { file: &shown::path(file) }.say(language))?)
}

fn say(written: &[(PathBuf, &str)], language: Language, output: &mut dyn Write) -> Result<()> {
    for (path, _) in written {
        wrote(path, language, output)?;
    }
    if let Some((path, _)) = written.first() {
        writeln!(
            output,
            "{}",
            WrittenWords::NextCheck { file: &shown::for_shell(&path.to_string_lossy()) }.say(language)
        )?;
    }
    Ok(())
}
