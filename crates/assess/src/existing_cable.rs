//! What is to be said of a cable that is already in the walls.

use latchline_finding::Code;

/// What is to be said of an existing cable.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ExistingCable {
    /// Nothing stands against it, and its loop and insulation were measured.
    CanStay,
    /// Nothing stands against it as it is assumed; loop or insulation was not measured.
    CanStayIfMeasured,
    /// Errors or warnings stand on it, on its port or on stations of its own; these codes.
    Found(Vec<Code>),
    /// Something about it or a station of its own could not be judged.
    NotJudged,
}
