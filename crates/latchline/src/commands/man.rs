//! `latchline man`: manual pages.

use crate::output;
use anyhow::{Result, anyhow};
use clap::{Args, Command};
use std::io::Write;
use std::process::ExitCode;

/// Print a manual page (roff)
///
/// For example: `latchline man check | man -l -`.
#[derive(Debug, Args)]
pub struct ManArguments {
    /// The command; without one, the page of latchline itself
    command: Option<String>,
}

/// Runs the command; `program` is the definition of the whole command line.
///
/// # Errors
/// If there is no such command, or the page cannot be written.
pub fn run(arguments: &ManArguments, mut program: Command, output: &mut dyn Write) -> Result<ExitCode> {
    program.build();
    let command = match &arguments.command {
        None => program,
        Some(name) => program.find_subcommand(name).cloned().ok_or_else(|| {
            let names: Vec<&str> = program.get_subcommands().map(Command::get_name).collect();
            anyhow!("there is no command \"{name}\"; there are {}", names.join(", "))
        })?,
    };
    let mut text = Vec::new();
    clap_mangen::Man::new(command).render(&mut text)?;
    output::put(&String::from_utf8_lossy(&text), output)?;
    Ok(ExitCode::SUCCESS)
}
