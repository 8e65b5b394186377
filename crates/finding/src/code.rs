//! What kind of finding it is, and how much it matters.

use std::fmt;

/// The stable, self-explaining name of a kind of finding, in kebab case.
///
/// Whoever looks for findings of one kind matches on the constant that its rule declares, never on its text:
/// a rule that is renamed then loses none of what hangs on it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Code(pub &'static str);

impl Code {
    /// The code's text.
    pub fn as_str(self) -> &'static str {
        self.0
    }
}

impl PartialEq<str> for Code {
    fn eq(&self, other: &str) -> bool {
        self.0 == other
    }
}

impl PartialEq<&str> for Code {
    fn eq(&self, other: &&str) -> bool {
        self.0 == *other
    }
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.0)
    }
}

impl fmt::Debug for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth knowing; nothing fails.
    Advice,
    /// Works on paper but is likely to give trouble.
    Warning,
    /// Will not work, or is not allowed.
    Error,
}

impl Severity {
    /// The word used in files and output.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Advice => "advice",
            Severity::Warning => "warning",
            Severity::Error => "error",
        }
    }
}
