//! Points and areas.

/// A rectangle: left, top, width, height in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

impl Area {
    /// A rectangle by its left upper corner and size.
    pub fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { x, y, width, height }
    }

    /// The rectangle spanned by two corners.
    pub fn between(a: Point, b: Point) -> Self {
        Self::new(a.0.min(b.0), a.1.min(b.1), (a.0 - b.0).abs(), (a.1 - b.1).abs())
    }

    /// Right edge.
    pub fn right(&self) -> f64 {
        self.x + self.width
    }

    /// Lower edge.
    pub fn bottom(&self) -> f64 {
        self.y + self.height
    }

    /// The rectangle made larger by this on every side.
    #[must_use]
    pub fn grown(&self, by: f64) -> Self {
        Self::new(self.x - by, self.y - by, self.width + 2.0 * by, self.height + 2.0 * by)
    }

    /// Whether the two have an inner point in common.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.x < other.right() && other.x < self.right() && self.y < other.bottom() && other.y < self.bottom()
    }

    /// Whether `other` lies within, edges included.
    pub fn contains(&self, other: &Self) -> bool {
        const SLACK_MM: f64 = 1e-6;
        other.x >= self.x - SLACK_MM
            && other.y >= self.y - SLACK_MM
            && other.right() <= self.right() + SLACK_MM
            && other.bottom() <= self.bottom() + SLACK_MM
    }
}

/// x and y in millimetres.
pub type Point = (f64, f64);
