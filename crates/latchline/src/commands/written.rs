//! Form, language and file of a result: the arguments of commands that answer with one.

use super::locale::LanguageArguments;
use crate::files::ResultFile;
use clap::{Args, ValueEnum};

/// How and where a result is written.
#[derive(Debug, Args)]
pub(super) struct WrittenArguments<F: ValueEnum + Default + Send + Sync + 'static> {
    /// Form of the result
    #[arg(long, value_enum, default_value_t = F::default())]
    pub(super) format: F,
    #[command(flatten)]
    pub(super) language: LanguageArguments,
    #[command(flatten)]
    pub(super) result: ResultFile,
}

/// Form of a result that is text or data.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub(super) enum TextOrJson {
    /// For a person
    #[default]
    Text,
    /// For programs
    Json,
}
