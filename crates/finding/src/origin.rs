//! Where a value was written down.

use crate::ElementId;
use std::ops::Range;
use std::sync::Arc;

/// The number of a file in a [`Sources`] store.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(pub u32);

/// A range of bytes in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A span of `range` bytes in `file`. Offsets beyond 4 GiB saturate.
    pub fn new(file: FileId, range: Range<usize>) -> Self {
        let clamp = |offset: usize| u32::try_from(offset).unwrap_or(u32::MAX);
        Self { file, start: clamp(range.start), end: clamp(range.end) }
    }

    /// The bytes as a range for slicing.
    pub fn range(&self) -> Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// Where a value or a finding comes from.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Origin {
    /// Computed, built in or defaulted: nowhere in particular.
    #[default]
    None,
    /// A range of bytes in a text file.
    Text(Span),
    /// A cell of a workbook, for example sheet "Dwellings", cell "C14".
    Cell {
        /// The workbook.
        file: FileId,
        /// Sheet name.
        sheet: Arc<str>,
        /// Row, counted from 1 as a spreadsheet shows it.
        row: u32,
        /// Column, counted from 1.
        column: u32,
    },
    /// A measurement or observation taken on site.
    Reading {
        /// The element at which it was taken.
        element: ElementId,
        /// Its number in the list of readings, from 1.
        number: u32,
    },
}

impl Origin {
    /// The span, if the origin is text.
    pub fn span(&self) -> Option<Span> {
        match self {
            Origin::Text(span) => Some(*span),
            _ => None,
        }
    }
}

impl From<Span> for Origin {
    fn from(span: Span) -> Self {
        Origin::Text(span)
    }
}

/// One input text with the name it is shown under.
#[derive(Debug, Clone)]
pub struct SourceFile {
    /// The name shown to the user: the path as given, or "built-in catalogue".
    pub name: String,
    /// The whole text.
    pub text: Arc<str>,
}

/// The texts that origins point into, in the order they were added.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    files: Vec<SourceFile>,
}

impl Sources {
    /// An empty store.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a text and returns its number.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<Arc<str>>) -> FileId {
        let id = FileId(self.files.len() as u32);
        self.files.push(SourceFile { name: name.into(), text: text.into() });
        id
    }

    /// The file with this number.
    ///
    /// # Panics
    /// If the number is from another store.
    pub fn file(&self, id: FileId) -> &SourceFile {
        &self.files[id.0 as usize]
    }

    /// All files in order.
    pub fn files(&self) -> impl Iterator<Item = (FileId, &SourceFile)> {
        self.files.iter().enumerate().map(|(index, file)| (FileId(index as u32), file))
    }

    /// A copy in which one file has another text.
    ///
    /// # Panics
    /// If the number is from another store.
    #[must_use]
    pub fn with_text(&self, id: FileId, text: impl Into<Arc<str>>) -> Self {
        let mut copy = self.clone();
        copy.files[id.0 as usize].text = text.into();
        copy
    }

    /// Line and column of a byte offset, both counted from 1; columns count characters.
    pub fn line_and_column(&self, file: FileId, offset: usize) -> (usize, usize) {
        let text = &self.file(file).text;
        let mut end = offset.min(text.len());
        while !text.is_char_boundary(end) {
            end -= 1;
        }
        let before = &text[..end];
        let line = before.bytes().filter(|byte| *byte == b'\n').count() + 1;
        let line_start = before.rfind('\n').map_or(0, |position| position + 1);
        (line, before[line_start..].chars().count() + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_columns_count_from_one_and_in_characters() {
        let mut sources = Sources::new();
        let file = sources.add("t", "aä\nµx");
        assert_eq!(sources.line_and_column(file, 0), (1, 1));
        assert_eq!(sources.line_and_column(file, 3), (1, 3));
        assert_eq!(sources.line_and_column(file, 4), (2, 1));
        assert_eq!(sources.line_and_column(file, 6), (2, 2));
        assert_eq!(sources.line_and_column(file, 5), (2, 1), "inside a character: its start");
        assert_eq!(sources.line_and_column(file, 99), (2, 3));
    }
}
