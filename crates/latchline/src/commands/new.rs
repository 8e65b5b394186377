//! `latchline new`: a starter site, or the demo.

use crate::output;
use anyhow::{Context, Result};
use clap::Args;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

const STARTER: &str = include_str!("../demo/starter.toml");
const DEMO: &[(&str, &str)] = &[
    ("site.toml", include_str!("../demo/site.toml")),
    ("faulty.toml", include_str!("../demo/faulty.toml")),
    ("designed.toml", include_str!("../demo/designed.toml")),
];

/// Write a commented starter site, or the demo
///
/// The starter is a small site that works, with a comment at every step, made to be overwritten with
/// your own. The demo is an invented estate of two blocks, a sibling of it with faults, and its survey with the design made
/// of it.
#[derive(Debug, Args)]
pub struct NewArguments {
    /// The file to write
    #[arg(default_value = "site.toml", conflicts_with = "demo")]
    file: PathBuf,
    /// Write the demo into this folder instead: site.toml, faulty.toml that fails, survey.xlsx to design from, and
    /// designed.toml, which `design` makes of it
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
    let mut written = Vec::new();
    match &arguments.demo {
        None => written.push((arguments.file.clone(), STARTER)),
        Some(folder) => {
            std::fs::create_dir_all(folder)
                .with_context(|| format!("cannot make the folder \"{}\"", folder.display()))?;
            written.extend(DEMO.iter().map(|(name, text)| (folder.join(name), *text)));
        }
    }
    let workbook = arguments.demo.as_ref().map(|folder| folder.join("survey.xlsx"));
    if !arguments.force {
        // All or nothing: look before the first is written.
        for path in written.iter().map(|(path, _)| path).chain(&workbook) {
            output::refuse_existing(path)?;
        }
    }
    for (path, text) in &written {
        output::replace(path, text)?;
    }
    if let Some(file) = &workbook {
        std::fs::write(file, crate::demo_survey::workbook()?)
            .with_context(|| format!("cannot write \"{}\"", file.display()))?;
        writeln!(output, "wrote {}", file.display())?;
    }
    say(&written, output)?;
    Ok(ExitCode::SUCCESS)
}

/// Writes the workbook of a survey to be filled in.
fn survey(file: &Path, force: bool, output: &mut dyn Write) -> Result<ExitCode> {
    if !force {
        output::refuse_existing(file)?;
    }
    let bytes = latchline_survey::template::empty().context("cannot make the workbook")?;
    std::fs::write(file, bytes).with_context(|| format!("cannot write \"{}\"", file.display()))?;
    writeln!(output, "wrote {}", file.display())?;
    writeln!(output, "next: fill it in, then latchline design {} -o site.toml", quoted(file))?;
    Ok(ExitCode::SUCCESS)
}

fn say(written: &[(PathBuf, &str)], output: &mut dyn Write) -> Result<()> {
    for (path, _) in written {
        writeln!(output, "wrote {}", path.display())?;
    }
    if let Some((path, _)) = written.first() {
        writeln!(output, "next: latchline check {}", quoted(path))?;
    }
    Ok(())
}

/// The path as it can be pasted into a shell.
fn quoted(path: &Path) -> String {
    let text = path.display().to_string();
    let plain = |sign: char| sign.is_alphanumeric() || "/._-".contains(sign);
    if text.chars().all(plain) { text } else { format!("'{}'", text.replace('\'', "'\\''")) }
}
