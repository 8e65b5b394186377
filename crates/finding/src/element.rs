//! The user's own designation of a thing on site.

use std::fmt;
use std::sync::Arc;

/// The designation of a dwelling, entrance, box, supply, run or station, exactly as the user
/// wrote it ("A-12", "Penthouse"). Extensions append `:2`, `:3`, ... to their dwelling, ports
/// append `.1`, `.2`, ... to their box.
///
/// Cheap to clone; ordered and compared by its text.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ElementId(Arc<str>);

impl ElementId {
    /// The designation with this text.
    pub fn new(text: &str) -> Self {
        Self(Arc::from(text))
    }

    /// The text as the user wrote it.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl From<&str> for ElementId {
    fn from(text: &str) -> Self {
        Self::new(text)
    }
}

impl From<String> for ElementId {
    fn from(text: String) -> Self {
        Self(Arc::from(text))
    }
}

impl fmt::Display for ElementId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

impl fmt::Debug for ElementId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&*self.0, f)
    }
}
