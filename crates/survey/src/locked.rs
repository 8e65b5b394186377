//! What is decided before a design is made, and must stay so.

use latchline_finding::Sourced;

/// A decision, with its row.
#[derive(Debug, Clone, PartialEq)]
pub struct Locked {
    /// What the row says, in its own words, with the cell of its subject.
    pub written: Sourced<String>,
    /// What it means.
    pub decision: Decision,
}

/// What is decided.
#[derive(Debug, Clone, PartialEq)]
pub enum Decision {
    /// Supplies stand at the places of such decisions and nowhere else.
    Supply {
        /// Place: index into the survey's.
        place: usize,
    },
    /// A distributor stands here.
    Box {
        /// Place: index into the survey's.
        place: usize,
        /// Its model, if that is decided, too.
        model: Option<Sourced<String>>,
    },
    /// Cables take the route between two places wherever it leads on.
    Route {
        /// One end.
        from: usize,
        /// The other end.
        to: usize,
    },
    /// These are fed by this cable.
    Cable {
        /// Who.
        who: Vec<Who>,
        /// The cable; `None`: the old one that leads to them.
        cable: Option<Sourced<String>>,
    },
    /// These dwellings are on one run.
    Together {
        /// Dwellings: indices into the survey's.
        dwellings: Vec<usize>,
    },
    /// No cable loops through these dwellings.
    NotThrough {
        /// Dwellings: indices into the survey's.
        dwellings: Vec<usize>,
    },
}

/// Somebody on a run, as an index into the survey's lists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Who {
    /// An entrance.
    Entrance(usize),
    /// A desk.
    Desk(usize),
    /// A dwelling.
    Dwelling(usize),
}
