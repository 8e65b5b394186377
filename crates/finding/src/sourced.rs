//! A value with its origin and provenance.

use crate::Origin;

/// How far a value can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Provenance {
    /// Measured on this site.
    Measured,
    /// From the part's datasheet.
    Datasheet,
    /// From a published standard or handbook table.
    Standard,
    /// Stated by the user in the site file or survey.
    Stated,
    /// Assumed, for want of anything better: a verdict that rests on it says so.
    Assumed,
}

impl Provenance {
    /// The word used in files and output.
    pub fn word(self) -> &'static str {
        match self {
            Provenance::Measured => "measured",
            Provenance::Datasheet => "datasheet",
            Provenance::Standard => "standard",
            Provenance::Stated => "stated",
            Provenance::Assumed => "assumed",
        }
    }
}

/// A value, where it was written, and how far it can be relied on.
///
/// Equality looks at the value alone, so that two sites that say the same thing in different
/// places are equal.
#[derive(Debug, Clone)]
pub struct Sourced<T> {
    /// The value itself.
    pub value: T,
    /// Where it was written.
    pub origin: Origin,
    /// How far it can be relied on.
    pub provenance: Provenance,
}

impl<T> Sourced<T> {
    /// A value with its origin and provenance.
    pub fn new(value: T, origin: impl Into<Origin>, provenance: Provenance) -> Self {
        Self { value, origin: origin.into(), provenance }
    }

    /// A default that nobody wrote down: assumed, without origin.
    pub fn assumed(value: T) -> Self {
        Self { value, origin: Origin::None, provenance: Provenance::Assumed }
    }

    /// The same origin and provenance with another value.
    pub fn map<U>(self, function: impl FnOnce(T) -> U) -> Sourced<U> {
        Sourced { value: function(self.value), origin: self.origin, provenance: self.provenance }
    }
}

impl<T: PartialEq> PartialEq for Sourced<T> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
    }
}
