//! `latchline completions`: for the shell.

use crate::arguments::Arguments;
use crate::output;
use anyhow::Result;
use clap::{Args, CommandFactory};
use clap_complete::Shell;
use std::io::Write;
use std::process::ExitCode;

/// Print completions for a shell
///
/// For example in bash: `source <(latchline completions bash)`.
#[derive(Debug, Args)]
pub struct CompletionsArguments {
    /// The shell
    #[arg(value_enum)]
    shell: Shell,
}

/// Runs the command.
///
/// # Errors
/// If the completions cannot be written.
pub fn run(arguments: &CompletionsArguments, output: &mut dyn Write) -> Result<ExitCode> {
    let mut text = Vec::new();
    clap_complete::generate(arguments.shell, &mut Arguments::command(), "latchline", &mut text);
    output::put(&String::from_utf8_lossy(&text), output)?;
    Ok(ExitCode::SUCCESS)
}
