//! Lists to choose from where one of a few words is to be written.
//!
//! They help, and forbid nothing: what else is written stays as it was written.

use latchline_handover::language::Word;
use latchline_handover::locale::Locale;
use latchline_handover::table::{Cell, Choice};
use rust_xlsxwriter::{DataValidation, DataValidationErrorStyle, Worksheet, XlsxError};
use std::collections::BTreeMap;

/// Letter codes of IEC 60757, single colours and the pairs of ANSI/TIA-568.
const COLOUR_CODES: [&str; 15] =
    ["BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "WHBU", "WHOG", "WHGN", "WHBN"];

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum List {
    Done,
    Passed,
    Of(Choice),
}

/// The cells of a sheet that have a list: for each list and column its rows from first to last.
#[derive(Debug, Default)]
pub(super) struct Choices(BTreeMap<(List, u16), Vec<(u32, u32)>>);

impl Choices {
    /// Takes note of a cell.
    pub(super) fn add(&mut self, (row, column): (u32, u16), cell: &Cell) {
        let room = match cell {
            Cell::Written { room, .. } => room,
            cell => cell,
        };
        let list = match room {
            Cell::Tick => List::Done,
            Cell::Passed => List::Passed,
            Cell::Choice(choice) => List::Of(*choice),
            _ => return,
        };
        let ranges = self.0.entry((list, column)).or_default();
        match ranges.last_mut() {
            Some((_, last)) if *last + 1 == row => *last = row,
            _ => ranges.push((row, row)),
        }
    }

    /// Writes the lists.
    pub(super) fn write(&self, sheet: &mut Worksheet, locale: &Locale) -> Result<(), XlsxError> {
        for ((list, column), ranges) in &self.0 {
            let words = words(*list, locale);
            let validation = DataValidation::new()
                .allow_list_strings(&words)?
                .set_error_style(DataValidationErrorStyle::Information)
                .set_error_title(locale.word(Word::ChoiceTitle))?
                .set_error_message(locale.word(Word::ChoiceOther))?;
            for (first, last) in ranges {
                sheet.add_data_validation(*first, *column, *last, *column, &validation)?;
            }
        }
        Ok(())
    }
}

fn words(list: List, locale: &Locale) -> Vec<&'static str> {
    let of = |words: &[Word]| words.iter().map(|word| locale.word(*word)).collect();
    match list {
        List::Done => of(&[Word::ChoiceDone, Word::ChoiceNotDone]),
        List::Passed => of(&[Word::ChoicePassed, Word::ChoiceFailed]),
        List::Of(Choice::Polarity) => of(&[Word::ChoiceRight, Word::ChoiceReversed]),
        List::Of(Choice::Gravity) => of(&[Word::Error, Word::Warning, Word::Advice]),
        List::Of(Choice::Colour) => COLOUR_CODES.to_vec(),
    }
}
