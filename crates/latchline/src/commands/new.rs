//! `latchline new`: a starter site, or the demo.

use crate::files::{self, MayReplace, refuse_standing};
use crate::output;
use crate::refusal::{Refusal, Result};
use clap::Args;
use latchline_finding::shown;
use latchline_words::refusals::ResultRefusal;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// The site file of the demo.
pub(super) const DEMO_SITE: &str = include_str!("../demo/site.toml");
const STARTER: &str = include_str!("../demo/starter.toml");
const DEMO: &[(&str, &str)] = &[
    ("site.toml", DEMO_SITE),
    ("faulty.toml", include_str!("../demo/faulty.toml")),
    ("designed.toml", include_str!("../demo/designed.toml")),
    ("readings.toml", include_str!("../demo/readings.toml")),
];

/// Write a commented starter site, or the demo
///
/// The starter is a small site that works, with a comment at every step, made to be overwritten with
/// your own. The demo is an invented estate of two blocks, a sibling of it with faults, and its survey with the design made
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
}

/// Runs the command.
///
/// # Errors
/// If a file exists and is not to be replaced, or cannot be written.
pub fn run(arguments: &NewArguments, output: &mut dyn Write) -> Result<ExitCode> {
    if let Some(file) = &arguments.survey {
        return survey(file, arguments.force, output);
    }
    if arguments.demo.is_none() && arguments.file == Path::new("-") {
        output::put(STARTER, output)?;
        return Ok(ExitCode::SUCCESS);
    }
    let written: Vec<(PathBuf, &str)> = match &arguments.demo {
        None => vec![(arguments.file.clone(), STARTER)],
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
        files::write(file, &crate::demo_survey::workbook()?, may_replace)?;
        writeln!(output, "wrote {}", shown::path(file))?;
    }
    say(&written, output)?;
    Ok(ExitCode::SUCCESS)
}

/// Writes the workbook of a survey to be filled in.
fn survey(file: &Path, force: bool, output: &mut dyn Write) -> Result<ExitCode> {
    let may_replace = may_replace(force);
    refuse_standing(file, may_replace)?;
    let bytes = latchline_survey::template::empty()
        .map_err(|error| Refusal::of_library(&error).within(ResultRefusal::NoWorkbook))?;
    files::write(file, &bytes, may_replace)?;
    writeln!(output, "wrote {}", shown::path(file))?;
    writeln!(output, "next: fill it in, then latchline design {} -o site.toml", quoted(file))?;
    Ok(ExitCode::SUCCESS)
}

fn may_replace(force: bool) -> MayReplace<'static> {
    if force { MayReplace::Anything } else { MayReplace::Nothing }
}

fn say(written: &[(PathBuf, &str)], output: &mut dyn Write) -> Result<()> {
    for (path, _) in written {
        writeln!(output, "wrote {}", shown::path(path))?;
    }
    if let Some((path, _)) = written.first() {
        writeln!(output, "next: latchline check {}", quoted(path))?;
    }
    Ok(())
}

/// The path as it can be pasted into a shell.
fn quoted(path: &Path) -> String {
    let text = shown::whole(&path.to_string_lossy(), &[]).into_owned();
    let plain = |sign: char| sign.is_alphanumeric() || "/._-".contains(sign);
    if text.chars().all(plain) { text } else { format!("'{}'", text.replace('\'', "'\\''")) }
}
