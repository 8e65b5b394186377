//! `latchline man`: manual pages.

use crate::arguments::Arguments;
use crate::output;
use anyhow::{Result, anyhow};
use clap::{Args, CommandFactory};
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

/// Runs the command.
///
/// # Errors
/// If there is no such command, or the page cannot be written.
pub fn run(arguments: &ManArguments, output: &mut dyn Write) -> Result<ExitCode> {
    let mut root = Arguments::command();
    root.build();
    let command = match &arguments.command {
        None => root,
        Some(name) => root.find_subcommand(name).cloned().ok_or_else(|| {
            let names: Vec<&str> = root.get_subcommands().map(clap::Command::get_name).collect();
            anyhow!("there is no command \"{name}\"; there are {}", names.join(", "))
        })?,
    };
    let mut text = Vec::new();
    clap_mangen::Man::new(command).render(&mut text)?;
    output::put(&String::from_utf8_lossy(&text), output)?;
    Ok(ExitCode::SUCCESS)
}
