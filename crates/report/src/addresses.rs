//! Addresses and switch settings, and the plan held against what the system found.
//!
//! * [`text`] and [`document`]: all devices;
//! * [`device`]: one device, with its switches in characters and what a meter reads there;
//! * [`found`]: the plan held against what the system found.

pub mod device;
pub mod found;
pub mod picture;

use crate::paint::Look;
use crate::table::{Column, Set, Table, paragraph};
use crate::template::plain;
use latchline_finding::{Language, Severity};
use latchline_site::addresses::{
    AddressPlan, ChosenNumber, DeviceClass, StationAddress, SwitchSetting, fields_of, settings,
};
use latchline_site::catalogue::FieldKind;
use latchline_site::model::Site;
use latchline_words::commands::{AddressHead, AddressWords};
use schemars::JsonSchema;
use serde::Serialize;

/// Addresses and switch settings of a site.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AddressDocument {
    /// The family whose scheme holds.
    family: String,
    /// Whether devices read a changed setting at power-up only.
    latched_at_power_up: bool,
    /// One per station, in the order of the site.
    stations: Vec<StationDocument>,
    /// Dwellings whose number is neither stated nor that of their name.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    chosen: Vec<ChosenDocument>,
}

/// A number that a dwelling's name does not give.
#[derive(Debug, Serialize, JsonSchema)]
struct ChosenDocument {
    /// The dwelling.
    dwelling: String,
    /// The number that it got.
    number: u32,
    /// The number in its name, if there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    number_in_name: Option<u32>,
    /// The dwelling that has that number.
    #[serde(skip_serializing_if = "Option::is_none")]
    taken_by: Option<String>,
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
pub enum SettingDocument {
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
    let dwelling = |index: usize| site.dwellings[index].id.to_string();
    AddressDocument {
        family: site.family.value.clone(),
        latched_at_power_up: site.family().addresses.latched_at_power_up,
        stations: plan.stations.iter().filter_map(|address| station_document(site, address)).collect(),
        chosen: plan
            .chosen
            .iter()
            .map(|one| ChosenDocument {
                dwelling: dwelling(one.dwelling),
                number: one.number,
                number_in_name: one.in_name,
                taken_by: one.taken_by.map(dwelling),
            })
            .collect(),
    }
}

/// The address of one station for programs.
fn station_document(site: &Site, address: &StationAddress) -> Option<StationDocument> {
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
                setting: settings(field, *number).map(SettingDocument::from),
            })
            .collect(),
    })
}

impl From<SwitchSetting> for SettingDocument {
    fn from(setting: SwitchSetting) -> Self {
        match setting {
            SwitchSetting::Rotary { positions, at } => SettingDocument::Rotary { positions, at },
            SwitchSetting::Dip { first_switch, on } => SettingDocument::Dip { first_switch, on },
            SwitchSetting::Jumpers { fitted } => SettingDocument::Jumpers { fitted },
            SwitchSetting::Keyed { digits } => SettingDocument::Keyed { digits },
        }
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
    if plan.stations.is_empty() {
        return paragraph(&AddressWords::NoStation.say(look.language), 0, look.width);
    }
    for (class, title) in classes {
        let stations: Vec<&StationAddress> =
            plan.stations.iter().filter(|address| address.class == class).collect();
        if !stations.is_empty() {
            let table = class_table(site, look, class, &stations).render(look);
            blocks.push(format!("{}\n{table}", look.bold(title.say(look.language))));
        }
    }
    blocks.extend(chosen(site, plan, look));
    if site.family().addresses.latched_at_power_up {
        blocks.push(paragraph(&AddressWords::ReadAtPowerUp.say(look.language), 0, look.width));
    }
    blocks.join("\n")
}

/// Why a dwelling has another number than its name gives.
fn chosen_words(site: &Site, one: &ChosenNumber, look: &Look) -> String {
    let name = |dwelling: usize| plain(site.dwellings[dwelling].id.as_str());
    let (dwelling, number) = (&name(one.dwelling), one.number as usize);
    let words = match (one.in_name, one.taken_by) {
        (Some(in_name), Some(other)) => {
            let (in_name, other) = (in_name as usize, &name(other));
            return AddressWords::ChosenTaken { dwelling, number, in_name, other }.say(look.language);
        }
        (Some(in_name), None) => AddressWords::ChosenUnusable { dwelling, number, in_name: in_name as usize },
        (None, _) => AddressWords::ChosenWithout { dwelling, number },
    };
    words.say(look.language)
}

/// Numbers that names do not give, and what to do about them.
fn chosen(site: &Site, plan: &AddressPlan, look: &Look) -> Option<String> {
    if plan.chosen.is_empty() {
        return None;
    }
    let lines: String =
        plan.chosen.iter().map(|one| paragraph(&chosen_words(site, one, look), 2, look.width)).collect();
    let head = look.severity(Severity::Warning, AddressHead::NumbersChosen.say(look.language));
    let ask = paragraph(&AddressWords::ChosenAsk.say(look.language), 2, look.width);
    Some(format!("{head}\n{lines}{ask}"))
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
pub fn field_word(kind: FieldKind, language: Language) -> &'static str {
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

/// Settings with the labels of their switches: "BLOCK all OFF; FLAT 2 7". Whoever says how a station is set says it so.
pub fn labelled<'s>(
    settings: impl Iterator<Item = (&'s str, &'s SwitchSetting)>,
    language: Language,
) -> String {
    let look = Look { language, ..Look::default() };
    let words = |(label, setting): (&str, &SwitchSetting)| {
        format!("{} {}", plain(label), few_words(setting, &look)).trim_start().to_string()
    };
    settings.map(words).collect::<Vec<_>>().join("; ")
}

/// A setting in few words: "1 2", "ON 1 4", "fitted 2", "key 0012".
pub fn few_words(setting: &SwitchSetting, look: &Look) -> String {
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
