//! The trade words that occur in a pack, explained.

use crate::language::{TERMS, Word};
use crate::options::Part;
use crate::pack::Drawing;
use crate::subject::Subject;
use crate::table::{Cell, Row, Table};
use crate::tables::column;

/// Builds it from everything else that the pack shows.
pub fn table(subject: &Subject<'_>, tables: &[Table], drawings: &[Drawing]) -> Table {
    let locale = &subject.locale;
    let columns = vec![column(locale, Word::TradeWord, 30), column(locale, Word::WhatItMeans, 110)];
    let mut table = Table::new(Part::Glossary, locale.word(Word::GlossaryTitle), columns);
    table.note(locale.word(Word::GlossaryNote));
    let said = said(tables, drawings);
    let language = locale.language;
    let mut found: Vec<_> = TERMS.iter().filter(|term| term.occurs_in(&said, language)).collect();
    found.sort_by_key(|term| sorted(term.word(language)));
    for term in found {
        table.row(vec![Cell::text(term.word(language)), Cell::text(term.meaning(language))]);
    }
    table
}

/// A word as it is sorted: small letters, umlauts as the letters that they are made of.
fn sorted(word: &str) -> String {
    let plain = |sign: char| match sign {
        'ä' => 'a',
        'ö' => 'o',
        'ü' => 'u',
        other => other,
    };
    word.to_lowercase().chars().map(plain).collect()
}

/// Everything that is said in tables and drawings, in small letters, a line each.
fn said(tables: &[Table], drawings: &[Drawing]) -> String {
    let mut lines: Vec<&str> = Vec::new();
    for table in tables {
        lines.push(&table.title);
        lines.extend(table.notes.iter().map(String::as_str));
        lines.extend(table.columns.iter().map(|column| column.title.as_str()));
        for row in &table.rows {
            match row {
                Row::Heading(heading) => lines.push(heading),
                Row::Cells(cells) => lines.extend(cells.iter().map(Cell::words)),
            }
        }
    }
    for scene in drawings.iter().flat_map(|drawing| &drawing.sheets) {
        lines.extend(scene.lettering());
    }
    lines.join("\n").to_lowercase()
}
