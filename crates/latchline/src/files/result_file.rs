//! The file that a result goes to instead of standard output.

use super::{MayReplace, refuse_inputs, refuse_standing, write};
use crate::output;
use crate::refusal::Result;
use clap::Args;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Where a result goes.
#[derive(Debug, Clone, Default, Args)]
pub struct ResultFile {
    /// Write the result to this file instead of standard output
    #[arg(long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Replace a file that exists, even if it is no result that can be made again
    #[arg(long)]
    force: bool,
}

impl ResultFile {
    /// Whether a file was named.
    pub fn is_named(&self) -> bool {
        self.output.is_some()
    }

    /// What may be replaced.
    pub fn may_replace(&self) -> MayReplace<'static> {
        if self.force { MayReplace::Anything } else { MayReplace::OwnResult }
    }

    /// Refuses early what could not be written.
    ///
    /// # Errors
    /// If the file is one of the inputs, or may not be replaced.
    pub fn refuse<P: AsRef<Path>>(&self, inputs: &[P]) -> Result<()> {
        let Some(file) = &self.output else { return Ok(()) };
        refuse_inputs(inputs, file)?;
        refuse_standing(file, self.may_replace())
    }

    /// Writes a result to the file, or else to standard output.
    ///
    /// # Errors
    /// If the file is one of the inputs, may not be replaced or cannot be written.
    pub fn put<P: AsRef<Path>>(&self, text: &str, inputs: &[P], output: &mut dyn Write) -> Result<()> {
        self.put_again(text, inputs, None, output)
    }

    /// [`put`](Self::put) where this run wrote the file before.
    ///
    /// # Errors
    /// As there, and if somebody else has changed the file since.
    pub fn put_again<P: AsRef<Path>>(
        &self,
        text: &str,
        inputs: &[P],
        before: Option<&str>,
        output: &mut dyn Write,
    ) -> Result<()> {
        let Some(file) = &self.output else { return output::put(text, output) };
        refuse_inputs(inputs, file)?;
        let may_replace = before.map_or(self.may_replace(), |text| MayReplace::Written(text.as_bytes()));
        write(file, text.as_bytes(), may_replace)
    }
}
