//! `latchline headroom`: how much more a site carries.

use crate::surroundings::Surroundings;
use crate::{load, output};
use anyhow::Result;
use clap::{Args, ValueEnum};
use latchline_reach::{Headroom, MOST_METRES, MOST_MORE, headroom};
use serde::Serialize;
use std::fmt::Write as _;
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

/// How many more stations of each model, and how many more metres, each run and supply carries
///
/// Each figure is found by adding to a copy of the site and checking the whole of it again; beside it
/// stands the finding that one more would bring.
#[derive(Debug, Args)]
pub struct HeadroomArguments {
    /// The site file; `-` reads standard input
    site: PathBuf,
    /// Form of the result
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Write the result to this file instead of standard output
    #[arg(long, value_name = "FILE")]
    output: Option<PathBuf>,
}

/// Form of the result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For a person
    Text,
    /// For programs
    Json,
}

/// Runs the command.
///
/// # Errors
/// If the site cannot be read or the result not be written.
pub fn run(
    arguments: &HeadroomArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    output::refuse_input(&arguments.site, arguments.output.as_deref())?;
    let loaded = load::load(&arguments.site, input)?;
    let Some(site) = &loaded.resolved.site else { return super::refuse(&loaded, surroundings) };
    let assessment = latchline_assess::assess(site);
    let list = headroom(site, &assessment);
    let text = match arguments.format {
        Format::Text => words(&list),
        Format::Json => json(&list)?,
    };
    output::put(&text, arguments.output.as_deref(), output)?;
    Ok(ExitCode::SUCCESS)
}

fn words(list: &[Headroom]) -> String {
    let mut text = String::new();
    let Some(first) = list.first() else { return String::from("nothing carries stations yet\n") };
    let name_width = list.iter().map(|one| one.id.as_str().chars().count()).max().unwrap_or(0).max(8);
    let columns: Vec<usize> =
        first.stations.iter().map(|more| more.model.chars().count().max(6) + 2).collect();
    let _ = write!(
        text,
        "More stations of one model, or more metres, on each supply and run\n\n{:<name_width$}",
        ""
    );
    for (more, width) in first.stations.iter().zip(&columns) {
        let _ = write!(text, "{:>width$}", more.model);
    }
    let _ = writeln!(text, "{:>8}  first limit", "metres");
    for one in list {
        let _ = write!(text, "{:<name_width$}", one.id);
        for (more, width) in one.stations.iter().zip(&columns) {
            let _ = write!(text, "{:>width$}", at_most(more.stations, MOST_MORE));
        }
        let metres = one.metres.as_ref().map_or(String::from("-"), |more| at_most(more.metres, MOST_METRES));
        let mut limits: Vec<&str> = one.stations.iter().filter_map(|more| more.limit).collect();
        limits.extend(one.metres.as_ref().and_then(|more| more.limit));
        limits.sort_unstable();
        limits.dedup();
        let _ = writeln!(text, "{metres:>8}  {}", limits.join(", "));
    }
    text.push_str("\nEach figure alone: what one row uses up, another no longer has. A calculation, not a certificate.\n");
    text
}

fn at_most(count: usize, highest: usize) -> String {
    if count == highest { format!("{count}+") } else { count.to_string() }
}

#[derive(Serialize)]
struct Document {
    format_version: u32,
    headroom: Vec<OfElement>,
}

#[derive(Serialize)]
struct OfElement {
    element: String,
    stations: Vec<OfModel>,
    #[serde(skip_serializing_if = "Option::is_none")]
    metres: Option<Counted>,
}

#[derive(Serialize)]
struct OfModel {
    model: String,
    #[serde(flatten)]
    counted: Counted,
}

#[derive(Serialize)]
struct Counted {
    more: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<&'static str>,
}

fn json(list: &[Headroom]) -> Result<String> {
    let headroom = list
        .iter()
        .map(|one| OfElement {
            element: one.id.to_string(),
            stations: one
                .stations
                .iter()
                .map(|more| OfModel {
                    model: more.model.clone(),
                    counted: Counted { more: more.stations, limit: more.limit },
                })
                .collect(),
            metres: one.metres.as_ref().map(|more| Counted { more: more.metres, limit: more.limit }),
        })
        .collect();
    Ok(serde_json::to_string_pretty(&Document { format_version: 1, headroom })? + "\n")
}
