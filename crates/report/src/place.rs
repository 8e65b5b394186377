//! From byte offsets to lines and columns, each file scanned once.

use latchline_finding::{FileId, Language, Origin, SourceFile, Sources, Span, shown};
use latchline_words::report::Remark;

/// Line starts of the files that findings point into.
#[derive(Debug)]
pub struct Places<'a> {
    sources: &'a Sources,
    line_starts: Vec<Vec<usize>>,
}

/// A place in a text file as people and editors count: lines and columns from 1, columns in
/// characters; the end is one past the last character.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Name of the file as shown.
    pub file: String,
    /// First line.
    pub line: usize,
    /// First column.
    pub column: usize,
    /// Last line.
    pub end_line: usize,
    /// One past the last column.
    pub end_column: usize,
}

impl<'a> Places<'a> {
    /// Scans the files of a store.
    pub fn new(sources: &'a Sources) -> Self {
        let line_starts = sources
            .files()
            .map(|(_, file)| {
                let newlines = file.text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n');
                std::iter::once(0).chain(newlines.map(|(offset, _)| offset + 1)).collect()
            })
            .collect();
        Self { sources, line_starts }
    }

    /// The file with this number, if there is one.
    pub fn file(&self, file: FileId) -> Option<&'a SourceFile> {
        ((file.0 as usize) < self.line_starts.len()).then(|| self.sources.file(file))
    }

    /// The place of an origin in a text file.
    pub fn of(&self, origin: &Origin) -> Option<Place> {
        self.of_span(origin.span()?)
    }

    /// The place of a span.
    pub fn of_span(&self, span: Span) -> Option<Place> {
        let file = self.file(span.file)?;
        let (line, column) = self.line_and_column(span.file, &file.text, span.start as usize);
        let (end_line, end_column) =
            self.line_and_column(span.file, &file.text, span.end.max(span.start) as usize);
        Some(Place { file: file.name.clone(), line, column, end_line, end_column })
    }

    /// "site.toml:12:5", or the cell, the reading, or nothing.
    pub fn short(&self, origin: &Origin, language: Language) -> Option<String> {
        match origin {
            Origin::None => None,
            Origin::Text(_) => self
                .of(origin)
                .map(|place| format!("{}:{}:{}", shown::whole(&place.file, &[]), place.line, place.column)),
            Origin::Cell { file, sheet, row, column } => {
                let workbook = || Remark::Workbook.say(language);
                let name = self.file(*file).map_or_else(workbook, |file| file.name.clone());
                let (name, sheet) = (shown::whole(&name, &[]), shown::name(sheet));
                Some(format!("{name}: {sheet}!{}{row}", column_letters(*column)))
            }
            Origin::Reading { element, number } => {
                let element = shown::name(element.as_str());
                Some(Remark::Reading { number: *number as usize, element: &element }.say(language))
            }
        }
    }

    /// Number of the line that holds this byte (from 0), with its start and its end without the
    /// line break.
    pub fn line_around(&self, span: Span) -> Option<(usize, std::ops::Range<usize>)> {
        let file = self.file(span.file)?;
        let starts = &self.line_starts[span.file.0 as usize];
        let offset = (span.start as usize).min(file.text.len());
        let line = starts.partition_point(|start| *start <= offset) - 1;
        let start = starts[line];
        let end = starts.get(line + 1).map_or(file.text.len(), |next| next - 1);
        let end = if file.text[start..end].ends_with('\r') { end - 1 } else { end };
        Some((line, start..end))
    }

    fn line_and_column(&self, file: FileId, text: &str, offset: usize) -> (usize, usize) {
        let starts = &self.line_starts[file.0 as usize];
        let mut offset = offset.min(text.len());
        while !text.is_char_boundary(offset) {
            offset -= 1;
        }
        let line = starts.partition_point(|start| *start <= offset);
        (line, text[starts[line - 1]..offset].chars().count() + 1)
    }
}

/// The letters that a spreadsheet shows for a column counted from 1.
pub(crate) fn column_letters(mut column: u32) -> String {
    let mut letters = Vec::new();
    while column > 0 {
        column -= 1;
        letters.push(char::from(b'A' + (column % 26) as u8));
        column /= 26;
    }
    letters.iter().rev().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_agree_with_the_store_at_every_offset() {
        let mut sources = Sources::new();
        let file = sources.add("t", "aä\r\nµx\n\n\tz");
        let places = Places::new(&sources);
        for offset in 0..=sources.file(file).text.len() + 2 {
            let place = places.of_span(Span::new(file, offset..offset)).unwrap();
            assert_eq!((place.line, place.column), sources.line_and_column(file, offset), "{offset}");
        }
    }

    #[test]
    fn lines_come_without_their_break() {
        let mut sources = Sources::new();
        let file = sources.add("t", "ab\r\ncd\nef");
        let places = Places::new(&sources);
        let line = |offset: usize| places.line_around(Span::new(file, offset..offset)).unwrap();
        assert_eq!(line(0), (0, 0..2));
        assert_eq!(line(5), (1, 4..6));
        assert_eq!(line(9), (2, 7..9));
    }

    #[test]
    fn spreadsheet_columns() {
        assert_eq!(column_letters(1), "A");
        assert_eq!(column_letters(26), "Z");
        assert_eq!(column_letters(27), "AA");
        assert_eq!(column_letters(703), "AAA");
    }
}
