//! Lines of a DXF file: a group code, then its value.

use std::fmt::Write as _;

/// A part of a file in the making.
#[derive(Debug, Default)]
pub(super) struct Pairs {
    pub(super) text: String,
}

impl Pairs {
    pub(super) fn pair(&mut self, code: u16, value: &str) {
        let _ = write!(self.text, "{code}\n{value}\n");
    }

    /// Several pairs whose values are words.
    pub(super) fn pairs(&mut self, pairs: &[(u16, &str)]) {
        pairs.iter().for_each(|(code, value)| self.pair(*code, value));
    }

    pub(super) fn whole(&mut self, code: u16, value: i64) {
        let _ = write!(self.text, "{code}\n{value}\n");
    }

    pub(super) fn handle(&mut self, code: u16, handle: u32) {
        let _ = write!(self.text, "{code}\n{handle:X}\n");
    }

    pub(super) fn number(&mut self, code: u16, value: f64) {
        let value = if value.is_finite() { value } else { 0.0 };
        let text = format!("{value:.4}");
        self.pair(code, if text == "-0.0000" { "0.0000" } else { &text });
    }

    /// A point with its three coordinates under `code`, `code + 10` and `code + 20`.
    pub(super) fn point(&mut self, code: u16, x: f64, y: f64) {
        self.number(code, x);
        self.number(code + 10, y);
        self.number(code + 20, 0.0);
    }

    /// A point in the plane.
    pub(super) fn flat(&mut self, code: u16, x: f64, y: f64) {
        self.number(code, x);
        self.number(code + 10, y);
    }
}
