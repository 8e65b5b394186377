//! Lettering.

use super::area::{Area, Point};
use crate::font;
use crate::palette::Ink;

/// Which point of a text its position is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Anchor {
    /// Start of the baseline.
    Start,
    /// Middle of the baseline.
    Middle,
    /// End of the baseline.
    End,
}

/// A line of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Position of the anchor on the baseline.
    pub at: Point,
    /// What it says.
    pub text: String,
    /// Font size in millimetres.
    pub size_mm: f64,
    /// Which point `at` is.
    pub anchor: Anchor,
    /// Bold weight.
    pub bold: bool,
    /// Reads upward, turned by a quarter.
    pub upward: bool,
    /// Colour.
    pub ink: Ink,
}

impl Text {
    /// A regular text in the main colour.
    pub fn new(at: Point, text: impl Into<String>, size_mm: f64) -> Self {
        Self {
            at,
            text: text.into(),
            size_mm,
            anchor: Anchor::Start,
            bold: false,
            upward: false,
            ink: Ink::Text,
        }
    }

    /// With this anchor.
    #[must_use]
    pub fn anchored(mut self, anchor: Anchor) -> Self {
        self.anchor = anchor;
        self
    }

    /// In bold.
    #[must_use]
    pub fn bold(mut self) -> Self {
        self.bold = true;
        self
    }

    /// Reading upward.
    #[must_use]
    pub fn upward(mut self) -> Self {
        self.upward = true;
        self
    }

    /// In this colour.
    #[must_use]
    pub fn ink(mut self, ink: Ink) -> Self {
        self.ink = ink;
        self
    }

    /// Its width along the baseline.
    pub fn width_mm(&self) -> f64 {
        font::text_width_mm(&self.text, self.size_mm, self.bold)
    }

    /// The box that it takes, from ascent to descent.
    pub fn area(&self) -> Area {
        let width = self.width_mm();
        let back = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => width / 2.0,
            Anchor::End => width,
        };
        let (above, height) =
            (font::ASCENT_EM * self.size_mm, (font::ASCENT_EM + font::DESCENT_EM) * self.size_mm);
        if self.upward {
            Area::new(self.at.0 - above, self.at.1 + back - width, height, width)
        } else {
            Area::new(self.at.0 - back, self.at.1 - above, width, height)
        }
    }
}
