//! What a pack is written as, and why one could not be made.

use latchline_finding::{Both, Language};
use latchline_words::refusals::ResultRefusal;
use std::fmt;

/// One file of a pack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PackFile {
    /// Its name, with folders separated by `/`.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// Why a pack could not be made.
#[derive(Debug)]
pub enum PackError {
    /// The workbook could not be built.
    Workbook(rust_xlsxwriter::XlsxError),
    /// The text of a QR code is too long.
    CodeTooLong {
        /// The device.
        device: String,
        /// Bytes wanted.
        bytes: usize,
        /// Most bytes.
        most: usize,
    },
}

impl PackError {
    /// In words.
    pub fn both(&self) -> Both {
        match self {
            PackError::Workbook(cause) => ResultRefusal::WorkbookFailed { detail: &cause.to_string() }.both(),
            PackError::CodeTooLong { device, bytes, most } => {
                ResultRefusal::CodeTooLong { device, bytes: *bytes, most: *most }.both()
            }
        }
    }
}

impl fmt::Display for PackError {
    /// In English, for tests and for other programs.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.both().of(Language::English))
    }
}

impl std::error::Error for PackError {}

impl From<rust_xlsxwriter::XlsxError> for PackError {
    fn from(error: rust_xlsxwriter::XlsxError) -> Self {
        PackError::Workbook(error)
    }
}
