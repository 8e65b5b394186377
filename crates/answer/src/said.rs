//! What is said, piece by piece: a terminal breaks it into lines, a page makes paragraphs and lists of it.

/// A piece of what is said.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    /// Sentences that stand by themselves.
    Paragraph(String),
    /// An entry of the list that the paragraph before it announces.
    Item(String),
    /// Where a new subject begins.
    Gap,
}

/// Pieces in the order in which they are read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Said(pub Vec<Piece>);

impl Said {
    /// Adds sentences.
    pub(crate) fn paragraph(&mut self, words: impl Into<String>) {
        self.0.push(Piece::Paragraph(words.into()));
    }

    /// Adds an entry of a list.
    pub(crate) fn item(&mut self, words: impl Into<String>) {
        self.0.push(Piece::Item(words.into()));
    }

    /// Begins a new subject.
    pub(crate) fn gap(&mut self) {
        self.0.push(Piece::Gap);
    }

    /// Adds what was said elsewhere.
    pub(crate) fn append(&mut self, other: Said) {
        self.0.extend(other.0);
    }
}
