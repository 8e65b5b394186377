//! How a command that could not run says so.

use crate::output::Unwritten;
use latchline_finding::shown;
use std::io::{ErrorKind, Write as _};
use std::path::PathBuf;
use std::process::ExitCode;

/// Exit status of a command that could not run, or whose input cannot be used.
pub const UNUSABLE: u8 = 2;

/// Prints the chain of an error once, each cause on a line of its own, and gives the exit status. Where it is the result that could not
/// be written, it also says what was `written` besides: the command may have done its work.
/// What stands in it of files and arguments is shown, never obeyed.
pub fn report(error: &anyhow::Error, written: &[PathBuf]) -> ExitCode {
    // Nothing is left to tell it to if standard error is closed.
    let _ = std::io::stderr().write_all(text(error, written).as_bytes());
    ExitCode::from(UNUSABLE)
}

fn text(error: &anyhow::Error, written: &[PathBuf]) -> String {
    let of_output = |error: &std::io::Error| error.get_ref().is_some_and(|inner| inner.is::<Unwritten>());
    let is_of_output =
        |cause: &&(dyn std::error::Error + 'static)| cause.downcast_ref().is_some_and(of_output);
    let mut lines: Vec<String> = Vec::new();
    for cause in error.chain() {
        let words = match cause.downcast_ref::<std::io::Error>() {
            Some(error) if !of_output(error) => in_words(error),
            _ => cause.to_string(),
        };
        // Who writes through a buffer says the same once more.
        if lines.last() != Some(&words) {
            lines.push(words);
        }
    }
    if error.chain().any(|cause| is_of_output(&cause)) {
        if written.is_empty() {
            lines.push(String::from("no file was changed"));
        }
        lines
            .extend(written.iter().map(|path| format!("\"{}\" was written all the same", shown::path(path))));
    }
    let mut text = String::new();
    for (at, words) in lines.iter().enumerate() {
        let lead = if at == 0 { "error: " } else { "  " };
        text.push_str(&format!("{lead}{}\n", shown::prose(words)));
    }
    text
}

/// What the system's error means for whoever named the file.
pub fn in_words(error: &std::io::Error) -> String {
    let words = match error.kind() {
        ErrorKind::NotFound => "there is no such file or folder; check the path",
        ErrorKind::PermissionDenied => "permission is denied; choose another place, or ask its owner",
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
            "no space is left there; make room and run again"
        }
        ErrorKind::ReadOnlyFilesystem => "what is there can only be read; choose another place",
        ErrorKind::IsADirectory => "it is a directory; name a file in it",
        ErrorKind::NotADirectory => "a part of the path is a file, not a folder; check the path",
        ErrorKind::InvalidFilename => "the name is too long, or has signs that are not allowed there",
        _ => {
            let text = error.to_string();
            return text.split(" (os error").next().unwrap_or_default().to_lowercase();
        }
    };
    words.to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn errors_of_the_system_are_told_in_words() {
        for kind in [ErrorKind::NotFound, ErrorKind::StorageFull, ErrorKind::TimedOut, ErrorKind::Other] {
            let words = in_words(&std::io::Error::from(kind));
            assert!(!words.is_empty() && !words.contains("os error"), "{words}");
        }
        assert_eq!(
            in_words(&std::io::Error::from_raw_os_error(28)),
            "no space is left there; make room and run again"
        );
    }
}
