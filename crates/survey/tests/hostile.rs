//! Workbooks that would take all memory: refused at once, with a word about why.

use crate::told;
use latchline_finding::FileId;
use latchline_survey::table::Sheet;
use latchline_survey::workbook::from_xlsx;
use rust_xlsxwriter::Workbook;
use std::io::{Cursor, Write};
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
