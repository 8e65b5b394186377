//! Why a pack could not be made.

use latchline_finding::{Both, Language};
use latchline_words::refusals::ResultRefusal;
use latchline_workbook::xlsx::WorkbookError;
use std::fmt;

/// Why a pack could not be made.
#[derive(Debug)]
pub enum PackError {
    /// The workbook could not be built.
    Workbook(WorkbookError),
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

impl From<WorkbookError> for PackError {
    fn from(error: WorkbookError) -> Self {
        PackError::Workbook(error)
    }
}
