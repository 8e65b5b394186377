//! `latchline completions`: for the shell.

use crate::output;
use crate::refusal::Result;
use clap::{Args, Command};
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

/// Runs the command; `program` is the definition of the whole command line.
///
/// # Errors
/// If the completions cannot be written.
pub fn run(
    arguments: &CompletionsArguments,
    mut program: Command,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let mut text = Vec::new();
    clap_complete::generate(arguments.shell, &mut program, "latchline", &mut text);
    output::put(&String::from_utf8_lossy(&text), output)?;
    Ok(ExitCode::SUCCESS)
}
