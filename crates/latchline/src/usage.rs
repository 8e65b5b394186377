//! What the reader of the arguments has to say: help, version, mistakes.

use crate::failure::UNUSABLE;
use crate::output;
use anyhow::Result;
use latchline_finding::shown;
use std::io::Write;
use std::process::ExitCode;

/// Prints help or version as a result, or a mistake on standard error.
///
/// # Errors
/// If help or version cannot be written.
pub fn tell(error: &clap::Error, output: &mut dyn Write) -> Result<ExitCode> {
    if error.use_stderr() {
        let plain = error.render().to_string();
        let shown = shown::whole(&plain, &['\n']);
        if shown == plain {
            // In colours where the terminal takes them; nothing is left to tell it to if it is closed.
            let _ = error.print();
        } else {
            let _ = std::io::stderr().write_all(shown.as_bytes());
        }
        return Ok(ExitCode::from(UNUSABLE));
    }
    output::put(&error.render().to_string(), output)?;
    Ok(ExitCode::SUCCESS)
}
