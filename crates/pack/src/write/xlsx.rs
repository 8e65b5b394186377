//! The tables as one workbook: a sheet each, after a sheet of contents.
//!
//! Headings are frozen and repeated on every printed page, print areas are set, sums and products are
//! formulas that carry their values. Document properties hold a fixed date, so the same tables give the
//! same bytes.

use super::pages::{
    BODY_POINTS, MARGINS_INCH, RowSize, column_points, lay_out, least_characters, row_points,
    widest_column_points, wrapped_lines,
};
use crate::language::Word;
use crate::options::Paper;
use crate::subject::Subject;
use crate::table::{Cell, Column, MISSING, Row, Table};
use crate::tables::{cautions, error_line, origin_line};
use rust_xlsxwriter::{
    Color, DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Formula, Workbook, Worksheet,
    XlsxError,
};

/// The most characters that a cell of a workbook holds.
const MOST_CHARACTERS: usize = 32_767;
const INK: Color = Color::RGB(0x1F_2A_37);
const HEADING_FILL: Color = Color::RGB(0xDD_E5_EE);
const GROUP_FILL: Color = Color::RGB(0xF1_F4_F8);
const WRITE_IN_FILL: Color = Color::RGB(0xFF_FB_E6);
const ERROR_FILL: Color = Color::RGB(0xB0_10_10);
/// Height of the title of a sheet.
const TITLE_POINTS: f64 = 21.0;

/// The workbook.
///
/// # Errors
/// If the library refuses what is written (a table larger than a sheet, say).
pub fn workbook(subject: &Subject<'_>, tables: &[Table]) -> Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    // Widths of columns are counted in digits of this font, seven pixels wide; without it a program that lacks the
    // usual one takes another, and tables no longer fit their pages.
    workbook.set_default_format(&Format::new().set_font_name("Arial").set_font_size(10), 17, 64)?;
    let made = ExcelDateTime::from_ymd(2000, 1, 1)?;
    workbook.set_properties(
        &DocProperties::new()
            .set_title(shortened(&subject.site.title, 200))
            .set_subject(subject.locale.word(Word::ContentsTitle))
            .set_comment(origin_line(subject))
            .set_creation_datetime(&made),
    );
    let looks = Looks::new();
    contents_sheet(subject, tables, workbook.add_worksheet(), &looks)?;
    for table in tables {
        table_sheet(subject, table, workbook.add_worksheet(), &looks)?;
    }
    workbook.save_to_buffer()
}

struct Looks {
    title: Format,
    origin: Format,
    error: Format,
    note: Format,
    heading: Format,
    group: Format,
    text: Format,
    missing: Format,
    write_in: Format,
    total: Format,
}

impl Looks {
    fn new() -> Self {
        let base = || Format::new().set_font_name("Arial").set_font_size(BODY_POINTS).set_font_color(INK);
        let boxed = || {
            let edge = Color::RGB(0xB8_C2_CC);
            base().set_border(FormatBorder::Thin).set_border_color(edge).set_align(FormatAlign::Top)
        };
        Looks {
            title: base().set_font_size(15).set_bold(),
            origin: base().set_font_size(8).set_text_wrap().set_align(FormatAlign::Top),
            error: base()
                .set_bold()
                .set_font_size(11)
                .set_font_color(Color::White)
                .set_text_wrap()
                .set_align(FormatAlign::VerticalCenter)
                .set_background_color(ERROR_FILL),
            note: base().set_text_wrap().set_align(FormatAlign::Top),
            heading: boxed().set_bold().set_text_wrap().set_background_color(HEADING_FILL),
            group: boxed()
                .set_bold()
                .set_background_color(GROUP_FILL)
                .set_text_wrap()
                .set_align(FormatAlign::VerticalCenter),
            text: boxed().set_text_wrap(),
            missing: boxed().set_align(FormatAlign::Center),
            write_in: boxed().set_background_color(WRITE_IN_FILL),
            total: boxed().set_bold().set_border_top(FormatBorder::Medium),
        }
    }

    /// A number format on a base look.
    fn number(base: &Format, decimals: u8, unit: Option<&str>) -> Format {
        let digits = usize::from(decimals.min(9));
        let mut code = if digits == 0 { String::from("0") } else { format!("0.{}", "0".repeat(digits)) };
        if let Some(unit) = unit.filter(|unit| !unit.is_empty()) {
            code = format!("{code}\" {unit}\"");
        }
        // `_)` leaves the width of a bracket to the next column.
        base.clone().set_num_format(code + "_)").set_align(FormatAlign::Right)
    }
}

fn page(sheet: &mut Worksheet, subject: &Subject<'_>, footer: &str) {
    // Paper codes of the file format: 1 is letter, 9 is A4.
    sheet.set_paper_size(match subject.options.paper {
        Paper::A4 => 9,
        Paper::Letter => 1,
    });
    sheet.set_landscape();
    let (side, top, bottom) = MARGINS_INCH;
    sheet.set_margins(side, side, top, bottom, 0.3, 0.3);
    let escape = |text: &str| shortened(text, 90).replace('&', "&&");
    // A space after the size: a text that begins with a digit would be read into it.
    let (left, revision) = (escape(footer), escape(&subject.stamp.revision));
    sheet.set_footer(format!("&L&8 {left}&C&8 {revision}&R&8 &P / &N"));
}

/// The first lines of every sheet; gives the row after them and their height in points.
fn head(
    sheet: &mut Worksheet,
    subject: &Subject<'_>,
    title: &str,
    notes: &[&str],
    columns: &[Column],
    looks: &Looks,
) -> Result<(u32, f64), XlsxError> {
    let last = columns.len().saturating_sub(1) as u16;
    let width = width_points(columns);
    sheet.set_row_height(0, TITLE_POINTS)?;
    let origin = origin_line(subject);
    let origin_points = row_points(wrapped_lines(&origin, width, false));
    let mut points = TITLE_POINTS + origin_points + row_points(1);
    sheet.set_row_height(1, origin_points)?;
    sheet.write_string_with_format(0, 0, shortened(title, MOST_CHARACTERS), &looks.title)?;
    merged(sheet, 1, last, &origin, &looks.origin)?;
    let mut row = 2;
    if let Some(errors) = error_line(subject) {
        merged(sheet, row, last, &errors, &looks.error)?;
        // Its letters are larger than those that lines are counted for.
        let height = row_points(wrapped_lines(&errors, width * 0.8, true)) + 4.0;
        sheet.set_row_height(row, height)?;
        points += height;
        row += 1;
    }
    for note in notes {
        merged(sheet, row, last, note, &looks.note)?;
        let height = row_points(wrapped_lines(note, width, false));
        sheet.set_row_height(row, height)?;
        points += height;
        row += 1;
    }
    sheet.set_row_height(row, row_points(1))?;
    Ok((row + 1, points))
}

/// Width of a column in characters: no word of its heading is broken.
fn characters(column: &Column) -> u8 {
    column.width.max(least_characters(&column.heading()))
}

/// Width of a table in points.
fn width_points(columns: &[Column]) -> f64 {
    columns.iter().map(|column| column_points(characters(column))).sum()
}

fn merged(sheet: &mut Worksheet, row: u32, last: u16, text: &str, look: &Format) -> Result<(), XlsxError> {
    let text = shortened(text, MOST_CHARACTERS);
    if last == 0 {
        sheet.write_string_with_format(row, 0, text, look)?;
    } else {
        sheet.merge_range(row, 0, row, last, &text, look)?;
    }
    Ok(())
}

fn table_sheet(
    subject: &Subject<'_>,
    table: &Table,
    sheet: &mut Worksheet,
    looks: &Looks,
) -> Result<(), XlsxError> {
    let locale = &subject.locale;
    sheet.set_name(shortened(table.part.name(), 31))?;
    page(sheet, subject, &format!("{}: {}", subject.site.title, table.title));
    for (index, column) in table.columns.iter().enumerate() {
        sheet.set_column_width(index as u16, f64::from(characters(column)))?;
    }
    let mut notes: Vec<&str> = table.notes.iter().map(String::as_str).collect();
    let short = [locale.word(Word::CautionIsolate), locale.word(Word::CautionNoCertificate)];
    notes.extend(short.into_iter().filter(|caution| !table.notes.iter().any(|note| note == caution)));
    let (heading_row, head_points) = head(sheet, subject, &table.title, &notes, &table.columns, looks)?;
    for (index, column) in table.columns.iter().enumerate() {
        sheet.write_string_with_format(heading_row, index as u16, column.heading(), &looks.heading)?;
    }
    let heading_lines =
        |column: &Column| wrapped_lines(&column.heading(), column_points(characters(column)), true);
    let heading_points = row_points(table.columns.iter().map(heading_lines).max().unwrap_or(1));
    sheet.set_row_height(heading_row, heading_points)?;
    sheet.set_freeze_panes(heading_row + 1, 1)?;
    sheet.set_repeat_rows(heading_row, heading_row)?;
    let first = heading_row + 1;
    let last_column = table.columns.len().saturating_sub(1) as u16;
    let width = width_points(&table.columns);
    let mut sizes: Vec<RowSize> = Vec::with_capacity(table.rows.len());
    let mut row = first;
    for entry in &table.rows {
        let points = match entry {
            Row::Heading(text) => row_points(wrapped_lines(text, width, true)) + 3.0,
            Row::Cells(cells) => {
                let lines = cells.iter().zip(&table.columns).map(|(cell, column)| match cell {
                    Cell::Text(text) => wrapped_lines(text, column_points(characters(column)), false),
                    _ => 1,
                });
                row_points(lines.max().unwrap_or(1))
            }
        };
        sizes.push(RowSize { points, is_heading: matches!(entry, Row::Heading(_)) });
        sheet.set_row_height(row, points)?;
        match entry {
            Row::Heading(text) => merged(sheet, row, last_column, text, &looks.group)?,
            Row::Cells(cells) => {
                for (index, (cell, column)) in cells.iter().zip(&table.columns).enumerate() {
                    write_cell(sheet, (row, index as u16), cell, column, subject, looks)?;
                }
            }
        }
        row += 1;
    }
    if table.has_sums() && row > first {
        totals(sheet, subject, table, (first, row), looks)?;
        sheet.set_row_height(row, row_points(1))?;
        sizes.push(RowSize { points: row_points(1), is_heading: false });
        row += 1;
    }
    let printed = table.columns.iter().map(|column| widest_column_points(characters(column))).sum();
    let pages = lay_out(subject.options.paper, printed, head_points, heading_points, &sizes);
    sheet.set_print_scale(pages.scale);
    let breaks: Vec<u32> = pages.breaks.iter().map(|index| first + *index as u32).collect();
    sheet.set_page_breaks(&breaks)?;
    sheet.set_print_area(0, 0, row.max(first + 1) - 1, last_column)?;
    Ok(())
}

/// The row of sums below the rows from `first` up to, without, `row`.
fn totals(
    sheet: &mut Worksheet,
    subject: &Subject<'_>,
    table: &Table,
    (first, row): (u32, u32),
    looks: &Looks,
) -> Result<(), XlsxError> {
    for (index, column) in table.columns.iter().enumerate() {
        let at = index as u16;
        if column.is_summed {
            let letter = column_letters(at);
            let sum = table.sum(index);
            let formula = Formula::new(format!("=SUM({letter}{}:{letter}{row})", first + 1));
            let look = Looks::number(&looks.total, table.sum_decimals(index), None);
            sheet.write_formula_with_format(row, at, formula.set_result(plain(sum)), &look)?;
        } else {
            let text = if index == 0 { subject.locale.word(Word::Total) } else { "" };
            sheet.write_string_with_format(row, at, text, &looks.total)?;
        }
    }
    Ok(())
}

fn write_cell(
    sheet: &mut Worksheet,
    (row, at): (u32, u16),
    cell: &Cell,
    column: &Column,
    subject: &Subject<'_>,
    looks: &Looks,
) -> Result<(), XlsxError> {
    match cell {
        Cell::Empty => sheet.write_blank(row, at, &looks.text)?,
        Cell::WriteIn | Cell::Tick => sheet.write_blank(row, at, &looks.write_in)?,
        Cell::Text(text) if text == MISSING => {
            sheet.write_string_with_format(row, at, text, &looks.missing)?
        }
        Cell::Text(text) => {
            sheet.write_string_with_format(row, at, shortened(text, MOST_CHARACTERS), &looks.text)?
        }
        Cell::Count(count) => {
            sheet.write_number_with_format(row, at, *count as f64, &Looks::number(&looks.text, 0, None))?
        }
        Cell::Quantity { value, decimals, unit } => {
            let unit = if column.unit.is_some() { None } else { Some(*unit) };
            sheet.write_number_with_format(row, at, *value, &Looks::number(&looks.text, *decimals, unit))?
        }
        Cell::Money(value) => {
            sheet.write_number_with_format(row, at, value.as_units(), &Looks::number(&looks.text, 2, None))?
        }
        Cell::Product { columns: (a, b), value } => {
            let (a, b) = (column_letters(*a as u16), column_letters(*b as u16));
            let formula =
                Formula::new(format!("={a}{n}*{b}{n}", n = row + 1)).set_result(plain(value.as_units()));
            sheet.write_formula_with_format(row, at, formula, &Looks::number(&looks.text, 2, None))?
        }
        Cell::Date(date) => {
            sheet.write_string_with_format(row, at, subject.locale.date(date), &looks.text)?
        }
    };
    Ok(())
}

/// The sheet of contents: what is in the workbook, where it is from, and the cautions.
fn contents_sheet(
    subject: &Subject<'_>,
    tables: &[Table],
    sheet: &mut Worksheet,
    looks: &Looks,
) -> Result<(), XlsxError> {
    let locale = &subject.locale;
    sheet.set_name("contents")?;
    page(sheet, subject, &subject.site.title);
    let plain_column = |title: Word, width| Column {
        title: locale.word(title).to_string(),
        unit: None,
        width,
        is_summed: false,
        is_said_above: false,
    };
    let columns =
        [plain_column(Word::Sheet, 20), plain_column(Word::Title, 60), plain_column(Word::Rows, 10)];
    for (index, column) in columns.iter().enumerate() {
        sheet.set_column_width(index as u16, f64::from(characters(column)))?;
    }
    let notes = cautions(locale);
    let title = format!("{}: {}", locale.word(Word::ContentsTitle), subject.site.title);
    let (heading_row, _) = head(sheet, subject, &title, &notes, &columns, looks)?;
    for (index, column) in columns.iter().enumerate() {
        sheet.write_string_with_format(heading_row, index as u16, &column.title, &looks.heading)?;
    }
    sheet.set_freeze_panes(heading_row + 1, 0)?;
    let mut row = heading_row + 1;
    for table in tables {
        sheet.write_string_with_format(row, 0, table.part.name(), &looks.text)?;
        sheet.write_string_with_format(row, 1, &table.title, &looks.text)?;
        let count = table.body().count() as f64;
        sheet.write_number_with_format(row, 2, count, &Looks::number(&looks.text, 0, None))?;
        row += 1;
    }
    sheet.set_print_area(0, 0, row - 1, 2)?;
    Ok(())
}

/// A number as a formula's cached result.
fn plain(value: f64) -> String {
    // As many digits as it takes to read the same number again.
    format!("{value}")
}

/// The letters of a column, from 0.
fn column_letters(index: u16) -> String {
    let mut letters = Vec::new();
    let mut rest = u32::from(index) + 1;
    while rest > 0 {
        letters.push(char::from(b'A' + ((rest - 1) % 26) as u8));
        rest = (rest - 1) / 26;
    }
    letters.iter().rev().collect()
}

/// A text cut to so many characters, UTF-16 units as the file format counts.
fn shortened(text: &str, most: usize) -> String {
    if text.encode_utf16().count() <= most {
        return text.to_string();
    }
    let mut units = 0;
    let cut = text.chars().take_while(|sign| {
        units += sign.len_utf16();
        units < most
    });
    cut.collect::<String>() + "…"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_lettered_as_in_spreadsheets() {
        assert_eq!([0, 25, 26, 51, 701, 702].map(column_letters), ["A", "Z", "AA", "AZ", "ZZ", "AAA"]);
    }

    #[test]
    fn long_texts_are_cut_by_utf16_units() {
        assert_eq!(shortened("abc", 3), "abc");
        assert_eq!(shortened("abcd", 3), "ab…");
        assert_eq!(shortened("😀😀", 3), "😀…");
    }
}
