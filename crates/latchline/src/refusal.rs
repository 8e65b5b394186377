//! Why a command could not run, in every language.
//!
//! A refusal is a chain of rows (see `latchline_words::refusals`), the outermost first: what could not be done, then what kept it from
//! being done. A text that is no row makes none, so that nothing is refused in one language only; what the system or a library says
//! in its own words comes in by a `From` that stands here or in `refusal_of.rs`.

use latchline_finding::{Both, Language};
use latchline_words::refusals::{
    ArgumentRefusal, FileRefusal, FolderRefusal, NameRefusal, OtherOfSystem, PartRefusal, ResultRefusal,
    SiteRefusal, StoreRefusal, SystemRefusal,
};
use std::fmt;
use std::io::{self, ErrorKind};

/// What a command gives, or why it could not run.
pub type Result<T, E = Refusal> = std::result::Result<T, E>;

/// Why a command could not run.
#[derive(Debug, Clone, PartialEq)]
pub struct Refusal {
    chain: Vec<Both>,
    is_of_output: bool,
}

impl Refusal {
    /// What a row says.
    pub fn new(said: impl Into<Both>) -> Self {
        Self { chain: vec![said.into()], is_of_output: false }
    }

    /// A sentence with words in it that differ from language to language.
    pub fn in_each(said: impl Fn(Language) -> String) -> Self {
        Self::new(Both::new(said(Language::English), said(Language::German)))
    }

    /// What a library says, which has it in one language.
    pub fn of_library(error: &dyn std::error::Error) -> Self {
        let mut chain = vec![Both::same(error.to_string())];
        let mut source = error.source();
        while let Some(cause) = source {
            chain.push(Both::same(cause.to_string()));
            source = cause.source();
        }
        Self { chain, is_of_output: false }
    }

    /// That it is a result that could not be written.
    fn of_output(cause: &io::Error) -> Self {
        let chain = vec![SystemRefusal::CannotWriteResult.both(), in_words(cause)];
        Self { chain, is_of_output: true }
    }

    /// Puts before it what could not be done for it.
    #[must_use]
    pub fn within(mut self, said: impl Into<Both>) -> Self {
        self.chain.insert(0, said.into());
        self
    }

    /// Whether it is a result that could not be written.
    pub fn is_of_output(&self) -> bool {
        self.is_of_output
    }

    /// Each link in a language; who writes through a buffer says the same once more, and is heard once.
    pub fn lines(&self, language: Language) -> Vec<&str> {
        let mut lines: Vec<&str> = self.chain.iter().map(|said| said.of(language)).collect();
        lines.dedup();
        lines
    }

    /// What kept it from being done, without what could not be done for it.
    pub fn innermost(&self) -> Both {
        self.chain.last().cloned().unwrap_or_else(|| Both::same(""))
    }

    /// All of it in one line.
    pub fn both(&self) -> Both {
        let line = |language| self.lines(language).join(": ");
        Both::new(line(Language::English), line(Language::German))
    }
}

impl fmt::Display for Refusal {
    /// In English, for tests and for other programs: the outermost link, or with `#` all.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let lines = self.lines(Language::English);
        let shown =
            if f.alternate() { lines.join(": ") } else { lines.first().map_or("", |line| *line).into() };
        f.write_str(&shown)
    }
}

impl std::error::Error for Refusal {}

macro_rules! rows_are_refusals {
    ($($row:ty),*) => {
        $(impl From<$row> for Refusal {
            fn from(row: $row) -> Self {
                Refusal::new(row)
            }
        })*
    };
}

rows_are_refusals!(
    ArgumentRefusal<'_>,
    FileRefusal<'_>,
    FolderRefusal<'_>,
    NameRefusal<'_>,
    PartRefusal<'_>,
    ResultRefusal<'_>,
    SiteRefusal<'_>,
    StoreRefusal<'_>,
    SystemRefusal
);

/// That a result could not be written to standard output, for whatever the system says beneath.
#[derive(Debug)]
pub struct Unwritten(pub io::Error);

impl fmt::Display for Unwritten {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&SystemRefusal::CannotWriteResult.say(Language::English))
    }
}

impl std::error::Error for Unwritten {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        Some(&self.0)
    }
}

impl From<io::Error> for Refusal {
    fn from(error: io::Error) -> Self {
        let inner = error.get_ref();
        if let Some(Unwritten(cause)) = inner.and_then(|inner| inner.downcast_ref()) {
            return Refusal::of_output(cause);
        }
        match inner.and_then(|inner| inner.downcast_ref::<Refusal>()) {
            Some(refusal) => refusal.clone(),
            None => Refusal::new(in_words(&error)),
        }
    }
}

/// What the system's error means for whoever named the file.
pub fn in_words(error: &io::Error) -> Both {
    match error.kind() {
        ErrorKind::NotFound => SystemRefusal::NoSuchFileOrFolder,
        ErrorKind::PermissionDenied => SystemRefusal::PermissionDenied,
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => SystemRefusal::NoSpaceLeft,
        ErrorKind::ReadOnlyFilesystem => SystemRefusal::OnlyRead,
        ErrorKind::IsADirectory => SystemRefusal::IsDirectory,
        ErrorKind::NotADirectory => SystemRefusal::NotDirectory,
        ErrorKind::InvalidFilename => SystemRefusal::NameNotAllowed,
        ErrorKind::AlreadyExists => SystemRefusal::AlreadyThere,
        ErrorKind::FileTooLarge => SystemRefusal::FileTooLarge,
        ErrorKind::ResourceBusy | ErrorKind::ExecutableFileBusy | ErrorKind::WouldBlock => {
            SystemRefusal::InUse
        }
        ErrorKind::DirectoryNotEmpty => SystemRefusal::FolderNotEmpty,
        ErrorKind::CrossesDevices => SystemRefusal::AcrossDevices,
        ErrorKind::Unsupported => SystemRefusal::NotSupported,
        ErrorKind::TimedOut => SystemRefusal::TimedOut,
        ErrorKind::BrokenPipe | ErrorKind::ConnectionReset => SystemRefusal::BrokenOff,
        ErrorKind::OutOfMemory => SystemRefusal::NoMemory,
        ErrorKind::UnexpectedEof => SystemRefusal::EndsTooEarly,
        _ if is_circle_of_links(error) => SystemRefusal::LinksInACircle,
        _ => {
            let text = error.to_string();
            let message = text.split(" (os error").next().unwrap_or_default();
            return match error.raw_os_error() {
                Some(number) => OtherOfSystem::Numbered { number: &number.to_string(), message }.both(),
                None => OtherOfSystem::Unnumbered { message }.both(),
            };
        }
    }
    .both()
}

/// Whether links lead in a circle: ELOOP of POSIX.1-2017 (`<errno.h>`), for which the standard library has no stable kind. Its number
/// is 40 on Linux, 62 on macOS and the BSDs (common practice, no source).
fn is_circle_of_links(error: &io::Error) -> bool {
    let number = if cfg!(target_os = "linux") { 40 } else { 62 };
    cfg!(unix) && error.raw_os_error() == Some(number)
}

/// Says for what something was wanted that could not be had.
pub trait Refused<T> {
    /// Puts a row before what went wrong.
    ///
    /// # Errors
    /// What went wrong, behind the row.
    fn refused<R: Into<Both>>(self, row: impl FnOnce() -> R) -> Result<T>;
}

impl<T, E: Into<Refusal>> Refused<T> for std::result::Result<T, E> {
    fn refused<R: Into<Both>>(self, row: impl FnOnce() -> R) -> Result<T> {
        self.map_err(|error| error.into().within(row()))
    }
}

impl<T> Refused<T> for Option<T> {
    fn refused<R: Into<Both>>(self, row: impl FnOnce() -> R) -> Result<T> {
        self.ok_or_else(|| Refusal::new(row()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn errors_of_the_system_are_told_in_words() {
        for kind in [ErrorKind::NotFound, ErrorKind::StorageFull, ErrorKind::TimedOut, ErrorKind::Other] {
            let words = in_words(&io::Error::from(kind));
            let (english, german) = (words.of(Language::English), words.of(Language::German));
            assert!(!english.is_empty() && !english.contains("os error"), "{english}");
            assert_ne!(english, german);
        }
        // Numbers of Linux (asm-generic/errno-base.h, errno.h): EEXIST, EBUSY, ELOOP, and one without a row, ENOTTY.
        if cfg!(target_os = "linux") {
            for (number, german) in [
                (17, "unter diesem Namen gibt es dort schon etwas"),
                (16, "ein anderes Programm benutzt das"),
                (40, "seine Verweise führen im Kreis"),
                (25, "Fehler 25 des Systems, im Original: „Inappropriate ioctl for device“"),
            ] {
                let words = in_words(&io::Error::from_raw_os_error(number));
                assert!(words.of(Language::German).starts_with(german), "{words:?}");
            }
        }
        let full = in_words(&io::Error::from_raw_os_error(28));
        assert_eq!(full.of(Language::English), "no space is left there; make room and run again");
        assert_eq!(
            full.of(Language::German),
            "dort ist kein Platz mehr; Platz schaffen und noch einmal starten"
        );
    }

    #[test]
    fn a_chain_is_told_from_the_outside_in_and_once() {
        let refusal = Refusal::from(io::Error::other(Unwritten(io::Error::from_raw_os_error(28))))
            .within(SystemRefusal::CannotWriteResult);
        assert_eq!(
            refusal.lines(Language::German),
            [
                "das Ergebnis kann nicht geschrieben werden",
                "dort ist kein Platz mehr; Platz schaffen und noch einmal starten"
            ]
        );
        assert!(refusal.is_of_output());
        assert_eq!(refusal.to_string(), "cannot write the result");
    }
}
