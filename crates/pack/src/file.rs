//! What a pack is written as, and why one could not be made.

/// One file of a pack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PackFile {
    /// Its name, with folders separated by `/`.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// Why a pack could not be made.
#[derive(Debug, thiserror::Error)]
pub enum PackError {
    /// The workbook could not be built.
    #[error("the workbook could not be made: {0}")]
    Workbook(#[from] rust_xlsxwriter::XlsxError),
    /// The text of a QR code is too long.
    #[error(
        "the QR code of \"{device}\" would hold {bytes} bytes, more than {most}; use a shorter --base-url"
    )]
    CodeTooLong {
        /// The device.
        device: String,
        /// Bytes wanted.
        bytes: usize,
        /// Most bytes.
        most: usize,
    },
}
