//! Why a PDF could not be made.

/// Why a PDF could not be made: a mistake in Latchline, not in the site.
#[derive(Debug, thiserror::Error)]
pub enum TypesetError {
    /// The embedded font cannot be read.
    #[error("the embedded font cannot be read")]
    Font,
}
