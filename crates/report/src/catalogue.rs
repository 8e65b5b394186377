//! The list of a catalogue's parts, and one part as it is written.

use crate::figures::trimmed;
use crate::paint::Look;
use crate::table::{Column, Set, Table, paragraph};
use latchline_assess::loop_ohm_per_km;
use latchline_finding::{FileId, Origin, Sources, shown};
use latchline_site::catalogue::{
    Accessory, AccessoryKind, BoxKind, BoxModel, BoxRole, Cable, Catalogue, Environment, Feed, Light,
    LightKind, LoadValue, Lock, LockKind, Media, PartHead, PowerLoss, StationKind, StationModel, SupplyModel,
};
use std::fmt::Write;

/// Temperature of the resistances in the list, in °C: that of the standards' tables.
const TABLE_CELSIUS: f64 = 20.0;

/// Every part under its family, with its leading figures and its price; those of no family at the end.
pub fn list(catalogue: &Catalogue, sources: &Sources, look: &Look) -> String {
    let mut text = String::new();
    for (name, family) in &catalogue.families {
        let title = &family.head.title;
        let volts = trimmed(family.nominal_voltage.value.as_volts(), 1);
        let _ = writeln!(text, "{} ({title}), {volts} V", look.bold(name));
        let mut table = table(catalogue);
        let of = |own: &String| own == name;
        for part in catalogue.supplies.values().filter(|part| of(&part.family.value)) {
            row(&mut table, &part.head, "supply", supply(part), sources);
        }
        for part in catalogue.boxes.values().filter(|part| of(&part.family.value)) {
            let role = match part.role.value {
                BoxRole::Distributor => "distributor",
                BoxRole::BranchBox => "branch box",
            };
            row(&mut table, &part.head, role, box_model(part), sources);
        }
        for part in catalogue.stations.values().filter(|part| of(&part.family.value)) {
            let kind = match part.kind.value {
                StationKind::Door => "door station",
                StationKind::Indoor => "indoor station",
                StationKind::Management => "management station",
            };
            row(&mut table, &part.head, kind, station(part), sources);
        }
        for part in catalogue.accessories.values().filter(|part| of(&part.family.value)) {
            row(&mut table, &part.head, accessory_kind(part), accessory(part), sources);
        }
        let _ = writeln!(text, "{}", table.render(look));
    }
    let _ = writeln!(text, "{}", look.bold("For every family"));
    let mut table = table(catalogue);
    for part in catalogue.cables.values() {
        row(&mut table, &part.head, "cable", cable(part), sources);
    }
    for part in catalogue.locks.values() {
        row(&mut table, &part.head, lock_kind(part), lock(part), sources);
    }
    for part in catalogue.lights.values() {
        row(&mut table, &part.head, light_kind(part), light(part), sources);
    }
    let _ = writeln!(text, "{}", table.render(look));
    text.push_str(&look.faint(
        paragraph(
            "Prices are per piece, for cables per metre. Resistances are of the loop at 20 °C. Defined: file \
             and line; `latchline catalogue NAME` shows a part as it is written there.",
            0,
            look.width,
        )
        .trim_end(),
    ));
    text.push('\n');
    text
}

/// The text in which a part is written, with the numbers of its lines; `None` if no part has the name.
pub fn part(catalogue: &Catalogue, sources: &Sources, name: &str) -> Option<String> {
    let mut starts = Vec::new();
    let mut found = None;
    for head in heads(catalogue) {
        let Origin::Text(span) = &head.origin.0 else { continue };
        let (line, _) = sources.line_and_column(span.file, span.start as usize);
        starts.push((span.file, line));
        if head.name == name {
            found = Some((span.file, line));
        }
    }
    let (file, first) = found?;
    let file_name = &sources.file(file).name;
    let lines: Vec<&str> = sources.file(file).text.lines().collect();
    let is_table = lines.get(first - 1)?.trim_start().starts_with('[');
    // A part ends where the next begins; a table of its own also has sub-tables.
    let own = lines[first - 1].trim().trim_end_matches(']').to_string() + ".";
    let ends = |line: &str| {
        let line = line.trim_start();
        line.starts_with('[') && !(is_table && line.starts_with(&own))
    };
    let next = starts.iter().filter(|start| start.0 == file && start.1 > first).map(|start| start.1).min();
    let last = (first..lines.len())
        .find(|index| ends(lines[*index]) || Some(index + 1) == next)
        .unwrap_or(lines.len());
    let mut block = &lines[first - 1..last];
    while let [rest @ .., end] = block
        && (end.trim().is_empty() || end.trim_start().starts_with('#'))
    {
        block = rest;
    }
    let width = (first + block.len()).to_string().len();
    let mut text = format!("{}, line {first}\n", shown::whole(file_name, &[]));
    for (index, line) in block.iter().enumerate() {
        let _ = writeln!(text, "{:>width$} | {}", first + index, shown::whole(line, &['\t']));
    }
    Some(text)
}

/// Names of all parts.
pub fn names(catalogue: &Catalogue) -> Vec<&str> {
    heads(catalogue).map(|head| head.name.as_str()).collect()
}

fn heads(catalogue: &Catalogue) -> impl Iterator<Item = &PartHead> {
    let families = catalogue.families.values().map(|part| &part.head);
    let supplies = catalogue.supplies.values().map(|part| &part.head);
    let boxes = catalogue.boxes.values().map(|part| &part.head);
    let stations = catalogue.stations.values().map(|part| &part.head);
    let cables = catalogue.cables.values().map(|part| &part.head);
    let locks = catalogue.locks.values().map(|part| &part.head);
    let accessories = catalogue.accessories.values().map(|part| &part.head);
    let lights = catalogue.lights.values().map(|part| &part.head);
    let fixed = families.chain(supplies).chain(boxes).chain(stations).chain(cables);
    fixed.chain(locks).chain(accessories).chain(lights)
}

fn table(catalogue: &Catalogue) -> Table {
    Table::new(
        vec![
            Column::new("", "Part", "{}", Set::Words),
            Column::new("", "Kind", "{}", Set::Words),
            Column::new("", "Leading figures", "{}", Set::Words),
            Column::new("", catalogue.currency.as_str(), "price {}", Set::Number),
            Column::new("", "min", "{} min", Set::Number),
            Column::new("", "Defined", "{}", Set::Words),
        ],
        2,
    )
}

fn row(table: &mut Table, head: &PartHead, kind: &str, figures: Vec<String>, sources: &Sources) {
    let defined = match &head.origin.0 {
        Origin::Text(span) => {
            let (line, _) = sources.line_and_column(span.file, span.start as usize);
            let name = &sources.file(span.file).name;
            if span.file == FileId(0) { line.to_string() } else { format!("{name}:{line}") }
        }
        _ => String::new(),
    };
    let price = head.price.as_ref().map_or(String::new(), |price| price.value.to_string());
    let minutes = head.labour_minutes.as_ref().map_or(String::new(), |minutes| trimmed(minutes.value, 1));
    table.row(vec![head.name.clone(), kind.to_string(), figures.join(", "), price, minutes, defined]);
}

fn supply(model: &SupplyModel) -> Vec<String> {
    let mut figures = vec![
        format!("{} V", trimmed(model.voltage.value.as_volts(), 1)),
        format!("{} A", trimmed(model.rated_current.value.as_amps(), 2)),
    ];
    if let Some(power) = &model.rated_power {
        figures.push(format!("{} W", trimmed(power.value.as_watts(), 0)));
    }
    if let Some(battery) = &model.battery {
        figures.push(format!("battery {} Ah", trimmed(battery.capacity.value.as_amp_hours(), 1)));
    }
    figures
}

fn box_model(model: &BoxModel) -> Vec<String> {
    let kind = match model.kind.value {
        BoxKind::Transparent => "passes the bus on",
        BoxKind::PortLimited => "ports with a limit",
        BoxKind::Regenerated => "feeds its ports anew",
        BoxKind::Isolating => "isolates",
    };
    let mut figures = vec![format!("{} ports", model.ports.value), kind.to_string()];
    if let Some(limit) = &model.port_current_limit {
        figures.push(format!("{} A a port", trimmed(limit.value.as_amps(), 2)));
    }
    figures
}

fn station(model: &StationModel) -> Vec<String> {
    let media = match model.media.value {
        Media::Audio => "audio",
        Media::Video => "video",
    };
    vec![
        media.to_string(),
        format!("standby {}", load(&model.standby.value)),
        format!("talking {}", load(&model.talking.value)),
        format!("from {} V", trimmed(model.least_voltage.value.as_volts(), 1)),
    ]
}

fn load(value: &LoadValue) -> String {
    match value {
        LoadValue::Power(power) => format!("{} W", trimmed(power.as_watts(), 2)),
        LoadValue::Current(current) => format!("{} mA", trimmed(current.as_amps() * 1e3, 1)),
        LoadValue::Resistance(resistance) => format!("{} ohm", trimmed(resistance.as_ohms(), 0)),
    }
}

fn cable(model: &Cable) -> Vec<String> {
    let loop_ohm_per_km = loop_ohm_per_km(model, TABLE_CELSIUS);
    let places: Vec<&str> = model
        .environments
        .value
        .iter()
        .map(|environment| match environment {
            Environment::Indoors => "indoors",
            Environment::Outdoors => "outdoors",
            Environment::Buried => "buried",
        })
        .collect();
    let pairs = model.pairs.value;
    let mut figures = vec![
        format!("{pairs} pair{}", if pairs == 1 { "" } else { "s" }),
        format!("{} ohm/km", trimmed(loop_ohm_per_km, 1)),
        places.join(" and "),
    ];
    if model.line.is_none() {
        figures.push(String::from("no line constants"));
    }
    figures.retain(|figure| !figure.is_empty());
    figures
}

fn lock_kind(lock: &Lock) -> &'static str {
    match lock.kind.value {
        LockKind::Strike => "strike",
        LockKind::Magnet => "magnetic lock",
        LockKind::Motor => "motor lock",
        LockKind::Gate => "gate",
    }
}

fn lock(model: &Lock) -> Vec<String> {
    let mut figures = Vec::new();
    if let Some(voltage) = &model.voltage {
        figures.push(rated(voltage.value.as_volts(), model.feed.value));
    }
    if let Some(current) = &model.current {
        figures.push(format!("{} A", trimmed(current.value.as_amps(), 2)));
    }
    figures.push(String::from(match model.power_loss.value {
        PowerLoss::Opens => "opens on power loss",
        PowerLoss::StaysShut => "stays shut on power loss",
    }));
    figures
}

fn rated(voltage_v: f64, feed: Feed) -> String {
    let feed = match feed {
        Feed::Dc => "DC",
        Feed::Ac => "AC",
        Feed::Either => "AC or DC",
    };
    format!("{} V {feed}", trimmed(voltage_v, 1))
}

fn light_kind(light: &Light) -> &'static str {
    match light.kind.value {
        LightKind::Buttons => "button light",
        LightKind::Names => "name light",
        LightKind::Porch => "porch light",
    }
}

fn light(model: &Light) -> Vec<String> {
    vec![rated(model.voltage.value.as_volts(), model.feed.value), load(&model.load.value)]
}

fn accessory_kind(accessory: &Accessory) -> &'static str {
    match accessory.kind.value {
        AccessoryKind::Keypad => "keypad",
        AccessoryKind::Reader => "reader",
        AccessoryKind::Buttons => "button module",
        AccessoryKind::Names => "name module",
    }
}

fn accessory(model: &Accessory) -> Vec<String> {
    let mut figures = vec![format!("{} mA", trimmed(model.current.value.as_amps() * 1e3, 1))];
    if let Some(buttons) = &model.buttons {
        figures.push(format!("{} buttons", buttons.value));
    }
    figures
}
