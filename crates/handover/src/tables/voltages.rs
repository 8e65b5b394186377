//! The expected voltage at every terminal: in standby, as a meter should read it, and in the worst state.

use super::column::{column, measured};
use crate::language::Word;
use crate::locale::Rounding;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, MISSING, Role, Table};
use latchline_assess::ReadingPlace;
use latchline_finding::Unit;
use latchline_wiring::{Item, Pole, TerminalSet};

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let volts = |title, width| measured(locale, title, Unit::Volt, width);
    let columns = vec![
        column(locale, Word::Terminal, 18).with_role(Role::Names),
        volts(Word::StandbyNominal, 10),
        volts(Word::StandbyLowest, 10).with_role(Role::Lowest),
        volts(Word::StandbyHighest, 10).with_role(Role::Highest),
        column(locale, Word::WorstState, 26),
        volts(Word::WorstNominal, 10),
        volts(Word::WorstLowest, 10),
        volts(Word::LimitThere, 10),
        volts(Word::Margin, 10),
        volts(Word::Reading, 12).with_role(Role::Reading),
    ];
    let mut table = Table::new(Part::Voltages, locale.word(Word::VoltagesTitle), columns);
    table.note(locale.word(Word::StandbyMeaning));
    table.note(locale.word(Word::CornersMeaning));
    for device in &subject.order {
        for (terminal, place) in terminals(subject, *device) {
            let mut cells = vec![Cell::text(subject.place_name((*device, terminal)))];
            cells.extend(standby_cells(subject, place));
            cells.extend(if matches!(terminal, TerminalSet::In | TerminalSet::Input) {
                worst_cells(subject, *device)
            } else {
                vec![Cell::Empty; 5]
            });
            cells.push(Cell::WriteIn);
            table.row(cells);
        }
    }
    table
}

/// The terminals of a device and where they are read. A station's `out` is joined to its `in` and is not listed.
fn terminals(subject: &Subject<'_>, item: Item) -> Vec<(TerminalSet, Option<ReadingPlace>)> {
    let input = subject.reading_place(item);
    match item {
        Item::Supply(_) => subject
            .wiring
            .of_item(item)
            .filter(|(terminal, _)| {
                matches!(terminal.set, TerminalSet::Output(_)) && terminal.pole == Pole::Plus
            })
            .map(|(terminal, _)| (terminal.set, input))
            .collect(),
        Item::Box(index) => {
            let ports = subject.site.box_model(&subject.site.boxes[index]).ports.value;
            let mut list = vec![(TerminalSet::Input, input)];
            list.extend(
                (1..=ports).map(|port| {
                    (TerminalSet::Port(port), Some(ReadingPlace::Port { box_index: index, port }))
                }),
            );
            list
        }
        _ => vec![(TerminalSet::In, input)],
    }
}

/// Nominal, lowest and highest voltage in standby.
pub(super) fn standby_cells(subject: &Subject<'_>, place: Option<ReadingPlace>) -> [Cell; 3] {
    let locale = &subject.locale;
    match place.and_then(|place| subject.readings.standby_voltage(place)) {
        Some(voltage) => [
            locale.quantity(voltage.nominal.value, Unit::Volt, Rounding::Nearest),
            locale.quantity(voltage.lowest.value, Unit::Volt, Rounding::Down),
            locale.quantity(voltage.highest.value, Unit::Volt, Rounding::Up),
        ],
        None => [Cell::text(MISSING), Cell::text("–"), Cell::text("–")],
    }
}

fn worst_cells(subject: &Subject<'_>, item: Item) -> Vec<Cell> {
    let locale = &subject.locale;
    let Some(result) = subject.result(&subject.name(item)) else { return vec![Cell::Empty; 5] };
    let worst = &result.worst;
    vec![
        Cell::text(locale.worst_state(worst)),
        locale.quantity_or_dash(worst.nominal_v, Unit::Volt, Rounding::Nearest),
        locale.quantity_or_dash(worst.adverse_v, Unit::Volt, Rounding::Down),
        locale.quantity(worst.limit_v, Unit::Volt, Rounding::Nearest),
        locale.quantity(worst.margin_v(), Unit::Volt, Rounding::Down),
    ]
}
