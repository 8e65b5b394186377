//! The revisions of the plan: what changed when, and which one holds.

use super::column::column;
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Table};

/// Rows to write in below what is stated, and where nothing is.
const ROWS_AFTER_STATED: usize = 6;
const ROWS_WITHOUT: usize = 14;

/// Builds it; the names of people are columns of their own, left out unless names are asked for.
pub fn table(subject: &Subject<'_>) -> Table {
    let with_people = subject.options.with_names;
    let locale = &subject.locale;
    let revisions = &subject.site.revisions;
    let mut columns = vec![
        column(locale, Word::Revision, 12),
        column(locale, Word::DateWord, 12),
        column(locale, Word::WhatChanged, 80),
    ];
    if with_people {
        columns.extend([column(locale, Word::MadeBy, 20), column(locale, Word::CheckedBy, 20)]);
    }
    let width = columns.len();
    let mut table = Table::new(Part::Revisions, locale.word(Word::RevisionsTitle), columns);
    let shown = subject.stamp.revision.as_str();
    match subject.site.current_revision() {
        None => table.note(locale.say(&Sentence::NoRevisionStated { shown })),
        Some(current) if current == shown => {
            table.note(locale.say(&Sentence::RevisionHolds { shown }));
        }
        Some(current) => table.note(locale.say(&Sentence::RevisionNotTheLast { shown, current })),
    }
    table.note(locale.word(Word::RevisionByHand));
    if !with_people && revisions.iter().any(|one| one.by.is_some() || one.checked_by.is_some()) {
        table.note(locale.word(Word::PeopleLeftOut));
    }
    for revision in revisions {
        let person = |name: &Option<String>| name.as_ref().map_or(Cell::WriteIn, Cell::text);
        let mut cells = vec![
            Cell::text(revision.mark.value.trim()),
            Cell::Date(revision.date.value.clone()),
            Cell::text(&revision.change),
        ];
        if with_people {
            cells.extend([person(&revision.by), person(&revision.checked_by)]);
        }
        table.row(cells);
    }
    let empty = if revisions.is_empty() { ROWS_WITHOUT } else { ROWS_AFTER_STATED };
    for _ in 0..empty {
        table.row(vec![Cell::WriteIn; width]);
    }
    table
}
