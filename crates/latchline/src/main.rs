//! The command line.
//!
//! Exit status: 0 nothing that counts, 1 findings (or no solution), 2 the command could not run or
//! its input cannot be used. Results go to standard output, everything else to standard error.
#![allow(
    clippy::disallowed_methods,
    reason = "files, clock and environment are read here and passed down to the pure crates"
)]

mod arguments;
mod codes;
mod commands;
mod date;
mod demo_survey;
mod difference;
mod failure;
mod input;
mod load;
mod output;
mod pack_folder;
mod plain_line;
mod plain_network;
mod surroundings;

use arguments::{Arguments, Command};
use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let surroundings = surroundings::Surroundings::read();
    let (mut input, mut output) = (std::io::stdin().lock(), std::io::stdout().lock());
    let result = match &arguments.command {
        Command::New(arguments) => commands::new::run(arguments, &mut output),
        Command::Check(arguments) => commands::check::run(arguments, &surroundings, &mut input, &mut output),
        Command::Design(arguments) => commands::design::run(arguments, &mut output),
        Command::Addresses(arguments) => {
            commands::addresses::run(arguments, &surroundings, &mut input, &mut output)
        }
        Command::Accept(arguments) => commands::accept::run(arguments, &surroundings, &mut output),
        Command::Fix(arguments) => commands::fix::run(arguments, &surroundings, &mut output),
        Command::Draw(arguments) => commands::draw::run(arguments, &surroundings, &mut input, &mut output),
        Command::Catalogue(arguments) => commands::catalogue::run(arguments, &surroundings, &mut output),
        Command::Explain(arguments) => commands::explain::run(arguments, &surroundings, &mut output),
        Command::Schema(arguments) => commands::schema::run(arguments, &mut output),
        Command::Completions(arguments) => commands::completions::run(arguments, &mut output),
        Command::Man(arguments) => commands::man::run(arguments, &mut output),
        Command::Pack(arguments) => commands::pack::run(arguments, &surroundings, &mut input, &mut output),
        Command::Flow(arguments) => commands::flow::run(arguments, &mut input, &mut output),
        Command::Headroom(arguments) => {
            commands::headroom::run(arguments, &surroundings, &mut input, &mut output)
        }
        Command::Reach(arguments) => commands::reach::run(arguments, &mut output),
        Command::Response(arguments) => commands::response::run(arguments, &mut input, &mut output),
    };
    result.unwrap_or_else(|error| failure::report(&error))
}
