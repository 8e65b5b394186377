//! Steps of the commissioning sheets: numbered, each with what is expected and room to write.

use super::column::column;
use crate::language::{Sentence, Word};
use crate::locale::Locale;
use crate::options::Part;
use crate::step::{Expected, Sheet, Stage, Step, Taken};
use crate::subject::Subject;
use crate::table::{Cell, Choice, Column, Role, Table};

/// First letter of the stages before power.
pub(super) const FIRST_BEFORE_POWER: char = 'A';
/// First letter of the stages with power: they go on where those before power end.
pub(crate) const FIRST_LIVE: char = 'G';

/// A commissioning sheet in the making.
pub(super) struct Steps<'s, 'a> {
    pub(super) subject: &'s Subject<'a>,
    sheet: Sheet,
    number: usize,
    /// Letter of the next stage.
    letter: char,
}

impl<'s, 'a> Steps<'s, 'a> {
    /// A sheet whose first stage has this letter.
    pub(super) fn new(subject: &'s Subject<'a>, part: Part, title: Word, first: char) -> Self {
        let title = subject.locale.word(title).to_string();
        let sheet = Sheet { part, title, notes: Vec::new(), stages: Vec::new() };
        Steps { subject, sheet, number: 0, letter: first }
    }

    pub(super) fn note(&mut self, word: Word) {
        self.sheet.notes.push(self.subject.locale.word(word).to_string());
    }

    pub(super) fn note_sentence(&mut self, sentence: &Sentence<'_>) {
        self.sheet.notes.push(self.subject.locale.say(sentence));
    }

    pub(super) fn stage(&mut self, title: Word) {
        let (letter, words) = (self.letter, self.subject.locale.word(title).to_string());
        self.sheet.stages.push(Stage { word: title, letter, title: words, steps: Vec::new() });
        self.letter = char::from_u32(self.letter as u32 + 1).unwrap_or(self.letter);
    }

    /// Says which reading the last step takes.
    pub(super) fn takes(&mut self, taken: Taken) {
        let last = self.sheet.stages.last_mut().and_then(|stage| stage.steps.last_mut());
        if let Some(step) = last {
            step.taken = Some(taken);
        }
    }

    /// Something to do or to see.
    pub(super) fn word(&mut self, place: &str, what: Word) {
        let what = self.subject.locale.word(what).to_string();
        self.row(place, what, None, Expected::Done);
        self.is_general();
    }

    /// The same in a sentence.
    pub(super) fn say(&mut self, place: &str, what: String) {
        self.row(place, what, None, Expected::Done);
    }

    /// A reading with this instrument.
    pub(super) fn read(&mut self, place: &str, what: String, with: Word, expected: Expected) {
        self.row(place, what, Some(with), expected);
    }

    /// The same in fixed words.
    pub(super) fn read_word(&mut self, place: &str, what: Word, with: Word, expected: Expected) {
        let what = self.subject.locale.word(what).to_string();
        self.row(place, what, Some(with), expected);
        self.is_general();
    }

    /// Something to write down.
    pub(super) fn write(&mut self, place: &str, what: Word) {
        let what = self.subject.locale.word(what).to_string();
        self.row(place, what, None, Expected::Written);
        self.is_general();
    }

    /// Says that the words of the last step name nothing of its place.
    fn is_general(&mut self) {
        let last = self.sheet.stages.last_mut().and_then(|stage| stage.steps.last_mut());
        if let Some(step) = last {
            step.is_general = true;
        }
    }

    /// Something to know.
    pub(super) fn tell(&mut self, place: &str, what: String) {
        self.row(place, what, None, Expected::Told);
    }

    fn row(&mut self, place: &str, what: String, with: Option<Word>, expected: Expected) {
        self.number += 1;
        let (number, place) = (self.number, place.to_string());
        if let Some(stage) = self.sheet.stages.last_mut() {
            let step =
                Step { number, place, what, instrument: with, expected, taken: None, is_general: false };
            stage.steps.push(step);
        }
    }

    pub(super) fn into_sheet(self) -> Sheet {
        self.sheet
    }

    pub(super) fn into_table(self) -> Table {
        table(self.subject, self.sheet)
    }
}

/// The columns of steps.
pub(crate) fn step_columns(locale: &Locale) -> Vec<Column> {
    vec![
        column(locale, Word::Step, 6),
        column(locale, Word::Where, 16).with_role(Role::Names),
        column(locale, Word::WhatToDo, 60).with_role(Role::Names),
        column(locale, Word::Instrument, 14),
        column(locale, Word::ExpectedValue, 11),
        column(locale, Word::Lowest, 11).with_role(Role::Lowest),
        column(locale, Word::Highest, 11).with_role(Role::Highest),
        column(locale, Word::Reading, 14).with_role(Role::Reading),
        column(locale, Word::Done, 6),
    ]
}

/// A sheet as a table.
fn table(subject: &Subject<'_>, sheet: Sheet) -> Table {
    let locale = &subject.locale;
    let mut table = Table::new(sheet.part, &sheet.title, step_columns(locale));
    table.notes = sheet.notes;
    for stage in sheet.stages {
        table.heading(format!("{}. {}", stage.letter, stage.title));
        for step in stage.steps {
            let with = step.instrument.map_or(Cell::Empty, |word| locale.cell(word));
            let last = written(&step);
            let mut cells =
                vec![Cell::count(step.number), Cell::text(step.place), Cell::text(step.what), with];
            cells.extend(step.expected.cells(locale));
            cells.extend(last);
            table.row(cells);
        }
    }
    table
}

/// What is written and ticked at a step.
pub(crate) fn written(step: &Step) -> Vec<Cell> {
    let tick = if step.instrument.is_some() { Cell::Passed } else { Cell::Tick };
    match step.expected {
        Expected::Done => vec![Cell::Empty, tick],
        Expected::Polarity => vec![Cell::Choice(Choice::Polarity), tick],
        Expected::Told => Vec::new(),
        _ => vec![Cell::WriteIn, tick],
    }
}

/// Where a run ends.
pub(super) fn run_end(subject: &Subject<'_>, run: usize) -> String {
    let last = subject.site.runs[run].sections.last();
    last.map_or(String::new(), |last| subject.site.stop_id(last.to).to_string())
}
