//! Forms of the result.

use clap::ValueEnum;

/// Form of the result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub(super) enum Format {
    /// For a person
    #[default]
    Text,
    /// A few lines for the telephone
    Short,
    /// For programs
    Json,
    /// For spreadsheets and programs; of the table alone
    Csv,
}
