//! A kind of finding.

use crate::{Code, Severity};

/// A kind of finding. What it says and its manual page are in the crate of words, under its code.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CodeDoc {
    /// The code.
    pub code: Code,
    /// Usual severity.
    pub severity: Severity,
}
