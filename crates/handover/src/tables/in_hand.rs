//! What is in hand on every run, and the free ports of every box.

use super::column::{column, measured};
use crate::language::Word;
use crate::locale::Rounding;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, MISSING, Table};
use latchline_finding::Unit;
use latchline_site::model::RunStart;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let (site, locale) = (subject.site, &subject.locale);
    let columns = vec![
        column(locale, Word::From, 14),
        column(locale, Word::Run, 14),
        column(locale, Word::CableType, 16),
        measured(locale, Word::Length, Unit::Metre, 9),
        column(locale, Word::Stations, 9),
        measured(locale, Word::LargestCurrent, Unit::Ampere, 10),
        measured(locale, Word::Limit, Unit::Ampere, 9),
        measured(locale, Word::CurrentInHand, Unit::Ampere, 10),
        column(locale, Word::WorstDevice, 16),
        measured(locale, Word::Margin, Unit::Volt, 9),
    ];
    let mut table = Table::new(Part::InHand, locale.word(Word::InHandTitle), columns);
    table.note(locale.word(Word::InHandNote));
    for run in &subject.assessment.runs {
        let worst = run.worst_device.map(|index| &subject.assessment.devices[index]);
        let limit = run.current.limit_a;
        let in_hand = limit.zip(run.current.current_a).map(|(limit, current)| limit - current);
        let optional = |value: Option<f64>, rounding| match value {
            Some(value) => locale.quantity(value, Unit::Ampere, rounding),
            None => Cell::text(MISSING),
        };
        table.row(vec![
            Cell::text(run.from.as_str()),
            Cell::text(run.id.as_str()),
            Cell::text(&run.cable),
            locale.length_laid(run.length_m),
            Cell::count(run.stations),
            optional(run.current.current_a, Rounding::Up),
            optional(limit, Rounding::Nearest),
            optional(in_hand, Rounding::Down),
            Cell::text(worst.map_or("", |device| device.id.as_str())),
            worst.map_or(Cell::Empty, |device| {
                locale.quantity(device.worst.margin_v(), Unit::Volt, Rounding::Down)
            }),
        ]);
    }
    let mut free = Vec::new();
    for (index, item) in site.boxes.iter().enumerate() {
        let is_used =
            |port: u32| site.runs.iter().any(|run| run.from == RunStart::Port { box_index: index, port });
        let ports = (1..=site.box_model(item).ports.value).filter(|port| !is_used(*port));
        free.extend(ports.map(|port| format!("{}.{port}", item.id)));
    }
    if !free.is_empty() {
        table.heading(locale.word(Word::FreePorts));
    }
    for port in free {
        table.row(vec![Cell::text(port), locale.cell(Word::Free)]);
    }
    table
}
