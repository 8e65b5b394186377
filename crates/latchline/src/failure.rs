//! How a command that could not run says so.

use std::io::{ErrorKind, Write as _};
use std::process::ExitCode;

/// Exit status of a command that could not run, or whose input cannot be used.
pub const UNUSABLE: u8 = 2;

/// Prints the chain of an error once, each cause on a line of its own, and gives the exit status.
/// A closed pipe is no error: whoever read it has seen enough.
pub fn report(error: &anyhow::Error) -> ExitCode {
    if is_closed_pipe(error) {
        return ExitCode::SUCCESS;
    }
    let mut text = format!("error: {error}\n");
    for cause in error.chain().skip(1) {
        text.push_str(&format!("  {cause}\n"));
    }
    // Nothing is left to tell it to if standard error is closed.
    let _ = std::io::stderr().write_all(text.as_bytes());
    ExitCode::from(UNUSABLE)
}

/// Whether the reader of our output has gone.
pub fn is_closed_pipe(error: &anyhow::Error) -> bool {
    error.chain().any(|cause| {
        let io = cause.downcast_ref::<std::io::Error>().map(std::io::Error::kind);
        let json = cause.downcast_ref::<serde_json::Error>().and_then(serde_json::Error::io_error_kind);
        io.or(json) == Some(ErrorKind::BrokenPipe)
    })
}
