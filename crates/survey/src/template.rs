//! The workbook to fill in: headings, lists to choose from, and a page that explains every column.

use crate::sheets::{SETTINGS, SHEETS};
use latchline_finding::Language;
use latchline_words::survey::{SurveyNote, SurveyWord};
use rust_xlsxwriter::{DataValidation, DocProperties, ExcelDateTime, Format, Workbook, Worksheet, XlsxError};

/// Rows under the headings that have lists to choose from.
const PREPARED_ROWS: u32 = 500;

/// Rows of one sheet to be filled in: its name, then rows of texts in the order of its columns.
pub type Filling<'a> = (&'a str, Vec<Vec<String>>);

/// A workbook with every sheet, empty, its instructions in a language.
///
/// # Errors
/// [`XlsxError`] if the workbook cannot be built.
pub fn empty(language: Language) -> Result<Vec<u8>, XlsxError> {
    filled(&[], language)
}

/// A workbook with rows filled in. The same rows give the same bytes.
///
/// # Errors
/// [`XlsxError`] if the workbook cannot be built.
pub fn filled(filling: &[Filling<'_>], language: Language) -> Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    // A fixed date, so that the bytes repeat.
    let created = ExcelDateTime::from_ymd(2026, 1, 1)?;
    workbook.set_properties(&DocProperties::new().set_title("Survey").set_creation_datetime(&created));
    let heading = Format::new().set_bold().set_background_color(0x00D9_E2EC).set_text_wrap();
    instructions(workbook.add_worksheet(), &heading, language)?;
    for form in SHEETS {
        let sheet = workbook.add_worksheet();
        sheet.set_name(form.name)?;
        sheet.set_freeze_panes(1, 0)?;
        for (at, column) in form.columns.iter().enumerate() {
            let at = at as u16;
            sheet.write_string_with_format(0, at, column.heading, &heading)?;
            sheet.set_column_width(at, (column.heading.len() as f64 + 3.0).max(12.0))?;
            if !column.choices.is_empty() {
                let list = DataValidation::new().allow_list_strings(column.choices)?;
                sheet.add_data_validation(1, at, PREPARED_ROWS, at, &list)?;
            }
        }
        let rows = filling.iter().find(|(name, _)| *name == form.name).map(|(_, rows)| rows);
        match rows {
            Some(rows) => write_rows(sheet, rows)?,
            None if form.name == "Site" => {
                for (at, (name, choices, _)) in SETTINGS.iter().enumerate() {
                    let row = at as u32 + 1;
                    sheet.write_string(row, 0, *name)?;
                    if !choices.is_empty() {
                        let list = DataValidation::new().allow_list_strings(choices)?;
                        sheet.add_data_validation(row, 1, row, 1, &list)?;
                    }
                }
            }
            None => {}
        }
        if form.name == "Site" {
            sheet.set_column_width(0, 26)?;
            sheet.set_column_width(1, 40)?;
        }
    }
    workbook.save_to_buffer()
}

fn write_rows(sheet: &mut Worksheet, rows: &[Vec<String>]) -> Result<(), XlsxError> {
    for (at, row) in rows.iter().enumerate() {
        for (column, text) in row.iter().enumerate() {
            let (at, column) = (at as u32 + 1, column as u16);
            if text.is_empty() {
                continue;
            }
            // Names such as "01" stay text; what reads back as it was written is a number.
            match text.parse::<f64>() {
                Ok(number) if number.to_string() == *text => sheet.write_number(at, column, number)?,
                _ => sheet.write_string(at, column, text.as_str())?,
            };
        }
    }
    Ok(())
}

/// Words to choose from, one after another; `None` where anything may be written.
fn listed(choices: &[&str]) -> Option<String> {
    (!choices.is_empty()).then(|| choices.join(", "))
}

fn instructions(sheet: &mut Worksheet, heading: &Format, language: Language) -> Result<(), XlsxError> {
    sheet.set_name("Instructions")?;
    let wrapped = Format::new().set_text_wrap();
    for (column, width) in [(0u16, 18.0), (1, 22.0), (2, 12.0), (3, 90.0)] {
        sheet.set_column_width(column, width)?;
    }
    let mut row = 0;
    let lines = [SurveyWord::FillIn, SurveyWord::Places, SurveyWord::Drops, SurveyWord::Mains];
    for line in lines {
        sheet.write_string_with_format(row, 3, line.say(language), &wrapped)?;
        row += 1;
    }
    row += 1;
    let titles = [SurveyWord::Sheet, SurveyWord::Column, SurveyWord::Needed, SurveyWord::WhatGoesThere];
    for (column, title) in titles.into_iter().enumerate() {
        sheet.write_string_with_format(row, column as u16, title.say(language), heading)?;
    }
    row += 1;
    for form in SHEETS {
        sheet.write_string(row, 0, form.name)?;
        sheet.write_string(row, 2, if form.required { SurveyWord::Yes.say(language) } else { "" })?;
        sheet.write_string_with_format(row, 3, form.help.say(language), &wrapped)?;
        row += 1;
        for column in form.columns {
            sheet.write_string(row, 1, column.heading)?;
            sheet.write_string(row, 2, if column.required { SurveyWord::Yes.say(language) } else { "" })?;
            let choices = listed(column.choices);
            let note = SurveyNote::Choices { help: column.help, choices: choices.as_deref() };
            sheet.write_string_with_format(row, 3, note.say(language), &wrapped)?;
            row += 1;
        }
        if form.name == "Site" {
            for (name, choices, help) in SETTINGS {
                let choices = listed(choices);
                let note = SurveyNote::Setting { help: *help, choices: choices.as_deref() };
                sheet.write_string(row, 1, *name)?;
                sheet.write_string_with_format(row, 3, note.say(language), &wrapped)?;
                row += 1;
            }
        }
    }
    Ok(())
}
