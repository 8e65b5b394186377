//! How a command that could not run says so.

use latchline_finding::shown;
use std::io::{ErrorKind, Write as _};
use std::process::ExitCode;

/// Exit status of a command that could not run, or whose input cannot be used.
pub const UNUSABLE: u8 = 2;

/// Prints the chain of an error once, each cause on a line of its own, and gives the exit status.
/// What stands in it of files and arguments is shown, never obeyed.
pub fn report(error: &anyhow::Error) -> ExitCode {
    let mut text = String::new();
    for (at, cause) in error.chain().enumerate() {
        let words = cause.downcast_ref::<std::io::Error>().map_or_else(|| cause.to_string(), in_words);
        let lead = if at == 0 { "error: " } else { "  " };
        text.push_str(&format!("{lead}{}\n", shown::prose(&words)));
    }
    // Nothing is left to tell it to if standard error is closed.
    let _ = std::io::stderr().write_all(text.as_bytes());
    ExitCode::from(UNUSABLE)
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
