//! Columns.

use crate::language::Word;
use crate::locale::Locale;
use crate::table::{Column, Role};
use latchline_finding::Unit;

/// A column without a unit of its own.
pub fn column(locale: &Locale, title: Word, width: u8) -> Column {
    Column {
        title: locale.word(title).to_string(),
        unit: None,
        width,
        is_summed: false,
        is_said_above: false,
        role: Role::Plain,
    }
}

/// A column of quantities of one unit.
pub(super) fn measured(locale: &Locale, title: Word, unit: Unit, width: u8) -> Column {
    Column { unit: Some(locale.symbol(unit)), ..column(locale, title, width) }
}
