//! Steps of the commissioning sheets: numbered, each with what is expected and room to write.

use super::at::At;
use super::column::column;
use crate::language::{Sentence, Word};
use crate::locale::Locale;
use crate::options::Part;
use crate::step::{Expected, Sheet, Span, Stage, Step, Taken, meter_accuracy};
use crate::subject::Subject;
use crate::table::{Cell, Choice, Column, Role, Table};
use latchline_finding::{Language, Unit};

/// First letter of the stages before power.
pub(super) const FIRST_BEFORE_POWER: char = 'A';
/// First letter of the stages with power: they go on where those before power end.
pub const FIRST_LIVE: char = 'G';

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

    /// Says what the ranges of ohms and amperes allow for the meter.
    pub(super) fn note_of_meters(&mut self) {
        let locale = &self.subject.locale;
        let allowed = |unit: Unit| {
            let accuracy = meter_accuracy(unit)?;
            let share = locale.trimmed(accuracy.share * 100.0, 1);
            Some(format!("{share} % + {} {}", locale.trimmed(accuracy.always, 3), locale.symbol(unit)))
        };
        if let Some((ohms, amperes)) = allowed(Unit::Ohm).zip(allowed(Unit::Ampere)) {
            self.note_sentence(&Sentence::MeterNote { ohms: &ohms, amperes: &amperes });
        }
    }

    /// Things to count: a number to be found.
    pub(super) fn count(&mut self, what: Word, count: usize) {
        let what = self.subject.locale.word(what).to_string();
        let span = Span { nominal: count as f64, lowest: count as f64, highest: count as f64 };
        self.row(At::Site, what, None, Expected::Between(span, Unit::Count));
        self.is_general();
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
    pub(super) fn word(&mut self, at: impl Into<At>, what: Word) {
        let what = self.subject.locale.word(what).to_string();
        self.row(at, what, None, Expected::Done);
        self.is_general();
    }

    /// The same in a sentence.
    pub(super) fn say(&mut self, at: impl Into<At>, what: String) {
        self.row(at, what, None, Expected::Done);
    }

    /// A reading with this instrument.
    pub(super) fn read(&mut self, at: impl Into<At>, what: String, with: Word, expected: Expected) {
        self.row(at, what, Some(with), expected);
    }

    /// The same in fixed words.
    pub(super) fn read_word(&mut self, at: impl Into<At>, what: Word, with: Word, expected: Expected) {
        let what = self.subject.locale.word(what).to_string();
        self.row(at, what, Some(with), expected);
        self.is_general();
    }

    /// Something to write down.
    pub(super) fn write(&mut self, at: impl Into<At>, what: Word) {
        let what = self.subject.locale.word(what).to_string();
        self.row(at, what, None, Expected::Written);
        self.is_general();
    }

    /// Says that the words of the last step name nothing of its place.
    fn is_general(&mut self) {
        let last = self.sheet.stages.last_mut().and_then(|stage| stage.steps.last_mut());
        if let Some(step) = last {
            step.is_general = true;
        }
    }

    /// What a card says of the last step, in few words.
    pub(super) fn is_in_brief(&mut self, words: Word) {
        let last = self.sheet.stages.last_mut().and_then(|stage| stage.steps.last_mut());
        if let Some(step) = last {
            step.in_brief = Some(words);
        }
    }

    /// What the order of work says of the last step, which it gives at many places.
    pub(super) fn is_in_general(&mut self, words: Word) {
        let last = self.sheet.stages.last_mut().and_then(|stage| stage.steps.last_mut());
        if let Some(step) = last {
            step.in_general = Some(words);
        }
    }

    /// Something to know.
    pub(super) fn tell(&mut self, at: impl Into<At>, what: String) {
        self.row(at, what, None, Expected::Told);
    }

    fn row(&mut self, at: impl Into<At>, what: String, with: Option<Word>, expected: Expected) {
        self.number += 1;
        let (number, at) = (self.number, at.into());
        let [place, key] =
            [self.subject.locale.language, Language::English].map(|language| at.name(self.subject, language));
        let spot = at.spot(self.subject);
        if let Some(stage) = self.sheet.stages.last_mut() {
            let step = Step {
                number,
                spot,
                place,
                key,
                what,
                instrument: with,
                expected,
                taken: None,
                is_general: false,
                in_brief: None,
                in_general: None,
            };
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
pub fn step_columns(locale: &Locale) -> Vec<Column> {
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

/// From so many places on, one after the other, at which the same is only to be ticked, they share a row: their job cards have a box for each.
const FOLDED_FROM: usize = 3;
/// Most places in a row: a row of more would be torn over two pages.
const FOLDED_TO: usize = 30;

/// Steps row by row; folded while devices are mounted and set, which is most of a sheet.
fn folded(steps: Vec<Step>, is_folded: bool) -> Vec<Vec<Step>> {
    let is_alike = |one: &Step, next: &Step| {
        let is_tick = one.is_general && one.expected == Expected::Done && one.instrument.is_none();
        is_tick && one.what == next.what && one.expected == next.expected && !next.place.is_empty()
    };
    let mut rows: Vec<Vec<Step>> = Vec::new();
    for step in steps {
        match rows.last_mut() {
            Some(row) if row.len() < FOLDED_TO && is_alike(&row[0], &step) => row.push(step),
            _ => rows.push(vec![step]),
        }
    }
    let few = |row: Vec<Step>| match !is_folded || row.len() < FOLDED_FROM {
        true => row.into_iter().map(|step| vec![step]).collect(),
        false => vec![row],
    };
    rows.into_iter().flat_map(few).collect()
}

/// A sheet as a table.
fn table(subject: &Subject<'_>, sheet: Sheet) -> Table {
    let locale = &subject.locale;
    let mut table = Table::new(sheet.part, &sheet.title, step_columns(locale));
    table.notes = sheet.notes;
    for stage in sheet.stages {
        table.heading(format!("{}. {}", stage.letter, stage.title));
        let is_folded = matches!(stage.word, Word::StageTerminate | Word::StageSet);
        for mut alike in folded(stage.steps, is_folded) {
            let Some(last) = alike.pop() else { continue };
            if let Some(first) = alike.first() {
                let number = format!("{}–{}", first.number, last.number);
                let places: Vec<&str> = alike.iter().chain([&last]).map(|step| step.place.as_str()).collect();
                let mut cells =
                    vec![Cell::text(number), Cell::text(places.join(", ")), Cell::text(&last.what)];
                cells.resize(table.columns.len() - 1, Cell::Empty);
                cells.push(Cell::Tick);
                table.row(cells);
                continue;
            }
            let step = last;
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
pub fn written(step: &Step) -> Vec<Cell> {
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
