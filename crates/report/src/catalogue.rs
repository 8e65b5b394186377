//! The list of a catalogue's parts, and one part as it is written.

use crate::figures::trimmed;
use crate::paint::Look;
use crate::table::{Column, Set, Table, paragraph};
use latchline_finding::{FileId, Language, Origin, Sources, shown};
use latchline_site::catalogue::{
    Accessory, AccessoryKind, BoxKind, BoxModel, BoxRole, Cable, Catalogue, Environment, Feed, Light,
    LightKind, LoadValue, Lock, LockKind, Media, PartHead, PowerLoss, StationKind, StationModel, SupplyModel,
    listed_loop_ohm_per_km,
};
use latchline_words::commands::{CatalogueHead as Head, CatalogueWords};
use std::fmt::Write;

/// Every part under its family, with its leading figures and its price; those of no family at the end.
pub fn list(catalogue: &Catalogue, sources: &Sources, look: &Look) -> String {
    let mut text = String::new();
    for (name, family) in &catalogue.families {
        let title = family.head.title.of(look.language);
        let volts = look.volts(family.nominal_voltage.value.as_volts());
        let _ = writeln!(text, "{} ({title}), {volts}", look.bold(name));
        let mut table = table(catalogue, look);
        let of = |own: &String| own == name;
        for part in catalogue.supplies.values().filter(|part| of(&part.family.value)) {
            row(&mut table, &part.head, Head::Supply, supply(part, look), sources, look);
        }
        for part in catalogue.boxes.values().filter(|part| of(&part.family.value)) {
            let role = match part.role.value {
                BoxRole::Distributor => Head::Distributor,
                BoxRole::BranchBox => Head::BranchBox,
            };
            row(&mut table, &part.head, role, box_model(part, look), sources, look);
        }
        for part in catalogue.stations.values().filter(|part| of(&part.family.value)) {
            let kind = match part.kind.value {
                StationKind::Door => Head::DoorStation,
                StationKind::Indoor => Head::IndoorStation,
                StationKind::Management => Head::ManagementStation,
            };
            row(&mut table, &part.head, kind, station(part, look), sources, look);
        }
        for part in catalogue.accessories.values().filter(|part| of(&part.family.value)) {
            row(&mut table, &part.head, accessory_kind(part), accessory(part, look), sources, look);
        }
        let _ = writeln!(text, "{}", table.render(look));
    }
    let _ = writeln!(text, "{}", look.bold(Head::ForEveryFamily.say(look.language)));
    let mut table = table(catalogue, look);
    for part in catalogue.cables.values() {
        row(&mut table, &part.head, Head::Cable, cable(part, look), sources, look);
    }
    for part in catalogue.locks.values() {
        row(&mut table, &part.head, lock_kind(part), lock(part, look), sources, look);
    }
    for part in catalogue.lights.values() {
        row(&mut table, &part.head, light_kind(part), light(part, look), sources, look);
    }
    let _ = writeln!(text, "{}", table.render(look));
    let left_out: Vec<&str> = heads(catalogue).filter_map(|head| head.price_left_out_in.as_deref()).collect();
    if let Some(theirs) = left_out.first() {
        let (parts, own) = (left_out.len(), &*catalogue.currency);
        let words = CatalogueWords::PricesLeftOut { parts, theirs, own };
        text.push_str(&paragraph(&words.say(look.language), 0, look.width));
    }
    text.push_str(&look.faint(paragraph(&CatalogueWords::Key.say(look.language), 0, look.width).trim_end()));
    text.push('\n');
    text
}

/// The text in which a part is written, with the numbers of its lines; `None` if no part has the name.
pub fn part(catalogue: &Catalogue, sources: &Sources, name: &str, look: &Look) -> Option<String> {
    let (file, first, block) = written(catalogue, sources, name)?;
    let file_name = &sources.file(file).name;
    let width = (first + block.len()).to_string().len();
    let head = CatalogueWords::Lines { file: &shown::whole(file_name, &[]), line: first };
    let mut text = head.say(look.language) + "\n";
    for (index, line) in block.iter().enumerate() {
        let _ = writeln!(text, "{:>width$} | {}", first + index, shown::whole(line, &['\t']));
    }
    Some(text)
}

/// Names of parts that both catalogues have and of which their texts do not say the same, comments and blanks left out.
pub fn other_parts(old: (&Catalogue, &Sources), new: (&Catalogue, &Sources)) -> Vec<String> {
    let lines = |(catalogue, sources): (&Catalogue, &Sources), name: &str| -> Option<Vec<String>> {
        let (_, _, block) = written(catalogue, sources, name)?;
        let said = block.iter().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" "));
        Some(said.filter(|line| !line.is_empty() && !line.starts_with('#')).collect())
    };
    let differs = |name: &&str| match (lines(old, name), lines(new, name)) {
        (Some(old), Some(new)) => old != new,
        _ => false,
    };
    names(new.0).into_iter().filter(differs).map(str::to_string).collect()
}

/// The file in which a part is written, the number of its first line, and its lines.
fn written<'s>(
    catalogue: &Catalogue,
    sources: &'s Sources,
    name: &str,
) -> Option<(FileId, usize, Vec<&'s str>)> {
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
    Some((file, first, block.to_vec()))
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

fn table(catalogue: &Catalogue, look: &Look) -> Table {
    let word = |head: Head| head.say(look.language);
    Table::new(
        vec![
            Column::new("", word(Head::Part), "{}", Set::Words),
            Column::new("", word(Head::Kind), "{}", Set::Words),
            Column::new("", word(Head::LeadingFigures), "{}", Set::Words),
            Column::new("", catalogue.currency.as_str(), word(Head::PriceNamed), Set::Number),
            Column::new("", word(Head::Minutes), "{} min", Set::Number),
            Column::new("", word(Head::Defined), "{}", Set::Words),
        ],
        2,
    )
}

fn row(table: &mut Table, head: &PartHead, kind: Head, figures: Vec<String>, sources: &Sources, look: &Look) {
    let defined = match &head.origin.0 {
        Origin::Text(span) => {
            let (line, _) = sources.line_and_column(span.file, span.start as usize);
            let name = &sources.file(span.file).name;
            if span.file == FileId(0) { line.to_string() } else { format!("{name}:{line}") }
        }
        _ => String::new(),
    };
    let price =
        head.price.as_ref().map_or(String::new(), |price| crate::figures::money(price.value, look.language));
    let minutes = head.labour_minutes.as_ref();
    let minutes = minutes.map_or(String::new(), |minutes| look.decimals(trimmed(minutes.value, 1)));
    let kind = kind.say(look.language).to_string();
    // A German figure holds a comma itself.
    let between = if look.language == Language::German { "; " } else { ", " };
    table.row(vec![head.name.clone(), kind, figures.join(between), price, minutes, defined]);
}

/// Figures as the list shows them.
impl Look {
    fn with_unit(&self, value: f64, decimals: usize, unit: &str) -> String {
        format!("{} {unit}", self.decimals(trimmed(value, decimals)))
    }

    fn volts(&self, volts: f64) -> String {
        self.with_unit(volts, 1, "V")
    }
}

fn supply(model: &SupplyModel, look: &Look) -> Vec<String> {
    let mut figures = vec![
        look.volts(model.voltage.value.as_volts()),
        look.with_unit(model.rated_current.value.as_amps(), 2, "A"),
    ];
    if let Some(power) = &model.rated_power {
        figures.push(look.with_unit(power.value.as_watts(), 0, "W"));
    }
    if let Some(battery) = &model.battery {
        let capacity = &look.with_unit(battery.capacity.value.as_amp_hours(), 1, "Ah");
        figures.push(CatalogueWords::Battery { capacity }.say(look.language));
    }
    figures
}

fn box_model(model: &BoxModel, look: &Look) -> Vec<String> {
    let kind = match model.kind.value {
        BoxKind::Transparent => Head::PassesTheBusOn,
        BoxKind::PortLimited => Head::PortsWithALimit,
        BoxKind::Regenerated => Head::FeedsItsPortsAnew,
        BoxKind::Isolating => Head::Isolates,
    };
    let ports = CatalogueWords::Ports { ports: model.ports.value as usize };
    let mut figures = vec![ports.say(look.language), kind.say(look.language).to_string()];
    if let Some(limit) = &model.port_current_limit {
        let current = &look.with_unit(limit.value.as_amps(), 2, "A");
        figures.push(CatalogueWords::CurrentAPort { current }.say(look.language));
    }
    figures
}

fn station(model: &StationModel, look: &Look) -> Vec<String> {
    let media = match model.media.value {
        Media::Audio => Head::Audio,
        Media::Video => Head::Video,
    };
    let words = [
        CatalogueWords::Standby { load: &load(&model.standby.value, look) }.say(look.language),
        CatalogueWords::Talking { load: &load(&model.talking.value, look) }.say(look.language),
        CatalogueWords::From { voltage: &look.volts(model.least_voltage.value.as_volts()) }
            .say(look.language),
    ];
    std::iter::once(media.say(look.language).to_string()).chain(words).collect()
}

fn load(value: &LoadValue, look: &Look) -> String {
    match value {
        LoadValue::Power(power) => look.with_unit(power.as_watts(), 2, "W"),
        LoadValue::Current(current) => look.with_unit(current.as_amps() * 1e3, 1, "mA"),
        LoadValue::Resistance(resistance) => look.with_unit(resistance.as_ohms(), 0, look.ohm()),
    }
}

fn cable(model: &Cable, look: &Look) -> Vec<String> {
    let loop_ohm_per_km = listed_loop_ohm_per_km(model);
    let places: Vec<&str> = model
        .environments
        .value
        .iter()
        .map(|environment| match environment {
            Environment::Indoors => Head::Indoors,
            Environment::Outdoors => Head::Outdoors,
            Environment::Buried => Head::Buried,
        })
        .map(|place| place.say(look.language))
        .collect();
    let pairs = CatalogueWords::Pairs { pairs: model.pairs.value as usize };
    let mut figures =
        vec![pairs.say(look.language), look.with_unit(loop_ohm_per_km, 1, &format!("{}/km", look.ohm()))];
    if let [first, rest @ ..] = places.as_slice() {
        let (second, third) = (rest.first().copied(), rest.get(1).copied());
        figures.push(CatalogueWords::Places { first, second, third }.say(look.language));
    }
    if model.line.is_none() {
        figures.push(Head::NoLineConstants.say(look.language).to_string());
    }
    figures
}

fn lock_kind(lock: &Lock) -> Head {
    match lock.kind.value {
        LockKind::Strike => Head::Strike,
        LockKind::Magnet => Head::MagneticLock,
        LockKind::Motor => Head::MotorLock,
        LockKind::Gate => Head::Gate,
        LockKind::Lift => Head::Lift,
    }
}

fn lock(model: &Lock, look: &Look) -> Vec<String> {
    let mut figures = Vec::new();
    if let Some(voltage) = &model.voltage {
        figures.push(rated(voltage.value.as_volts(), model.feed.value, look));
    }
    if let Some(current) = &model.current {
        figures.push(look.with_unit(current.value.as_amps(), 2, "A"));
    }
    let power_loss = match model.power_loss.value {
        PowerLoss::Opens => Head::OpensOnPowerLoss,
        PowerLoss::StaysShut => Head::StaysShutOnPowerLoss,
    };
    figures.push(power_loss.say(look.language).to_string());
    figures
}

fn rated(voltage_v: f64, feed: Feed, look: &Look) -> String {
    let voltage = &look.volts(voltage_v);
    let words = match feed {
        Feed::Dc => CatalogueWords::DirectCurrent { voltage },
        Feed::Ac => CatalogueWords::AlternatingCurrent { voltage },
        Feed::Either => CatalogueWords::EitherCurrent { voltage },
    };
    words.say(look.language)
}

fn light_kind(light: &Light) -> Head {
    match light.kind.value {
        LightKind::Buttons => Head::ButtonLight,
        LightKind::Names => Head::NameLight,
        LightKind::Porch => Head::PorchLight,
    }
}

fn light(model: &Light, look: &Look) -> Vec<String> {
    vec![rated(model.voltage.value.as_volts(), model.feed.value, look), load(&model.load.value, look)]
}

fn accessory_kind(accessory: &Accessory) -> Head {
    match accessory.kind.value {
        AccessoryKind::Keypad => Head::Keypad,
        AccessoryKind::Reader => Head::Reader,
        AccessoryKind::Buttons => Head::ButtonModule,
        AccessoryKind::Names => Head::NameModule,
    }
}

fn accessory(model: &Accessory, look: &Look) -> Vec<String> {
    let mut figures = vec![look.with_unit(model.current.value.as_amps() * 1e3, 1, "mA")];
    if let Some(buttons) = &model.buttons {
        figures.push(CatalogueWords::Buttons { buttons: buttons.value as usize }.say(look.language));
    }
    figures
}
