//! `latchline explain`: the manual page of a finding's code.

use super::locale::LanguageArguments;
use crate::codes;
use crate::output;
use crate::refusal::Result;
use crate::surroundings::{Colour, Surroundings};
use clap::Args;
use latchline_report::explain;
use latchline_words::symptoms::{self, Meant};
use std::io::Write;
use std::process::ExitCode;

/// Explain a finding's code, or a symptom: what to measure, what it may come of, what to do
///
/// A symptom is told as people tell it: latchline explain no picture. Without anything, lists all codes with their severity and a
/// line each.
#[derive(Debug, Args)]
pub struct ExplainArguments {
    /// The code, as printed with every finding, or what does not work, in a few words
    #[arg(value_name = "CODE OR SYMPTOM")]
    asked: Vec<String>,
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
    let asked = arguments.asked.join(" ");
    let text = match asked.trim() {
        "" => explain::list(&codes::all(), &look),
        code if codes::all().iter().any(|doc| doc.code == *code) => explain::page(codes::find(code)?, &look),
        told => match symptoms::meant_by(told) {
            Meant::Nothing => explain::page(codes::find_for_symptom(told)?, &look),
            Meant::Sure(symptom) => explain::symptom(symptom, &look),
            Meant::Unsure(near) => explain::symptoms(&near, &look),
        },
    };
    output::put(&text, output)?;
    Ok(ExitCode::SUCCESS)
}
