//! Steps of the commissioning sheets: numbered, each with what is expected and room to write.

use super::column;
use crate::language::Word;
use crate::locale::Rounding;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Table};
use latchline_assess::Prediction;
use latchline_finding::Unit;

/// A reading between two values, with its nominal one.
#[derive(Clone, Copy)]
pub(super) struct Span {
    pub(super) nominal: f64,
    pub(super) lowest: f64,
    pub(super) highest: f64,
}

impl From<&Prediction> for Span {
    fn from(prediction: &Prediction) -> Self {
        Span {
            nominal: prediction.nominal.value,
            lowest: prediction.lowest.value,
            highest: prediction.highest.value,
        }
    }
}

/// What is expected of a step.
pub(super) enum Expected {
    /// Something to do or to see: a box to tick.
    Done,
    /// A reading between two values.
    Between(Span, Unit),
    /// A reading not below this.
    AtLeast(f64, Unit),
    /// A reading near the first value, not above the second.
    UpTo(f64, f64, Unit),
    /// A reading whose limit stands in the words.
    Written,
    /// A reading without a prediction.
    Unknown(Unit),
}

impl Expected {
    /// A predicted reading, or one without a prediction.
    pub(super) fn predicted(prediction: Option<&Prediction>, unit: Unit) -> Self {
        prediction.map_or(Expected::Unknown(unit), |prediction| Expected::Between(prediction.into(), unit))
    }
}

/// A commissioning sheet in the making.
pub(super) struct Steps<'s, 'a> {
    pub(super) subject: &'s Subject<'a>,
    table: Table,
    number: usize,
}

impl<'s, 'a> Steps<'s, 'a> {
    pub(super) fn new(subject: &'s Subject<'a>, part: Part, title: Word) -> Self {
        let locale = &subject.locale;
        let columns = vec![
            column(locale, Word::Step, 6),
            column(locale, Word::Where, 20),
            column(locale, Word::WhatToDo, 54),
            column(locale, Word::ExpectedValue, 11),
            column(locale, Word::Lowest, 11),
            column(locale, Word::Highest, 11),
            column(locale, Word::Reading, 14),
            column(locale, Word::Done, 6),
        ];
        let table = Table::new(part, locale.word(title), columns);
        Steps { subject, table, number: 0 }
    }

    pub(super) fn note(&mut self, word: Word) {
        self.table.note(self.subject.locale.word(word));
    }

    pub(super) fn stage(&mut self, title: Word) {
        self.table.heading(self.subject.locale.word(title));
    }

    pub(super) fn word(&mut self, place: &str, what: Word, expected: &Expected) {
        let what = self.subject.locale.word(what).to_string();
        self.say(place, what, expected);
    }

    pub(super) fn say(&mut self, place: &str, what: String, expected: &Expected) {
        let locale = &self.subject.locale;
        self.number += 1;
        let mut cells = vec![Cell::count(self.number), Cell::text(place), Cell::text(what)];
        match expected {
            Expected::Done => {
                cells.extend([Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty, Cell::Tick]);
            }
            Expected::Between(value, unit) => cells.extend([
                locale.quantity(value.nominal, *unit, Rounding::Nearest),
                locale.quantity(value.lowest, *unit, Rounding::Down),
                locale.quantity(value.highest, *unit, Rounding::Up),
                Cell::WriteIn,
                Cell::Tick,
            ]),
            Expected::AtLeast(least, unit) => cells.extend([
                Cell::Empty,
                locale.quantity(*least, *unit, Rounding::Down),
                Cell::Empty,
                Cell::WriteIn,
                Cell::Tick,
            ]),
            Expected::UpTo(nominal, most, unit) => cells.extend([
                locale.quantity(*nominal, *unit, Rounding::Nearest),
                Cell::Empty,
                locale.quantity(*most, *unit, Rounding::Up),
                Cell::WriteIn,
                Cell::Tick,
            ]),
            Expected::Written => {
                cells.extend([Cell::Empty, Cell::Empty, Cell::Empty, Cell::WriteIn, Cell::Tick]);
            }
            Expected::Unknown(unit) => cells.extend([
                Cell::text(format!("– {}", locale.symbol(*unit)).trim().to_string()),
                Cell::Empty,
                Cell::Empty,
                Cell::WriteIn,
                Cell::Tick,
            ]),
        }
        self.table.row(cells);
    }

    pub(super) fn into_table(self) -> Table {
        self.table
    }
}
