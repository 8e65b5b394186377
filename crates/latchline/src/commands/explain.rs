//! `latchline explain`: the manual page of a finding's code.

use super::locale::LanguageArguments;
use crate::codes;
use crate::output;
use crate::surroundings::{Colour, Surroundings};
use anyhow::Result;
use clap::Args;
use latchline_report::explain;
use std::io::Write;
use std::process::ExitCode;

/// Explain a finding's code: what is checked, why it matters, what to do
///
/// Without a code, lists all codes with their severity and a line each.
#[derive(Debug, Args)]
pub struct ExplainArguments {
    /// The code, as printed in brackets with every finding
    code: Option<String>,
    #[command(flatten)]
    language: LanguageArguments,
}

/// Runs the command.
///
/// # Errors
/// If there is no such code, or the page cannot be written.
pub fn run(
    arguments: &ExplainArguments,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let look = surroundings.look(Colour::Auto, false).in_language(arguments.language.language());
    let text = match &arguments.code {
        Some(code) => explain::page(codes::find(code)?, &look),
        None => explain::list(&codes::all(), &look),
    };
    output::put(&text, output)?;
    Ok(ExitCode::SUCCESS)
}
