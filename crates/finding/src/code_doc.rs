//! The manual page of a kind of finding, for `explain`, SARIF and the documentation.

use crate::{Code, Severity};

/// A kind of finding with its manual page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CodeDoc {
    /// The code.
    pub code: Code,
    /// Usual severity.
    pub severity: Severity,
    /// What it says, in a few words.
    pub title: &'static str,
    /// The manual page: what it checks, why it matters, an example, what to do.
    pub explanation: &'static str,
}
