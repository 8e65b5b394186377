//! What every sheet has: paper, margins, and the lines above its table.

use super::looks::{ERROR_FILL, ERROR_POINTS, Looks};
use super::texts::{MOST_CHARACTERS, shortened};
use crate::pages::{BODY_POINTS, MARGINS_INCH, row_points, wrapped_lines};
use crate::widths;
use latchline_handover::options::Paper;
use latchline_handover::subject::Subject;
use latchline_handover::tables::{error_line, origin_line};
use rust_xlsxwriter::{Format, Url, Worksheet, XlsxError};

/// Height of the title of a sheet.
const TITLE_POINTS: f64 = 21.0;

/// A link to another sheet.
pub(super) struct Link {
    /// Where to.
    pub(super) address: String,
    /// What it says.
    pub(super) text: &'static str,
}

/// Sets paper, margins, header and footer.
pub(super) fn page(sheet: &mut Worksheet, subject: &Subject<'_>, footer: &str) {
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
    if let Some(errors) = error_line(subject) {
        // On every page, where the line above the table is on the first.
        sheet.set_header(format!("&C&\"Arial,Bold\"&12&KB01010{}", escape(&errors)));
        sheet.set_tab_color(ERROR_FILL);
    }
    sheet.set_footer(format!("&L&8 {left}&C&8 {revision}&R&8 &P / &N"));
}

/// The first lines of every sheet; gives the row after them and their height in points.
pub(super) fn head(
    sheet: &mut Worksheet,
    subject: &Subject<'_>,
    title: &str,
    notes: &[&str],
    widths: &[u8],
    link: Option<Link>,
    looks: &Looks,
) -> Result<(u32, f64), XlsxError> {
    let last = widths.len().saturating_sub(1) as u16;
    let width = widths::points(widths);
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
        let larger = ERROR_POINTS / BODY_POINTS;
        let height = row_points(wrapped_lines(&errors, width / larger, true)) * larger + 4.0;
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
    if let Some(link) = link {
        let url = Url::new(link.address).set_text(link.text);
        sheet.write_url_with_format(row, 0, url, &looks.link)?;
    }
    Ok((row + 1, points))
}

/// A text over the whole width of the table.
pub(super) fn merged(
    sheet: &mut Worksheet,
    row: u32,
    last: u16,
    text: &str,
    look: &Format,
) -> Result<(), XlsxError> {
    let text = shortened(text, MOST_CHARACTERS);
    if last == 0 {
        sheet.write_string_with_format(row, 0, text, look)?;
    } else {
        sheet.merge_range(row, 0, row, last, &text, look)?;
    }
    Ok(())
}
