//! The device schedule: every supply, box and station in walking order, with address and settings.

use super::column::column;
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Role, Table};
use latchline_site::addresses::{SwitchSetting, fields_of, settings};
use latchline_site::catalogue::{BoxRole, FieldKind, Media};
use latchline_site::model::StationOwner;
use latchline_wiring::Item;
use latchline_wiring::item::reference_designation;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let shows_settings = subject.options.audience != crate::options::Audience::Client;
    let mut columns = vec![
        column(locale, Word::Number, 6),
        column(locale, Word::Designation, 16).with_role(Role::Names),
        column(locale, Word::Reference, 20),
        column(locale, Word::What, 24),
        column(locale, Word::Model, 16),
        column(locale, Word::Place, 16).said_above(),
        column(locale, Word::Address, 30),
    ];
    if shows_settings {
        columns.push(column(locale, Word::Settings, 32));
        columns.push(column(locale, Word::AddressSet, 12));
        columns.push(column(locale, Word::PlaceFitted, 12));
        columns.push(column(locale, Word::Serial, 14));
        columns.push(column(locale, Word::Version, 10));
        columns.push(column(locale, Word::Done, 6));
    }
    let mut table = Table::new(Part::Devices, locale.word(Word::DevicesTitle), columns);
    if subject.site.family().addresses.latched_at_power_up && shows_settings {
        table.note(locale.word(Word::LatchedAtPowerUp));
    }
    if shows_settings {
        table.note(locale.word(Word::AsBuiltNote));
    }
    for double in subject.order.iter().filter_map(|device| double_of(subject, *device)) {
        let (device, others, address) = (&double.device, &double.others, &double.address);
        table.heading(locale.say(&Sentence::DoubleNumber { device, others, address }));
    }
    let mut place = None;
    for (number, device) in subject.order.iter().enumerate() {
        let here = subject.place_words(*device);
        if place.as_ref() != Some(&here) {
            table.heading(if here.is_empty() {
                locale.word(Word::NoPlace).to_string()
            } else {
                here.clone()
            });
            place = Some(here.clone());
        }
        let (mut address, setting) = address_words(subject, *device);
        if let Some(Double { others, .. }) = double_of(subject, *device) {
            address = locale.say(&Sentence::DoubleAddress { others: &others, address: &address });
        }
        let mut cells = vec![
            Cell::count(number + 1),
            Cell::text(subject.name(*device)),
            Cell::text(reference_designation(subject.site, *device, locale.language)),
            Cell::text(kind_words(subject, *device)),
            Cell::text(model_name(subject, *device)),
            Cell::text(here),
            Cell::text(address),
        ];
        if shows_settings {
            cells.push(Cell::text(setting));
            cells.extend([Cell::WriteIn, Cell::WriteIn, Cell::WriteIn, Cell::WriteIn, Cell::Tick]);
        }
        table.row(cells);
    }
    table
}

/// A device whose number another one has too.
struct Double {
    device: String,
    others: String,
    address: String,
}

fn double_of(subject: &Subject<'_>, item: Item) -> Option<Double> {
    let Item::Station(station) = item else { return None };
    let others = subject.assessment.addresses.doubles(subject.site, station)?;
    let (address, _) = address_words(subject, item);
    Some(Double { device: subject.name(item), others, address })
}

/// What is said large of a device whose number another one has too.
pub fn double_words(subject: &Subject<'_>, item: Item) -> Option<String> {
    double_of(subject, item).map(|double| subject.locale.say(&Sentence::Double { others: &double.others }))
}

/// What a device is.
pub fn kind_words(subject: &Subject<'_>, item: Item) -> String {
    let (site, locale) = (subject.site, &subject.locale);
    let word = match item {
        Item::Supply(_) => Word::Supply,
        Item::Box(index) => match site.box_model(&site.boxes[index]).role.value {
            BoxRole::Distributor => Word::Distributor,
            BoxRole::BranchBox => Word::BranchBox,
        },
        Item::Station(index) => {
            let station = &site.stations[index];
            let is_video = site.station_model(station).media.value == Media::Video;
            match (station.owner, is_video) {
                (StationOwner::Dwelling { ordinal: 0, .. }, true) => Word::VideoStation,
                (StationOwner::Dwelling { ordinal: 0, .. }, false) => Word::AudioStation,
                (StationOwner::Dwelling { .. }, true) => Word::VideoExtension,
                (StationOwner::Dwelling { .. }, false) => Word::AudioExtension,
                (StationOwner::Entrance(_), true) => Word::VideoDoorStation,
                (StationOwner::Entrance(_), false) => Word::AudioDoorStation,
                (StationOwner::Management(_), _) => Word::ManagementStation,
            }
        }
        // What is at a door has a title of its own, and stands in no device schedule.
        _ => Word::Lock,
    };
    locale.word(word).to_string()
}

/// Model name of a device.
pub fn model_name<'a>(subject: &Subject<'a>, item: Item) -> &'a str {
    let site = subject.site;
    match item {
        Item::Supply(index) => &site.supplies[index].model.value,
        Item::Box(index) => &site.boxes[index].model.value,
        Item::Station(index) => &site.stations[index].model.value,
        Item::Lock { entrance, lock } => &site.entrances[entrance].locks[lock].model.value,
        // What else is at a door is told in its own schedule.
        _ => "",
    }
}

/// Address and switch positions of a device in words.
pub fn address_words(subject: &Subject<'_>, item: Item) -> (String, String) {
    let locale = &subject.locale;
    let Item::Station(station) = item else { return (String::new(), String::new()) };
    let Some(address) = subject.assessment.addresses.stations.get(station) else {
        return (String::new(), String::new());
    };
    let fields = fields_of(subject.site, address.class);
    if fields.is_empty() {
        return (locale.word(Word::NoAddress).to_string(), String::new());
    }
    let Some(numbers) = &address.numbers else {
        return (locale.word(Word::AddressMissing).to_string(), String::new());
    };
    let mut words = Vec::new();
    let mut positions = Vec::new();
    for (field, number) in fields.iter().zip(numbers) {
        let name = locale.word(match field.kind {
            FieldKind::Building => Word::FieldBuilding,
            FieldKind::Entrance => Word::FieldEntrance,
            FieldKind::Dwelling => Word::FieldDwelling,
            FieldKind::Extension => Word::FieldExtension,
            FieldKind::Management => Word::FieldManagement,
        });
        words.push(format!("{name} {number}"));
        if let Some(setting) = settings(field, *number) {
            positions.push(format!("{}: {}", field.label, setting_words(subject, &setting)));
        }
    }
    (words.join(", "), positions.join("; "))
}

/// The positions of switches in words.
pub fn setting_words(subject: &Subject<'_>, setting: &SwitchSetting) -> String {
    let locale = &subject.locale;
    match setting {
        SwitchSetting::Rotary { at, .. } => {
            let at: Vec<String> = at.iter().map(|position| format!("{position:X}")).collect();
            at.join(" ")
        }
        SwitchSetting::Dip { first_switch, on } => {
            let switches = (*first_switch..).zip(on);
            let words: Vec<String> =
                switches.map(|(number, on)| format!("{number} {}", if *on { "ON" } else { "OFF" })).collect();
            words.join(", ")
        }
        SwitchSetting::Jumpers { fitted } => {
            let word = |fitted: bool| locale.word(if fitted { Word::JumperFitted } else { Word::JumperOpen });
            let words: Vec<String> =
                (1..).zip(fitted).map(|(number, fitted)| format!("{number} {}", word(*fitted))).collect();
            words.join(", ")
        }
        SwitchSetting::Keyed { digits } => digits.clone(),
    }
}
