//! Where things are, and whom they call.

use latchline_finding::Origin;

/// Where something is: indices into the site's buildings, their floors and cores.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Place {
    /// Building.
    pub building: Option<usize>,
    /// Core of that building.
    pub core: Option<usize>,
    /// Floor of that building.
    pub floor: Option<usize>,
    /// Whether the user says it is outdoors or in the wet.
    pub outdoors: bool,
}

/// Whom an entrance or management station can call.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Scope {
    /// Dwellings it can call, as indices in ascending order.
    pub dwellings: Vec<usize>,
    /// Management stations it can call, as indices in ascending order.
    pub management: Vec<usize>,
    /// Where the scope is written.
    pub origin: Origin,
}
