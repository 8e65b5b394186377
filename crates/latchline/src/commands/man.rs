//! `latchline man`: manual pages.

use crate::files::{self, MayReplace};
use crate::refusal::{Refused, Result};
use crate::{date, output};
use clap::{Args, Command};
use latchline_words::refusals::NameRefusal;
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

/// The section of programs that users start.
const SECTION: &str = "1";

/// Print a manual page (roff)
///
/// For example: `latchline man check | man -l -`. With --all, writes the pages of all commands into a folder. A page is dated only if
/// SOURCE_DATE_EPOCH is set.
#[derive(Debug, Args)]
pub struct ManArguments {
    /// The command, such as check or ask lock; without one, the page of latchline itself
    command: Vec<String>,
    /// Write every page into this folder, which is made if it is not there
    #[arg(long, value_name = "FOLDER", conflicts_with = "command")]
    all: Option<PathBuf>,
}

/// Runs the command; `program` is the definition of the whole command line.
///
/// # Errors
/// If there is no such command, or a page cannot be written.
pub fn run(arguments: &ManArguments, program: Command, output: &mut dyn Write) -> Result<ExitCode> {
    let mut program = program.disable_help_subcommand(true);
    program.build();
    let date = date::fixed()?.unwrap_or_default();
    let Some(folder) = &arguments.all else {
        output::put(&page(find(&program, &arguments.command)?, &date)?, output)?;
        return Ok(ExitCode::SUCCESS);
    };
    if !folder.is_dir() {
        files::make_folder(folder)?;
    }
    let mut left = vec![&program];
    let mut pages = 0;
    while let Some(command) = left.pop() {
        let name = format!("{}.{SECTION}", full_name(command));
        files::write(&folder.join(name), page(command, &date)?.as_bytes(), MayReplace::Nothing)?;
        left.extend(command.get_subcommands());
        pages += 1;
    }
    writeln!(output, "wrote {pages} pages into {}", latchline_finding::shown::path(folder))?;
    Ok(ExitCode::SUCCESS)
}

/// The command that these words lead to.
fn find<'c>(program: &'c Command, words: &[String]) -> Result<&'c Command> {
    let mut command = program;
    for word in words {
        let names: Vec<&str> = command.get_subcommands().map(Command::get_name).collect();
        if names.is_empty() {
            let command = &full_name(command).replace('-', " ");
            return Err(NameRefusal::NoFurtherCommands { command }.into());
        }
        command = command
            .find_subcommand(word)
            .refused(|| NameRefusal::NoCommand { command: word, known: &names.join(", ") }.both())?;
    }
    Ok(command)
}

/// The name of its page, with those of the commands that it belongs to.
fn full_name(command: &Command) -> &str {
    command.get_display_name().unwrap_or_else(|| command.get_name())
}

fn page(command: &Command, date: &str) -> Result<String> {
    let mut bytes = Vec::new();
    clap_mangen::Man::new(command.clone()).render(&mut bytes)?;
    let text = String::from_utf8_lossy(&bytes);
    // The generator leaves an empty date away, so that what follows would be read as the date.
    let title = format!(
        ".TH \"{}\" \"{SECTION}\" \"{date}\" \"latchline {}\" \"Latchline\"",
        full_name(command).to_uppercase(),
        env!("CARGO_PKG_VERSION")
    );
    let line =
        |line: &str| if line.starts_with(".TH ") { title.clone() } else { line.trim_end().to_string() };
    let text: Vec<String> = text.lines().map(line).collect();
    // A break before and behind an empty line adds nothing to it, and readers of pages warn of it.
    Ok((text.join("\n") + "\n").replace("\n.br\n\n.br\n", "\n.sp\n"))
}
