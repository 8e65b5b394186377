//! Workbooks that would take all memory: refused at once, with a word about why.

use crate::told;
use latchline_finding::FileId;
use latchline_survey::table::Sheet;
use latchline_survey::workbook::{from_xlsx, sheet_names};
use rust_xlsxwriter::Workbook;
use std::io::{Cursor, Read, Write};
use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

fn read(bytes: &[u8]) -> (Vec<Sheet>, String) {
    let mut problems = Vec::new();
    let sheets = from_xlsx(FileId(0), bytes, &mut problems);
    (sheets, told::lines(&problems))
}

fn workbook(fill: impl FnOnce(&mut rust_xlsxwriter::Worksheet)) -> Vec<u8> {
    let mut workbook = Workbook::new();
    let sheet = workbook.add_worksheet().set_name("places").expect("a name");
    sheet.write(0, 0, "Place").expect("a cell");
    sheet.write(1, 0, "hall").expect("a cell");
    fill(sheet);
    workbook.save_to_buffer().expect("a workbook")
}

/// The workbook with another part in it.
fn with_part(bytes: &[u8], name: &str, add: &[u8], times: usize) -> Vec<u8> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).expect("an archive");
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..archive.len() {
        let part = archive.by_index_raw(at).expect("a part");
        writer.raw_copy_file(part).expect("copied");
    }
    writer.start_file(name, SimpleFileOptions::default()).expect("a part");
    for _ in 0..times {
        writer.write_all(add).expect("written");
    }
    writer.finish().expect("an archive").into_inner()
}

/// The last row and column of the XLSX form (ECMA-376: 1,048,576 rows, 16,384 columns).
#[test]
fn one_stray_cell_in_the_last_row_and_column() {
    let (sheets, told) = read(&workbook(|sheet| {
        sheet.write(1_048_575, 16_383, "x").expect("a cell");
    }));
    assert!(sheets.is_empty());
    assert!(told.contains(" 1048576:") && told.contains("too-many-rows, limit 20000"), "{told}");
}

#[test]
fn one_stray_cell_in_the_last_column_takes_no_room() {
    let (sheets, told) = read(&workbook(|sheet| {
        sheet.write(1, 16_383, "x").expect("a cell");
    }));
    assert_eq!(told.matches("too-many-columns").count(), 1, "{told}");
    assert!(told.contains(" 2:16384") && told.contains("limit 200"), "{told}");
    assert_eq!(sheets[0].rows.iter().map(|(_, cells)| cells.len()).collect::<Vec<_>>(), [1, 1]);
}

#[test]
fn far_cells_of_many_rows_are_bounded_in_number() {
    let (sheets, told) = read(&workbook(|sheet| {
        for row in 0..6_000 {
            sheet.write(row, 199, "x").expect("a cell");
        }
    }));
    assert!(sheets.is_empty());
    assert!(told.contains("too-many-cells, limit 1000000"), "{told}");
}

#[test]
fn a_small_file_that_unpacks_to_hundreds_of_megabytes() {
    let small = workbook(|_| {});
    let bomb = with_part(&small, "xl/media/picture.bin", &[b' '; 1_000_000], 300);
    assert!(bomb.len() < 1_000_000, "{} bytes", bomb.len());
    let (sheets, told) = read(&bomb);
    assert!(sheets.is_empty());
    assert!(told.contains("unpacks-too-large, megabytes 100"), "{told}");
    // Nothing is said to be missing of what nobody looked into.
    let (mut problems, file) = (Vec::new(), FileId(0));
    let tables = from_xlsx(file, &bomb, &mut problems);
    let unread = latchline_survey::read(&tables, problems);
    assert_eq!(told::lines(&unread.problems).lines().count(), 1, "{}", told::lines(&unread.problems));
    assert!(unread.survey.is_none());
    // A part of usual size does no harm.
    let picture = with_part(&small, "xl/media/picture.bin", &[b' '; 1_000_000], 3);
    assert_eq!(read(&picture).0.len(), 1);
}

#[test]
fn workbooks_cut_off_anywhere_are_told() {
    let whole = workbook(|_| {});
    for end in (0..whole.len()).step_by(61) {
        let (sheets, told) = read(&whole[..end]);
        assert!(sheets.is_empty() && !told.is_empty(), "cut at {end}");
    }
}

/// The workbook with a text exchanged in one of its parts.
fn with_text(bytes: &[u8], name: &str, text: &str, by: &str) -> Vec<u8> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).expect("an archive");
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..archive.len() {
        let mut part = archive.by_index(at).expect("a part");
        let mut content = String::new();
        part.read_to_string(&mut content).expect("a text");
        let part_name = part.name().expect("a name").to_string();
        if part_name == name {
            assert!(content.contains(text), "{content}");
            content = content.replace(text, by);
        }
        writer.start_file(part_name, SimpleFileOptions::default()).expect("a part");
        writer.write_all(content.as_bytes()).expect("written");
    }
    writer.finish().expect("an archive").into_inner()
}

/// References and counts that no sheet has (ECMA-376 part 1, 18.3.1.4 and 18.4.9): the count alone would take 96 GB, and a reference beyond the
/// last column comes to another cell when it is reckoned with 32 bits.
#[test]
fn a_workbook_that_claims_what_cannot_be() {
    let whole = workbook(|_| {});
    let sheet = "xl/worksheets/sheet1.xml";
    let cases = [
        ("xl/sharedStrings.xml", "uniqueCount=\"2\"", "uniqueCount=\"4000000000\""),
        ("xl/sharedStrings.xml", "uniqueCount=\"2\"", "uniqueCount=\"-1\""),
        (sheet, "r=\"A2\"", "r=\"ZZZZZZZZZZZ5\""),
        (sheet, "r=\"A2\"", "r=\"XFE2\""),
        (sheet, "r=\"A2\"", "r=\"A99999999999999\""),
        (sheet, "r=\"A2\"", "r=\"A0\""),
        (sheet, "r=\"A2\"", "r=\"2A\""),
        (sheet, "row r=\"2\"", "row r=\"4294967297\""),
        (sheet, "ref=\"A1:A2\"", "ref=\"B2:A1\""),
    ];
    for (part, text, by) in cases {
        let bytes = with_text(&whole, part, text, by);
        let (sheets, told) = read(&bytes);
        assert!(sheets.is_empty(), "{by}");
        assert!(told.contains("not-a-workbook") && told.lines().count() == 1, "{by}: {told}");
        assert!(sheet_names(&bytes).is_empty(), "{by}");
    }
    // Where nothing of it is changed it is read, and so is the last cell of all.
    let unchanged = with_text(&whole, sheet, "r=\"A2\"", "r=\"a2\"");
    assert_eq!(read(&unchanged).0.len(), 1);
    assert_eq!(sheet_names(&with_text(&whole, sheet, "r=\"A2\"", "r=\"XFD1048576\"")), ["places"]);
}
