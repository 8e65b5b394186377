//! Addresses and switch settings, and the plan held against what the system found.

use crate::paint::Look;
use crate::table::{Column, Set, Table, paragraph};
use crate::template::plain;
use latchline_finding::{Language, Severity};
use latchline_site::addresses::{
    AddressPlan, Cause, DeviceClass, Explanation, Reconciliation, StationAddress, SwitchSetting, fields_of,
    settings,
};
use latchline_site::model::Site;
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt::Write;

/// Addresses and switch settings of a site.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AddressDocument {
    /// The family whose scheme holds.
    family: String,
    /// Whether devices read a changed setting at power-up only.
    latched_at_power_up: bool,
    /// One per station, in the order of the site.
    stations: Vec<StationDocument>,
}

/// Address of a station.
#[derive(Debug, Serialize, JsonSchema)]
struct StationDocument {
    /// The station.
    id: String,
    /// "indoor", "door" or "management".
    class: &'static str,
    /// Model name.
    model: String,
    /// Building, core and floor in words.
    place: String,
    /// Its numbers in the order of the scheme; empty if it could not be given an address.
    fields: Vec<FieldDocument>,
}

/// One number of an address.
#[derive(Debug, Serialize, JsonSchema)]
struct FieldDocument {
    /// "building", "entrance", "dwelling", "extension" or "management".
    field: &'static str,
    /// Label beside the switches.
    label: String,
    /// The number.
    number: u32,
    /// How it is set.
    #[serde(skip_serializing_if = "Option::is_none")]
    setting: Option<SettingDocument>,
}

/// Positions of the switches of a field.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "kebab-case")]
enum SettingDocument {
    /// Rotary switches, most significant first.
    Rotary {
        /// Positions of each.
        positions: u32,
        /// Where each points.
        at: Vec<u32>,
    },
    /// On/off switches.
    Dip {
        /// Number printed on the first.
        first_switch: u32,
        /// Which are ON, in the order they are printed.
        on: Vec<bool>,
    },
    /// Jumpers.
    Jumpers {
        /// Which are fitted, in the order they are printed.
        fitted: Vec<bool>,
    },
    /// Keyed in.
    Keyed {
        /// The digits.
        digits: String,
    },
}

/// The addresses for programs.
pub fn document(site: &Site, plan: &AddressPlan) -> AddressDocument {
    let stations = plan.stations.iter().filter_map(|address| {
        let station = site.stations.get(address.station)?;
        let numbers = address.numbers.iter().flatten();
        Some(StationDocument {
            id: station.id.to_string(),
            class: address.class.word(),
            model: station.model.value.clone(),
            place: site.place_words(site.station_place(station)).of(Language::English).to_string(),
            fields: fields_of(site, address.class)
                .iter()
                .zip(numbers)
                .map(|(field, number)| FieldDocument {
                    field: field.kind.word(),
                    label: field.label.clone(),
                    number: *number,
                    setting: settings(field, *number).map(setting_document),
                })
                .collect(),
        })
    });
    AddressDocument {
        family: site.family.value.clone(),
        latched_at_power_up: site.family().addresses.latched_at_power_up,
        stations: stations.collect(),
    }
}

fn setting_document(setting: SwitchSetting) -> SettingDocument {
    match setting {
        SwitchSetting::Rotary { positions, at } => SettingDocument::Rotary { positions, at },
        SwitchSetting::Dip { first_switch, on } => SettingDocument::Dip { first_switch, on },
        SwitchSetting::Jumpers { fitted } => SettingDocument::Jumpers { fitted },
        SwitchSetting::Keyed { digits } => SettingDocument::Keyed { digits },
    }
}

/// The addresses for a person: one table per class of device.
pub fn text(site: &Site, plan: &AddressPlan, look: &Look) -> String {
    let classes = [
        (DeviceClass::Indoor, "Indoor stations"),
        (DeviceClass::Door, "Door stations"),
        (DeviceClass::Management, "Management stations"),
    ];
    let mut blocks = Vec::new();
    for (class, title) in classes {
        let stations: Vec<&StationAddress> =
            plan.stations.iter().filter(|address| address.class == class).collect();
        if !stations.is_empty() {
            let table = class_table(site, look, class, &stations).render(look);
            blocks.push(format!("{}\n{table}", look.bold(title)));
        }
    }
    if site.family().addresses.latched_at_power_up {
        let note =
            "Settings are read at power-up: set them before, or switch power off and on after a change.";
        blocks.push(paragraph(note, 0, look.width));
    }
    blocks.join("\n")
}

fn class_table(site: &Site, look: &Look, class: DeviceClass, stations: &[&StationAddress]) -> Table {
    let fields = fields_of(site, class);
    let mut columns =
        vec![Column::new("", "Station", "{}", Set::Words), Column::new("", "Place", "{}", Set::Words)];
    for field in fields {
        let name = crate::wording::capital(field.kind.word());
        let label = plain(&field.label);
        let beside = if label.is_empty() { String::from("set") } else { format!("set {label}") };
        columns.push(Column::new(name.as_str(), "no.", format!("{name} {{}}"), Set::Number));
        columns.push(Column::new("", beside.as_str(), format!("{beside} {{}}"), Set::Words));
    }
    let mut table = Table::new(columns, 2);
    for address in stations {
        let Some(station) = site.stations.get(address.station) else { continue };
        let place = site.place_words(site.station_place(station));
        let mut cells = vec![plain(station.id.as_str()), plain(place.of(look.language))];
        for (index, field) in fields.iter().enumerate() {
            let number = address.numbers.as_ref().and_then(|numbers| numbers.get(index)).copied();
            let setting = number.and_then(|number| settings(field, number));
            cells.push(number.map_or_else(|| String::from("none"), |number| number.to_string()));
            cells.push(setting.as_ref().map(few_words).unwrap_or_default());
        }
        table.row(cells);
    }
    table
}

/// A setting in few words: "1 2", "ON 1 4", "fitted 2", "key 0012".
fn few_words(setting: &SwitchSetting) -> String {
    let chosen = |first: u32, states: &[bool], all_off: &str, word: &str| {
        let numbers: Vec<String> =
            (first..).zip(states).filter(|(_, on)| **on).map(|(number, _)| number.to_string()).collect();
        if numbers.is_empty() { all_off.to_string() } else { format!("{word} {}", numbers.join(" ")) }
    };
    match setting {
        SwitchSetting::Rotary { .. } => setting.to_string(),
        SwitchSetting::Dip { first_switch, on } => chosen(*first_switch, on, "all OFF", "ON"),
        SwitchSetting::Jumpers { fitted } => chosen(1, fitted, "none fitted", "fitted"),
        SwitchSetting::Keyed { digits } => format!("key {digits}"),
    }
}

/// What the system found, held against the plan.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReconciliationDocument {
    /// Stations that answered as planned.
    present: Vec<String>,
    /// Stations that did not answer.
    missing: Vec<String>,
    /// Devices that nobody planned.
    unexpected: Vec<UnexpectedDocument>,
    /// Addresses that answered more often than planned.
    duplicated: Vec<DuplicateDocument>,
    /// Lines of the list that could not be read.
    unread_lines: Vec<usize>,
}

/// A device that nobody planned.
#[derive(Debug, Serialize, JsonSchema)]
struct UnexpectedDocument {
    /// Line of the list.
    line: usize,
    /// Its class.
    class: &'static str,
    /// Its address.
    numbers: Vec<u32>,
    /// How it may have come about, likeliest first.
    explanations: Vec<ExplanationDocument>,
}

/// An address that answered more often than planned.
#[derive(Debug, Serialize, JsonSchema)]
struct DuplicateDocument {
    /// Class of the devices.
    class: &'static str,
    /// The address.
    numbers: Vec<u32>,
    /// How often it answered.
    times: usize,
    /// Stations that are meant to have it.
    stations: Vec<String>,
    /// Which missing stations may be the surplus ones, likeliest first.
    explanations: Vec<ExplanationDocument>,
}

/// Which station it may be, and what is set wrong on it.
#[derive(Debug, Serialize, JsonSchema)]
struct ExplanationDocument {
    /// The station.
    station: String,
    /// What is wrong, in English.
    causes: Vec<String>,
    /// Whether it is part of the likeliest explanation of the whole list.
    best: bool,
}

/// The reconciliation for programs.
pub fn reconciliation_document(
    site: &Site,
    found: &Reconciliation,
    unread_lines: &[usize],
) -> ReconciliationDocument {
    let ids = |stations: &[usize]| stations.iter().map(|station| id(site, *station)).collect();
    let explained = |class, list: &[Explanation]| {
        list.iter()
            .map(|one| ExplanationDocument {
                station: id(site, one.station),
                causes: causes(site, class, one),
                best: one.best,
            })
            .collect()
    };
    ReconciliationDocument {
        present: ids(&found.present),
        missing: ids(&found.missing),
        unexpected: found
            .unexpected
            .iter()
            .map(|one| UnexpectedDocument {
                line: one.found.line,
                class: one.found.class.word(),
                numbers: one.found.numbers.clone(),
                explanations: explained(one.found.class, &one.explanations),
            })
            .collect(),
        duplicated: found
            .duplicated
            .iter()
            .map(|one| DuplicateDocument {
                class: one.class.word(),
                numbers: one.numbers.clone(),
                times: one.times,
                stations: ids(&one.stations),
                explanations: explained(one.class, &one.explanations),
            })
            .collect(),
        unread_lines: unread_lines.to_vec(),
    }
}

/// The reconciliation for a person.
pub fn reconciliation_text(
    site: &Site,
    found: &Reconciliation,
    unread_lines: &[usize],
    look: &Look,
) -> String {
    let planned = found.present.len() + found.missing.len();
    let line = format!("{} of {planned} planned stations answer as planned.", found.present.len());
    let differs = !found.missing.is_empty()
        || !found.unexpected.is_empty()
        || !found.duplicated.is_empty()
        || !unread_lines.is_empty();
    let mut text = if differs { look.severity(Severity::Error, &line) } else { look.good(&line) };
    text.push('\n');
    if !found.missing.is_empty() {
        let names: Vec<String> = found.missing.iter().map(|station| plain(&id(site, *station))).collect();
        let _ = write!(text, "\n{}\n{}", look.bold("Missing"), paragraph(&names.join(", "), 2, look.width));
    }
    if !found.unexpected.is_empty() {
        let _ = write!(text, "\n{}\n", look.bold("Not planned"));
    }
    for one in &found.unexpected {
        let what = format!(
            "{} {} (line {} of the list)",
            one.found.class.word(),
            numbers(&one.found.numbers),
            one.found.line
        );
        let line = format!("{what}: {}", explanation(site, one.found.class, &one.explanations));
        text.push_str(&paragraph(&line, 2, look.width));
    }
    if !found.duplicated.is_empty() {
        let _ = write!(text, "\n{}\n", look.bold("Answered more often than planned"));
    }
    for one in &found.duplicated {
        let stations: Vec<String> = one.stations.iter().map(|station| plain(&id(site, *station))).collect();
        let what = format!(
            "{} {} answered {} times; it is {}",
            one.class.word(),
            numbers(&one.numbers),
            one.times,
            stations.join(", ")
        );
        let line = format!("{what}; the other: {}", explanation(site, one.class, &one.explanations));
        text.push_str(&paragraph(&line, 2, look.width));
    }
    if !unread_lines.is_empty() {
        let lines: Vec<String> = unread_lines.iter().map(ToString::to_string).collect();
        let line = format!(
            "Lines of the list without a class word (indoor, door, management) or a number: {}",
            lines.join(", ")
        );
        let _ = write!(text, "\n{}\n{}", look.bold("Not read"), paragraph(&line, 2, look.width));
    }
    text
}

fn explanation(site: &Site, class: DeviceClass, list: &[Explanation]) -> String {
    let Some(first) = list.first() else {
        return String::from("no missing station explains it");
    };
    let sure = if first.best { "probably" } else { "perhaps" };
    format!("{sure} {}, {}", plain(&id(site, first.station)), causes(site, class, first).join("; "))
}

fn numbers(numbers: &[u32]) -> String {
    let words: Vec<String> = numbers.iter().map(ToString::to_string).collect();
    words.join("/")
}

fn id(site: &Site, station: usize) -> String {
    site.stations.get(station).map(|station| station.id.to_string()).unwrap_or_default()
}

fn causes(site: &Site, class: DeviceClass, explanation: &Explanation) -> Vec<String> {
    let fields = fields_of(site, class);
    explanation
        .causes
        .iter()
        .map(|(index, cause)| {
            let name = fields.get(*index).map_or("address", |field| {
                if field.label.is_empty() { field.kind.word() } else { field.label.as_str() }
            });
            format!("{}: {}", plain(name), cause_words(cause))
        })
        .collect()
}

fn cause_words(cause: &Cause) -> String {
    let on = |on: bool| if on { "ON" } else { "OFF" };
    match cause {
        Cause::ExchangedRotaries => String::from("two rotary switches are exchanged"),
        Cause::WrongRotary { switch, set, should } => {
            format!("rotary switch {switch} points to {set:X} and should to {should:X}")
        }
        Cause::WrongDip { switch, should_be_on } => {
            format!("switch {switch} is {} and should be {}", on(!should_be_on), on(*should_be_on))
        }
        Cause::InvertedDip => String::from("all switches are inverted"),
        Cause::ReversedDip => String::from("the switches were counted from the wrong end"),
        Cause::WrongJumper { jumper, should_be_fitted: true } => format!("jumper {jumper} is missing"),
        Cause::WrongJumper { jumper, should_be_fitted: false } => {
            format!("jumper {jumper} must be taken out")
        }
        Cause::WrongKeyedNumber => String::from("a wrong number was keyed in"),
        Cause::SeveralSwitches { count } => format!("{count} switches are wrong"),
    }
}
