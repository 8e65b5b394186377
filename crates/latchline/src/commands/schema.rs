//! `latchline schema`: the published forms of files and results.

use crate::output;
use crate::refusal::Result;
use clap::{Args, ValueEnum};
use std::io::Write;
use std::process::ExitCode;

/// Print the JSON Schema of a site file, a catalogue, or a result
///
/// Editors with TOML support use the first two for completion and checks while typing.
#[derive(Debug, Args)]
pub struct SchemaArguments {
    /// Which schema
    #[arg(value_enum, default_value_t = Which::Site)]
    which: Which,
}

/// Which schema.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Which {
    /// The site file
    Site,
    /// The catalogue
    Catalogue,
    /// The result of `check --format json`
    Check,
    /// The result of `check --door NAME --format json`
    Door,
    /// The result of `check --supply NAME --format json`
    Supply,
    /// The result of `compare --format json`
    Compare,
    /// The result of `locate --format json`
    Locate,
    /// The result of `locate --table --format json`
    LocateTable,
}

/// Runs the command.
///
/// # Errors
/// If the schema cannot be written.
pub fn run(arguments: &SchemaArguments, output: &mut dyn Write) -> Result<ExitCode> {
    let schema = match arguments.which {
        Which::Site => latchline_site::schema::site_schema(),
        Which::Catalogue => latchline_site::schema::catalogue_schema(),
        Which::Check => latchline_report::json::schema(),
        Which::Door => latchline_report::json_sheets::door_schema(),
        Which::Supply => latchline_report::json_sheets::supply_schema(),
        Which::Compare => latchline_report::compare::schema(),
        Which::Locate => super::locate::schema(),
        Which::LocateTable => super::locate::table_schema(),
    };
    output::put(&(serde_json::to_string_pretty(&schema)? + "\n"), output)?;
    Ok(ExitCode::SUCCESS)
}
