//! Addresses and switch settings, and the plan held against what the system found.

use crate::paint::Look;
use crate::table::{Column, Set, Table, paragraph};
use crate::template::plain;
use latchline_finding::{Language, Severity};
use latchline_site::addresses::{
    AddressPlan, Cause, DeviceClass, Explanation, Reconciliation, StationAddress, SwitchSetting, fields_of,
    settings,
};
use latchline_site::catalogue::FieldKind;
use latchline_site::model::Site;
use latchline_words::commands::{AddressHead, AddressWords};
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
        (DeviceClass::Indoor, AddressHead::IndoorStations),
        (DeviceClass::Door, AddressHead::DoorStations),
        (DeviceClass::Management, AddressHead::ManagementStations),
    ];
    let mut blocks = Vec::new();
    for (class, title) in classes {
        let stations: Vec<&StationAddress> =
            plan.stations.iter().filter(|address| address.class == class).collect();
        if !stations.is_empty() {
            let table = class_table(site, look, class, &stations).render(look);
            blocks.push(format!("{}\n{table}", look.bold(title.say(look.language))));
        }
    }
    if site.family().addresses.latched_at_power_up {
        blocks.push(paragraph(&AddressWords::ReadAtPowerUp.say(look.language), 0, look.width));
    }
    blocks.join("\n")
}

/// The word of a class before the numbers of an address.
fn class_word(class: DeviceClass, look: &Look) -> &'static str {
    let word = match class {
        DeviceClass::Indoor => AddressHead::Indoor,
        DeviceClass::Door => AddressHead::Door,
        DeviceClass::Management => AddressHead::Management,
    };
    word.say(look.language)
}

/// What a number of an address counts.
fn field_word(kind: FieldKind, language: Language) -> &'static str {
    let word = match kind {
        FieldKind::Building => AddressHead::FieldBuilding,
        FieldKind::Entrance => AddressHead::FieldEntrance,
        FieldKind::Dwelling => AddressHead::FieldDwelling,
        FieldKind::Extension => AddressHead::FieldExtension,
        FieldKind::Management => AddressHead::FieldManagement,
    };
    word.say(language)
}

fn class_table(site: &Site, look: &Look, class: DeviceClass, stations: &[&StationAddress]) -> Table {
    let fields = fields_of(site, class);
    let word = |head: AddressHead| head.say(look.language);
    let mut columns = vec![
        Column::new("", word(AddressHead::Station), "{}", Set::Words),
        Column::new("", word(AddressHead::Place), "{}", Set::Words),
    ];
    for field in fields {
        let name = crate::wording::capital(field_word(field.kind, look.language));
        let label = plain(&field.label);
        let label = (!label.is_empty()).then_some(label.as_str());
        let beside = AddressWords::Set { label }.say(look.language);
        columns.push(Column::new(
            name.as_str(),
            word(AddressHead::Number),
            format!("{name} {{}}"),
            Set::Number,
        ));
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
            let none = || AddressWords::None.say(look.language);
            cells.push(number.map_or_else(none, |number| number.to_string()));
            cells.push(setting.map(|setting| few_words(&setting, look)).unwrap_or_default());
        }
        table.row(cells);
    }
    table
}

/// A setting in few words: "1 2", "ON 1 4", "fitted 2", "key 0012".
fn few_words(setting: &SwitchSetting, look: &Look) -> String {
    let chosen = |first: u32, states: &[bool]| {
        let numbers: Vec<String> =
            (first..).zip(states).filter(|(_, on)| **on).map(|(number, _)| number.to_string()).collect();
        numbers.join(" ")
    };
    let words = |words: AddressWords<'_>| words.say(look.language);
    match setting {
        SwitchSetting::Rotary { .. } => setting.to_string(),
        SwitchSetting::Dip { first_switch, on } => match chosen(*first_switch, on).as_str() {
            "" => words(AddressWords::AllOff),
            numbers => words(AddressWords::On { numbers }),
        },
        SwitchSetting::Jumpers { fitted } => match chosen(1, fitted).as_str() {
            "" => words(AddressWords::NoneFitted),
            numbers => words(AddressWords::Fitted { numbers }),
        },
        SwitchSetting::Keyed { digits } => words(AddressWords::Key { digits }),
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
                causes: causes(site, class, one, Language::English),
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
    let say = |words: AddressWords<'_>| words.say(look.language);
    let head = |head: AddressHead| look.bold(head.say(look.language));
    let names = |stations: &[usize]| -> String {
        let names: Vec<String> = stations.iter().map(|station| plain(&id(site, *station))).collect();
        names.join(", ")
    };
    let planned = found.present.len() + found.missing.len();
    let line = say(AddressWords::Present { present: found.present.len(), planned });
    let differs = !found.missing.is_empty()
        || !found.unexpected.is_empty()
        || !found.duplicated.is_empty()
        || !unread_lines.is_empty();
    let mut text = if differs { look.severity(Severity::Error, &line) } else { look.good(&line) };
    text.push('\n');
    if !found.missing.is_empty() {
        let missing = paragraph(&names(&found.missing), 2, look.width);
        let _ = write!(text, "\n{}\n{missing}", head(AddressHead::Missing));
    }
    if !found.unexpected.is_empty() {
        let _ = write!(text, "\n{}\n", head(AddressHead::NotPlanned));
    }
    for one in &found.unexpected {
        let line = say(AddressWords::Unexpected {
            class: class_word(one.found.class, look),
            numbers: &numbers(&one.found.numbers),
            line: one.found.line,
            explanation: &explanation(site, one.found.class, &one.explanations, look),
        });
        text.push_str(&paragraph(&line, 2, look.width));
    }
    if !found.duplicated.is_empty() {
        let _ = write!(text, "\n{}\n", head(AddressHead::AnsweredMoreOften));
    }
    for one in &found.duplicated {
        let line = say(AddressWords::Duplicated {
            class: class_word(one.class, look),
            numbers: &numbers(&one.numbers),
            times: one.times,
            stations: &names(&one.stations),
            explanation: &explanation(site, one.class, &one.explanations, look),
        });
        text.push_str(&paragraph(&line, 2, look.width));
    }
    if !unread_lines.is_empty() {
        let lines: Vec<String> = unread_lines.iter().map(ToString::to_string).collect();
        let line = say(AddressWords::UnreadLines { lines: &lines.join(", ") });
        let _ = write!(text, "\n{}\n{}", head(AddressHead::NotRead), paragraph(&line, 2, look.width));
    }
    text
}

fn explanation(site: &Site, class: DeviceClass, list: &[Explanation], look: &Look) -> String {
    let Some(first) = list.first() else {
        return AddressWords::NothingExplains.say(look.language);
    };
    let station = &plain(&id(site, first.station));
    let causes = &causes(site, class, first, look.language).join("; ");
    let words = match first.best {
        true => AddressWords::Probably { station, causes },
        false => AddressWords::Perhaps { station, causes },
    };
    words.say(look.language)
}

fn numbers(numbers: &[u32]) -> String {
    let words: Vec<String> = numbers.iter().map(ToString::to_string).collect();
    words.join("/")
}

fn id(site: &Site, station: usize) -> String {
    site.stations.get(station).map(|station| station.id.to_string()).unwrap_or_default()
}

fn causes(site: &Site, class: DeviceClass, explanation: &Explanation, language: Language) -> Vec<String> {
    let fields = fields_of(site, class);
    explanation
        .causes
        .iter()
        .map(|(index, cause)| {
            let name = match fields.get(*index) {
                None => AddressHead::FieldOfAddress.say(language),
                Some(field) if field.label.is_empty() => field_word(field.kind, language),
                Some(field) => field.label.as_str(),
            };
            AddressWords::Cause { field: &plain(name), what: &cause_words(cause, language) }.say(language)
        })
        .collect()
}

fn cause_words(cause: &Cause, language: Language) -> String {
    let number = |number: u32| number as usize;
    match *cause {
        Cause::ExchangedRotaries => AddressWords::RotariesExchanged,
        Cause::WrongRotary { switch, set, should } => {
            let (set, should) = (&format!("{set:X}"), &format!("{should:X}"));
            return AddressWords::WrongRotary { switch: number(switch), set, should }.say(language);
        }
        Cause::WrongDip { switch, should_be_on: true } => {
            AddressWords::SwitchShouldBeOn { switch: number(switch) }
        }
        Cause::WrongDip { switch, should_be_on: false } => {
            AddressWords::SwitchShouldBeOff { switch: number(switch) }
        }
        Cause::InvertedDip => AddressWords::SwitchesInverted,
        Cause::ReversedDip => AddressWords::SwitchesReversed,
        Cause::WrongJumper { jumper, should_be_fitted: true } => {
            AddressWords::JumperMissing { jumper: number(jumper) }
        }
        Cause::WrongJumper { jumper, should_be_fitted: false } => {
            AddressWords::JumperTooMuch { jumper: number(jumper) }
        }
        Cause::WrongKeyedNumber => AddressWords::WrongKeyedNumber,
        Cause::SeveralSwitches { count } => AddressWords::SeveralSwitches { count: number(count) },
    }
    .say(language)
}
