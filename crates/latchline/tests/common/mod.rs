//! Runs the real binary in a fresh folder.
#![allow(
    dead_code,
    clippy::disallowed_methods,
    reason = "each test file uses its part; tests may read and write files"
)]

use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A fresh folder that is removed at the end.
pub struct Folder {
    folder: tempfile::TempDir,
}

/// What a run of the binary gave.
#[derive(Debug)]
pub struct Ran {
    /// Exit status.
    pub status: i32,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

impl Folder {
    /// A fresh folder.
    pub fn new() -> Self {
        Self { folder: tempfile::tempdir().expect("a temporary folder") }
    }

    /// A fresh folder with the starter site in `site.toml`.
    pub fn with_starter() -> Self {
        let folder = Self::new();
        assert_eq!(folder.run(&["new"]).status, 0);
        folder
    }

    /// Path of a file in it.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Writes a file.
    pub fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        std::fs::write(self.path(name), bytes).expect("the file is written");
    }

    /// Reads a file.
    pub fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).expect("the file is read")
    }

    /// Replaces a text that must be there in a file.
    pub fn edit(&self, name: &str, from: &str, to: &str) {
        let text = self.read(name);
        assert!(text.contains(from), "{from} is in {name}");
        self.write(name, text.replacen(from, to, 1));
    }

    /// Names of all files, in order.
    pub fn names(&self) -> Vec<String> {
        let entries = std::fs::read_dir(self.folder.path()).expect("the folder is read");
        let mut names: Vec<String> = entries
            .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    /// The binary with these arguments, its surroundings fixed.
    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_latchline"));
        command.args(arguments).current_dir(self.folder.path()).stdin(Stdio::null());
        for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "TERM", "SOURCE_DATE_EPOCH"] {
            command.env_remove(name);
        }
        command.env("COLUMNS", "100");
        command
    }

    /// Runs the binary.
    pub fn run(&self, arguments: &[&str]) -> Ran {
        ran(self.command(arguments).output().expect("the binary runs"))
    }

    /// Runs the binary with a text on its standard input.
    pub fn run_with_input(&self, arguments: &[&str], input: &[u8]) -> Ran {
        self.write("standard-input", input);
        let file = std::fs::File::open(self.path("standard-input")).expect("the input opens");
        ran(self.command(arguments).stdin(file).output().expect("the binary runs"))
    }
}

/// What a finished process gave.
pub fn ran(output: Output) -> Ran {
    Ran {
        status: output.status.code().expect("the process was not killed"),
        out: String::from_utf8(output.stdout).expect("standard output is UTF-8"),
        err: String::from_utf8(output.stderr).expect("standard error is UTF-8"),
    }
}

/// A file of the repository.
pub fn repository_file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(name)
}

/// A text with other words put in for some of its own, each of which must be there.
pub fn changed(text: &str, changes: &[(&str, &str)]) -> String {
    changes.iter().fold(text.to_string(), |text, (old, new)| {
        assert!(text.contains(old), "{old}");
        text.replace(old, new)
    })
}

/// What a run says, on both outputs, as words with one space between.
pub fn words(folder: &Folder, typed: &[&str]) -> String {
    let ran = folder.run(typed);
    format!("{}{}", ran.out, ran.err).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The document that a run gives for programs.
pub fn json(folder: &Folder, typed: &[&str]) -> serde_json::Value {
    let ran = folder.run(&[typed, &["--format", "json"]].concat());
    serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{}{}", ran.out, ran.err))
}
