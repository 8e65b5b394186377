//! Steps of the commissioning sheets: numbered, each with what is expected and room to write.

use super::column;
use crate::language::{Sentence, Word};
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

/// First letter of the stages before power.
pub(super) const FIRST_BEFORE_POWER: char = 'A';
/// First letter of the stages with power: they go on where those before power end.
pub(super) const FIRST_LIVE: char = 'G';

/// What is expected of a step.
pub(super) enum Expected {
    /// Something to do or to see: a box to tick.
    Done,
    /// A reading between two values.
    Between(Span, Unit),
    /// A reading near the first value, not below the second.
    DownTo(f64, f64, Unit),
    /// A reading near the first value, not above the second.
    UpTo(f64, f64, Unit),
    /// A reading near this, without limits.
    About(f64, Unit),
    /// A reading not below what is written.
    AtLeastWritten(String),
    /// Something to write.
    Written,
    /// Something to know: nothing to write, nothing to tick.
    Told,
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
    /// Letter of the next stage.
    letter: char,
}

impl<'s, 'a> Steps<'s, 'a> {
    /// A sheet whose first stage has this letter.
    pub(super) fn new(subject: &'s Subject<'a>, part: Part, title: Word, first: char) -> Self {
        let locale = &subject.locale;
        let columns = vec![
            column(locale, Word::Step, 6),
            column(locale, Word::Where, 16),
            column(locale, Word::WhatToDo, 60),
            column(locale, Word::Instrument, 14),
            column(locale, Word::ExpectedValue, 11),
            column(locale, Word::Lowest, 11),
            column(locale, Word::Highest, 11),
            column(locale, Word::Reading, 14),
            column(locale, Word::Done, 6),
        ];
        let table = Table::new(part, locale.word(title), columns);
        Steps { subject, table, number: 0, letter: first }
    }

    pub(super) fn note(&mut self, word: Word) {
        self.table.note(self.subject.locale.word(word));
    }

    pub(super) fn note_sentence(&mut self, sentence: &Sentence<'_>) {
        self.table.note(self.subject.locale.say(sentence));
    }

    pub(super) fn stage(&mut self, title: Word) {
        self.table.heading(format!("{}. {}", self.letter, self.subject.locale.word(title)));
        self.letter = char::from_u32(self.letter as u32 + 1).unwrap_or(self.letter);
    }

    /// Something to do or to see.
    pub(super) fn word(&mut self, place: &str, what: Word) {
        let what = self.subject.locale.word(what).to_string();
        self.say(place, what);
    }

    /// The same in a sentence.
    pub(super) fn say(&mut self, place: &str, what: String) {
        self.row(place, what, None, &Expected::Done);
    }

    /// A reading with this instrument.
    pub(super) fn read(&mut self, place: &str, what: String, with: Word, expected: &Expected) {
        self.row(place, what, Some(with), expected);
    }

    /// The same in fixed words.
    pub(super) fn read_word(&mut self, place: &str, what: Word, with: Word, expected: &Expected) {
        let what = self.subject.locale.word(what).to_string();
        self.row(place, what, Some(with), expected);
    }

    /// Something to write down.
    pub(super) fn write(&mut self, place: &str, what: Word) {
        let what = self.subject.locale.word(what).to_string();
        self.row(place, what, None, &Expected::Written);
    }

    /// Something to know.
    pub(super) fn tell(&mut self, place: &str, what: String) {
        self.row(place, what, None, &Expected::Told);
    }

    fn row(&mut self, place: &str, what: String, with: Option<Word>, expected: &Expected) {
        let locale = &self.subject.locale;
        self.number += 1;
        let with = with.map_or(Cell::Empty, |word| locale.cell(word));
        let mut cells = vec![Cell::count(self.number), Cell::text(place), Cell::text(what), with];
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
            Expected::DownTo(nominal, least, unit) => cells.extend([
                locale.quantity(*nominal, *unit, Rounding::Nearest),
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
            Expected::About(nominal, unit) => cells.extend([
                locale.quantity(*nominal, *unit, Rounding::Nearest),
                Cell::Empty,
                Cell::Empty,
                Cell::WriteIn,
                Cell::Tick,
            ]),
            Expected::AtLeastWritten(least) => {
                cells.extend([Cell::Empty, Cell::text(least), Cell::Empty, Cell::WriteIn, Cell::Tick]);
            }
            Expected::Written => {
                cells.extend([Cell::Empty, Cell::Empty, Cell::Empty, Cell::WriteIn, Cell::Tick]);
            }
            Expected::Told => {}
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

/// Where a run ends.
pub(super) fn run_end(subject: &Subject<'_>, run: usize) -> String {
    let last = subject.site.runs[run].sections.last();
    last.map_or(String::new(), |last| subject.site.stop_id(last.to).to_string())
}
