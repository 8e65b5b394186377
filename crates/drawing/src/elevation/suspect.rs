//! A place that is marked on the elevation.

/// A place where the fault may be found.
#[derive(Debug, Clone, PartialEq)]
pub struct Suspect {
    /// Where.
    pub place: SuspectPlace,
    /// Its probability in words.
    pub share: String,
    /// What the place is, and what may be wrong there.
    pub words: String,
}

/// What is marked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SuspectPlace {
    /// A length of cable with the terminals at both its ends.
    Section {
        /// Index into `Site::runs`.
        run: usize,
        /// Section of that run.
        section: usize,
    },
    /// A whole run: index into `Site::runs`.
    Run(usize),
    /// A station: index into `Site::stations`.
    Station(usize),
    /// A box: index into `Site::boxes`.
    Box(usize),
    /// A supply: index into `Site::supplies`.
    Supply(usize),
    /// A door with what hangs at it, marked at its station: index into `Site::entrances`.
    Door(usize),
    /// No place on the drawing.
    Nowhere,
}

impl Suspect {
    /// What stands in its tag.
    pub(super) fn tag(&self, number: usize) -> String {
        format!("{number} · {}", self.share)
    }
}
