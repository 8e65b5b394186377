//! What the libraries for workbooks say, in words for whoever filled the survey in.

use calamine::XlsxError;
use latchline_words::reading::SheetMistake;
use zip::result::ZipError;

/// Why an archive cannot be unpacked.
pub(crate) fn of_archive(error: &ZipError) -> SheetMistake {
    match error {
        ZipError::InvalidPassword => SheetMistake::Encrypted,
        ZipError::UnsupportedArchive(reason) if *reason == ZipError::PASSWORD_REQUIRED => {
            SheetMistake::Encrypted
        }
        ZipError::UnsupportedArchive(_) | ZipError::CompressionMethodNotSupported(_) => {
            SheetMistake::PackedOtherwise
        }
        ZipError::FileNotFound => SheetMistake::PartMissing,
        _ => SheetMistake::NotAnArchive,
    }
}

/// Why a workbook or one of its sheets cannot be read.
pub(crate) fn of_workbook(error: &XlsxError) -> SheetMistake {
    match error {
        XlsxError::Zip(error) => of_archive(error),
        XlsxError::Password => SheetMistake::Encrypted,
        XlsxError::FileNotFound(_) | XlsxError::RelationshipNotFound | XlsxError::WorksheetNotFound(_) => {
            SheetMistake::PartMissing
        }
        _ => SheetMistake::PartDamaged,
    }
}
