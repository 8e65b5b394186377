//! What is said, in lines of a terminal.

use latchline_answer::{Piece, Said};
use latchline_report::table::{hanging, paragraph};

/// Sentences and lists, each line no wider than this.
pub(super) fn lines(said: &Said, width: usize) -> String {
    let of = |piece: &Piece| match piece {
        Piece::Paragraph(words) => paragraph(words, 0, width),
        Piece::Item(words) => hanging("  ", words, width),
        Piece::Gap => String::from("\n"),
    };
    said.0.iter().map(of).collect()
}
