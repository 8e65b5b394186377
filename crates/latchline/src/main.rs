//! The command line.
//!
//! Exit status: 0 nothing that counts, 1 findings (or no solution), 2 the command could not run or
//! its input cannot be used. Results go to standard output, everything else to standard error.

mod arguments;
mod codes;
mod commands;
mod date;
mod demo_survey;
mod difference;
mod failure;
mod files;
mod load;
mod output;
mod plain_fault;
mod plain_line;
mod plain_network;
mod refusal;
mod refusal_of;
mod surroundings;
mod typed;
mod usage;

use arguments::{Arguments, Command};
use clap::{CommandFactory, Parser};
use std::io::Write as _;
use std::process::ExitCode;

fn main() -> ExitCode {
    let surroundings = surroundings::Surroundings::read();
    let mut input = std::io::stdin().lock();
    let mut output = output::Answer::new(std::io::stdout().lock(), surroundings.reader_is_gone.clone());
    let result = match Arguments::try_parse() {
        Ok(arguments) => run(&arguments.command, &surroundings, &mut input, &mut output),
        Err(error) => usage::tell(&error, &mut output),
    };
    let flushed = |status| Ok(output.flush().map(|()| status)?);
    result
        .and_then(flushed)
        .unwrap_or_else(|error| failure::report(&error, &files::written(), typed::language()))
}

fn run(
    command: &Command,
    surroundings: &surroundings::Surroundings,
    input: &mut dyn std::io::Read,
    output: &mut dyn std::io::Write,
) -> refusal::Result<ExitCode> {
    match command {
        Command::New(arguments) => commands::new::run(arguments, output),
        Command::Check(arguments) => commands::check::run(arguments, surroundings, input, output),
        Command::Design(arguments) => commands::design::run(arguments, surroundings, output),
        Command::Addresses(arguments) => commands::addresses::run(arguments, surroundings, input, output),
        Command::Ask(arguments) => commands::ask::run(arguments, surroundings, input, output),
        Command::Compare(arguments) => commands::compare::run(arguments, surroundings, output),
        Command::Accept(arguments) => commands::accept::run(arguments, surroundings, output),
        Command::Fix(arguments) => commands::fix::run(arguments, surroundings, output),
        Command::Draw(arguments) => commands::draw::run(arguments, surroundings, input, output),
        Command::Catalogue(arguments) => commands::catalogue::run(arguments, surroundings, output),
        Command::Serve(arguments) => commands::serve::run(arguments, output),
        Command::Explain(arguments) => commands::explain::run(arguments, surroundings, output),
        Command::Schema(arguments) => commands::schema::run(arguments, output),
        Command::Completions(arguments) => {
            commands::completions::run(arguments, Arguments::command(), output)
        }
        Command::Man(arguments) => commands::man::run(arguments, Arguments::command(), output),
        Command::Pack(arguments) => commands::pack::run(arguments, surroundings, input, output),
        Command::Phone(arguments) => commands::phone::run(arguments, surroundings, input, output),
        Command::Readings(arguments) => commands::readings::run(arguments, surroundings, input, output),
        Command::AsBuilt(arguments) => commands::as_built::run(arguments, surroundings, output),
        Command::Flow(arguments) => commands::flow::run(arguments, input, output),
        Command::Headroom(arguments) => commands::headroom::run(arguments, surroundings, input, output),
        Command::Locate(arguments) => commands::locate::run(arguments, surroundings, input, output),
        Command::Practise(arguments) => commands::practise::run(arguments, surroundings, input, output),
        Command::Reach(arguments) => commands::reach::run(arguments, surroundings, output),
        Command::Store(arguments) => commands::store::run(arguments, output),
        Command::Response(arguments) => commands::response::run(arguments, input, output),
    }
}
