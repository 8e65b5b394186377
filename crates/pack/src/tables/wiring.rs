//! The wiring schedule: device by device, terminal by terminal, conductor by conductor.

use super::column;
use super::doors::alarm_word;
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Table};
use crate::terminals::{Device, Landing, Terminal, place_name, reference_designation};
use latchline_site::cables::CableOwner;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let columns = vec![
        column(locale, Word::Device, 16),
        column(locale, Word::Terminal, 9),
        column(locale, Word::Leg, 5),
        column(locale, Word::CableEnd, 16),
        column(locale, Word::CableType, 14),
        column(locale, Word::Pair, 6),
        column(locale, Word::Colour, 8),
        column(locale, Word::GoesTo, 20),
        column(locale, Word::Remark, 30),
        column(locale, Word::Done, 6),
    ];
    let mut table = Table::new(Part::Wiring, locale.word(Word::WiringTitle), columns);
    table.note(locale.word(Word::ColourConvention));
    table.note(locale.word(Word::LegsConvention));
    for device in &subject.order {
        device_rows(subject, *device, &mut table);
    }
    for (entrance, entry) in subject.site.entrances.iter().enumerate() {
        for lock in 0..entry.locks.len() {
            device_rows(subject, Device::Lock { entrance, lock }, &mut table);
        }
        for input in 0..entry.alarm_inputs.len() {
            device_rows(subject, Device::AlarmContact { entrance, input }, &mut table);
        }
    }
    table
}

fn device_rows(subject: &Subject<'_>, device: Device, table: &mut Table) {
    let place = subject.place_words(device);
    let head = format!("{}  {}", reference_designation(subject.site, device), model_title(subject, device));
    table.heading(if place.is_empty() { head } else { format!("{head}  ({place})") });
    let name = device.name(subject.site);
    for (terminal, leg, landings) in subject.wiring.of_device(device) {
        let start = vec![Cell::text(&name), Cell::text(terminal.mark()), Cell::text(leg.sign())];
        if landings.is_empty() {
            let mut cells = start;
            cells.resize(8, Cell::Empty);
            cells.push(locale_of_free(subject, device, terminal));
            cells.push(Cell::Tick);
            table.row(cells);
            continue;
        }
        for landing in landings {
            let mut cells = start.clone();
            cells.extend(landing_cells(subject, landing));
            cells.push(Cell::text(remark(subject, device, landing)));
            cells.push(Cell::Tick);
            table.row(cells);
        }
    }
}

fn landing_cells(subject: &Subject<'_>, landing: &Landing) -> Vec<Cell> {
    let cable = &subject.wiring.cables[landing.cable];
    let mut designation = cable.designation.clone();
    if cable.laid.side_by_side > 1 {
        designation = format!("{designation} #{}", landing.piece);
    }
    let colour = if cable.laid.is_existing { Cell::WriteIn } else { Cell::text(landing.conductor.colour) };
    vec![
        Cell::text(designation),
        Cell::text(&cable.laid.cable),
        Cell::Count(u64::from(landing.conductor.pair)),
        colour,
        Cell::text(place_name(subject.site, landing.other)),
    ]
}

fn remark(subject: &Subject<'_>, device: Device, landing: &Landing) -> String {
    let cable = &subject.wiring.cables[landing.cable];
    let mut remarks = Vec::new();
    if cable.laid.is_existing {
        remarks.push(subject.locale.word(Word::ExistingColours).to_string());
    }
    if let (CableOwner::Section { run, section }, Device::Station(station)) = (cable.laid.owner, device) {
        let run = &subject.site.runs[run];
        let is_last = section + 1 == run.sections.len();
        let ends_here = run.sections[section].to == latchline_site::model::RunStop::Station(station);
        if is_last && ends_here && run.terminator.as_ref().is_some_and(|terminator| terminator.value) {
            remarks.push(subject.locale.word(Word::TerminatorHere).to_string());
        }
        let entrance = subject.site.entrances.iter().find(|entrance| entrance.station == station);
        if entrance.is_some_and(|entrance| entrance.surge_protection.is_some()) {
            remarks.push(subject.locale.word(Word::SurgeProtectorHere).to_string());
        }
    }
    remarks.join("; ")
}

fn locale_of_free(subject: &Subject<'_>, device: Device, terminal: Terminal) -> Cell {
    let locale = &subject.locale;
    match (device, terminal) {
        (Device::Station(_), Terminal::Out) => locale.cell(Word::EndOfChain),
        (Device::Lock { entrance, lock }, _) => {
            let used = &subject.site.entrances[entrance].locks[lock];
            if used.cable.is_none() { locale.cell(Word::LockCableNotStated) } else { locale.cell(Word::Free) }
        }
        (Device::Station(_), Terminal::LockOutput(_)) => locale.cell(Word::LockCableNotStated),
        (Device::AlarmContact { .. }, _) | (_, Terminal::AlarmInput(_)) => {
            locale.cell(Word::ContactCableNotStated)
        }
        (Device::Station(_) | Device::Box(_), Terminal::In | Terminal::Input) => {
            locale.cell(Word::NothingLeadsHere)
        }
        (_, Terminal::Port(port)) => Cell::text(locale.say(&Sentence::FreePort { port: &port.to_string() })),
        _ => locale.cell(Word::Free),
    }
}

/// Title of the model of a device.
pub(super) fn model_title<'a>(subject: &Subject<'a>, device: Device) -> &'a str {
    let site = subject.site;
    match device {
        Device::Supply(index) => &site.supply_model(&site.supplies[index]).head.title,
        Device::Box(index) => &site.box_model(&site.boxes[index]).head.title,
        Device::Station(index) => &site.station_model(&site.stations[index]).head.title,
        Device::Lock { entrance, lock } => &site.lock(&site.entrances[entrance].locks[lock]).head.title,
        Device::AlarmContact { entrance, input } => {
            subject.locale.word(alarm_word(site.entrances[entrance].alarm_inputs[input].kind.value))
        }
    }
}
