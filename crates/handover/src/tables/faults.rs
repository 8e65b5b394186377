//! The table of faults: what readings at a run, box or supply say, where nobody can ask the laptop.

use super::column::column;
use crate::language::{Sentence, Word};
use crate::locale::{Locale, Rounding};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Column, MISSING, Table};
use latchline_finding::Unit;
use latchline_locate::{
    Element, FaultSheet, Quantity, SheetPlace, SheetReading, SheetRow, SheetValue, Shown, place_name,
};

/// Lines of the sheet in a pack: two pages of A4, about.
const MOST_LINES: usize = 50;

/// How one of the readings is shown.
struct Scale {
    title: Word,
    unit: &'static str,
    /// What one of the unit is in the SI unit.
    per_unit: f64,
    of: Unit,
    decimals: u8,
}

/// Builds the sheet of a pack.
pub fn table(subject: &Subject<'_>) -> Table {
    match subject.faults {
        Some(faults) => sheet(subject, &faults.sheet.clone().shortened(MOST_LINES)),
        None => {
            let mut table = empty(subject);
            table.note(subject.locale.word(Word::FaultsNotMade));
            table
        }
    }
}

/// Builds a sheet of all these faults.
pub fn sheet(subject: &Subject<'_>, faults: &FaultSheet) -> Table {
    let locale = &subject.locale;
    let mut table = empty(subject);
    let share = |share: f64| locale.number(100.0 * share, 1);
    if faults.places.is_empty() {
        table.note(locale.word(Word::FaultsNone));
        return table;
    }
    if subject.errors() > 0 {
        table.note(locale.word(Word::FaultsSiteFails));
    }
    table.note(locale.word(Word::FaultsHowToRead));
    table.note(locale.word(Word::FaultsHowToFindWhere));
    if faults.left_out_rows > 0 {
        let (rows, share) = (faults.left_out_rows, &share(faults.left_out));
        table.note(locale.say(&Sentence::FaultsLeftOut { rows, share }));
    }
    let (unseen, none) = (&share(faults.unseen), &share(faults.none_of_these));
    table.note(locale.say(&Sentence::FaultsUnseen { share: unseen, none }));
    table.note(locale.word(Word::FaultsRestOn));
    for place in &faults.places {
        let name = heading(subject, place);
        table.heading(&name);
        let place_cell = || Cell::text(&name);
        let mut cells = vec![place_cell(), locale.cell(Word::FaultWithout), Cell::Empty];
        for (shown, reading) in Shown::ALL.iter().zip(&place.readings) {
            cells.push(Cell::text(planned(locale, *shown, reading.as_ref())));
        }
        table.row(cells);
        for row in &place.rows {
            let percent = percent(locale, row.share);
            let mut cells = vec![place_cell(), Cell::text(kinds(locale, row)), percent];
            for (shown, value) in Shown::ALL.iter().zip(&row.values) {
                cells.push(Cell::text(value_text(locale, *shown, *value)));
            }
            table.row(cells);
        }
    }
    table
}

/// The least share that is told as a figure, in per cent.
const LEAST_PERCENT: f64 = 0.01;

fn empty(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let measured = |shown: &Shown| {
        let scale = scale(locale, *shown);
        Column { unit: Some(scale.unit), ..column(locale, scale.title, 12) }
    };
    let mut columns = vec![
        column(locale, Word::FaultWhere, 20).said_above(),
        column(locale, Word::FaultWhat, 48),
        column(locale, Word::FaultShare, 8),
    ];
    columns.extend(Shown::ALL.iter().map(measured));
    Table::new(Part::Faults, locale.word(Word::FaultsTitle), columns)
}

/// A share in per cent, never nothing of what there is.
fn percent(locale: &Locale, share: f64) -> Cell {
    let value = (share * 1e4).round() / 100.0;
    if value > 0.0 {
        Cell::Quantity { value, decimals: 2, unit: "" }
    } else {
        Cell::text(format!("< {}", locale.number(LEAST_PERCENT, 2)))
    }
}

fn scale(locale: &Locale, shown: Shown) -> Scale {
    let (title, of, unit, per_unit, decimals) = match shown {
        Shown::Start => (Word::FaultStart, Unit::Volt, locale.symbol(Unit::Volt), 1.0, 1),
        Shown::End => (Word::FaultEnd, Unit::Volt, locale.symbol(Unit::Volt), 1.0, 1),
        Shown::Current => (Word::FaultCurrent, Unit::Ampere, locale.symbol(Unit::Ampere), 1.0, 3),
        Shown::Loop => (Word::FaultLoop, Unit::Ohm, locale.ohm("ohm"), 1.0, 1),
        Shown::Insulation => (Word::FaultInsulation, Unit::Ohm, locale.ohm("Mohm"), 1e6, 3),
    };
    Scale { title, unit, per_unit, of, decimals }
}

/// Which run, box or supply, and where it begins and ends.
fn heading(subject: &Subject<'_>, place: &SheetPlace) -> String {
    let (site, locale) = (subject.site, &subject.locale);
    let at = |shown: usize| {
        let reading: Option<&SheetReading> = place.readings[shown].as_ref();
        reading.map(|reading| place_name(site, reading.quantity.place()))
    };
    let name = &place.element.name(site);
    let (from, to) = (at(0), at(1));
    let (from, to) = (from.as_deref(), to.as_deref());
    locale.say(&match place.element {
        Element::Run(_) => {
            let (from, to) = (from.unwrap_or(MISSING), to.unwrap_or(MISSING));
            Sentence::FaultAtRun { run: name, from, to }
        }
        Element::Supply(_) => Sentence::FaultAtSupply { supply: name, to },
        _ => Sentence::FaultAtBox { name, to },
    })
}

fn kinds(locale: &Locale, row: &SheetRow) -> String {
    let kinds: Vec<&str> = row.kinds.iter().map(|kind| kind.say(locale.language)).collect();
    let kinds = &kinds.join("; ");
    match row.more {
        0 => kinds.clone(),
        more => locale.say(&Sentence::FaultKinds { kinds, more }),
    }
}

fn planned(locale: &Locale, shown: Shown, reading: Option<&SheetReading>) -> String {
    match reading {
        None => String::from(MISSING),
        Some(SheetReading { quantity: Quantity::Insulation { .. }, low, .. }) => {
            between(locale, shown, *low, f64::INFINITY)
        }
        Some(reading) => between(locale, shown, reading.low, reading.high),
    }
}

fn value_text(locale: &Locale, shown: Shown, value: SheetValue) -> String {
    match value {
        SheetValue::Unread => String::from(MISSING),
        SheetValue::AsPlanned => String::from(locale.word(Word::FaultAsPlanned)),
        SheetValue::Nothing => String::from("0"),
        SheetValue::Open => String::from(locale.word(Word::FaultOpen)),
        SheetValue::Between { low, high } => between(locale, shown, low, high),
    }
}

/// The least rounded down, the most rounded up.
fn between(locale: &Locale, shown: Shown, low: f64, high: f64) -> String {
    let scale = scale(locale, shown);
    let figure = |value: f64, rounding| {
        let Cell::Quantity { value, decimals, .. } =
            locale.quantity_with(value / scale.per_unit, scale.of, scale.decimals, rounding)
        else {
            return String::from(MISSING);
        };
        locale.number(value, usize::from(decimals))
    };
    let (least, most) = (figure(low, Rounding::Down), figure(high, Rounding::Up));
    match (high.is_finite(), least == most) {
        (false, _) => format!("≥ {least}"),
        (true, true) => least,
        (true, false) => format!("{least} – {most}"),
    }
}
