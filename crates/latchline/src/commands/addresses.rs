//! `latchline addresses`: the number and the switch setting of every device.

use super::locale::LanguageArguments;
use super::written::TextOrJson;
use crate::files::{self, read_text};
use crate::load::Opened;
use crate::refusal::{Refused, Result};
use crate::surroundings::{Colour, Surroundings};
use crate::{codes, load, output};
use clap::Args;
use latchline_finding::{Severity, shown};
use latchline_report::addresses as numbers;
use latchline_report::{Look, Report, short};
use latchline_site::addresses::{FoundList, assign, freeze, read_found_list, reconcile};
use latchline_site::model::Site;
use latchline_site::parse::NameBudget;
use latchline_words::commands::AddressWords;
use latchline_words::refusals::{FileRefusal, NameRefusal, either};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// List the address and the switch settings of every device
///
/// With --found, holds the list of devices that the system itself found after power-up against the
/// plan, and says which wrong switch explains each difference. With --freeze, writes the numbers that
/// follow from names and order into the site file, so that later changes do not move them.
///
/// Exit status: 0 all devices have an address and were found, 1 not, 2 the site cannot be used.
#[derive(Debug, Args)]
pub struct AddressesArguments {
    /// The site file; `-` reads standard input
    site: PathBuf,
    /// Only these stations, each with its switches in characters, its run and what a meter reads there: 27B:2
    #[arg(value_name = "STATION", conflicts_with_all = ["freeze", "found"])]
    stations: Vec<String>,
    /// Form of the result
    #[arg(long, value_enum, default_value_t = TextOrJson::Text)]
    format: TextOrJson,
    /// Write the numbers into the site file
    #[arg(long, conflicts_with = "found")]
    freeze: bool,
    /// List of found devices: one a line, a word (indoor, door, management) and its numbers
    #[arg(long, value_name = "LIST")]
    found: Option<PathBuf>,
    #[command(flatten)]
    language: LanguageArguments,
}

/// Runs the command.
///
/// # Errors
/// If a file cannot be read or written.
pub fn run(
    arguments: &AddressesArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let from_standard_input = arguments.site == Path::new("-");
    if from_standard_input && (arguments.freeze || arguments.found.as_deref() == Some(Path::new("-"))) {
        return Err(FileRefusal::InputTaken.into());
    }
    let mut opened = load::open(&arguments.site, input)?;
    let look = surroundings.look(Colour::Auto, false).in_language(arguments.language.language());
    let view = opened.session.view();
    let Some(site) = view.site() else {
        return super::refuse(&view, &look);
    };
    let plan = assign(site);
    if arguments.freeze {
        return write_numbers(arguments, &mut opened, &freeze(site, &plan), &look, output);
    }
    if let Some(list) = &arguments.found {
        let FoundList { devices, unread } = read_found_list(&read_text(list, input)?);
        if devices.is_empty() {
            return Err(FileRefusal::ListsNoDevice { file: &list.display().to_string() }.into());
        }
        let found = reconcile(site, &plan, &devices);
        let text = match arguments.format {
            TextOrJson::Text => numbers::found::text(site, &plan, &found, &unread, &look),
            TextOrJson::Json => pretty(&numbers::found::document(site, &plan, &found, &unread))?,
        };
        output::put(&text, output)?;
        let agrees = found.missing.is_empty()
            && found.unexpected.is_empty()
            && found.duplicated.is_empty()
            && unread.is_empty();
        return Ok(ExitCode::from(u8::from(!agrees)));
    }
    if !arguments.stations.is_empty() {
        let stations =
            arguments.stations.iter().map(|name| named(site, name)).collect::<Result<Vec<usize>>>()?;
        let readings = view.readings()?;
        let text = match arguments.format {
            TextOrJson::Text => numbers::device::text(site, &plan, readings.as_ref(), &stations, &look),
            TextOrJson::Json => {
                pretty(&numbers::device::documents(site, &plan, readings.as_ref(), &stations))?
            }
        };
        output::put(&text, output)?;
        let complete = stations.iter().all(|station| plan.numbers(*station).is_some());
        return Ok(ExitCode::from(u8::from(!complete)));
    }
    let text = match arguments.format {
        TextOrJson::Text => numbers::text(site, &plan, &look),
        TextOrJson::Json => pretty(&numbers::document(site, &plan))?,
    };
    output::put(&text, output)?;
    let name = &view.sources().file(view.site_file()).name;
    let report = Report::new(name, view.sources(), &plan.findings, None, codes::all());
    // What is wrong with the numbers belongs to the check; here it is said beside the result.
    let _ = std::io::stderr().write_all(short::findings(&report, look.language).as_bytes());
    Ok(ExitCode::from(u8::from(report.fails_at(Severity::Error))))
}

/// The station with this name; of a dwelling alone its main station.
fn named(site: &Site, name: &str) -> Result<usize> {
    let find = |wanted: &str| {
        let same = |id: &str| id.eq_ignore_ascii_case(wanted);
        site.stations.iter().position(|station| same(station.id.as_str()))
    };
    // The main station is the first of its dwelling, whatever its extension number.
    let main = name.strip_suffix(":1");
    if let Some(station) = find(name).or_else(|| find(main?)) {
        return Ok(station);
    }
    let unset = site.supplies.iter().map(|supply| &supply.id).chain(site.boxes.iter().map(|item| &item.id));
    if let Some(id) = unset.into_iter().find(|id| id.as_str().eq_ignore_ascii_case(name)) {
        return Err(NameRefusal::HasNoSwitches { name: id.as_str() }.into());
    }
    let names: Vec<&str> = site.stations.iter().map(|station| station.id.as_str()).collect();
    match NameBudget::default().nearest(name, names.iter().copied()).as_slice() {
        [] => Err(NameRefusal::NoStation { name, stations: names.len() }.into()),
        near => Err(NameRefusal::NoStationNear { name, names: &either(near) }.into()),
    }
}

fn pretty(document: &impl serde::Serialize) -> Result<String> {
    Ok(latchline_report::json::text(document)?)
}

fn write_numbers(
    arguments: &AddressesArguments,
    opened: &mut Opened,
    edit: &latchline_finding::Edit,
    look: &Look,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    if edit.changes.is_empty() {
        let told = AddressWords::AllStated { file: &shown::path(&arguments.site) };
        writeln!(output, "{}", told.say(look.language))?;
        return Ok(ExitCode::SUCCESS);
    }
    let Opened { session, original, .. } = opened;
    session
        .edit(edit)
        .refused(|| FileRefusal::CannotChange { file: &arguments.site.display().to_string() }.both())?;
    files::edit(&arguments.site, original, session.view().text())?;
    let told = AddressWords::Wrote { numbers: edit.changes.len(), file: &shown::path(&arguments.site) };
    writeln!(output, "{}", told.say(look.language))?;
    Ok(ExitCode::SUCCESS)
}
