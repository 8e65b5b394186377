//! The examples in the documents run and print what stands there.
//!
//! In a `console` block a line that begins with `$ ` is run by a shell, in one fresh folder a
//! document; what follows is its output, standard error included, and its exit status if that is
//! not 0. Set LATCHLINE_UPDATE_DOCS to write the output into the documents.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, reason = "tests may read files, and fail")]
#![cfg(unix)]

use crate::common::{Folder, repository_file};
use std::path::Path;
use std::process::Command;

fn shell(folder: &Folder, line: &str) -> String {
    let binary = Path::new(env!("CARGO_BIN_EXE_latchline"));
    let folders = std::env::join_paths(
        std::iter::once(binary.parent().unwrap().to_path_buf())
            .chain(std::env::split_paths(&std::env::var_os("PATH").unwrap_or_default())),
    )
    .unwrap();
    let mut command = Command::new("sh");
    command.args(["-c", &format!("{{ {line}\n}} 2>&1")]).current_dir(folder.path(".")).env("PATH", folders);
    command.env("COLUMNS", "100").env("SOURCE_DATE_EPOCH", "1700000000").env_remove("CLICOLOR_FORCE");
    let output = command.output().unwrap();
    let mut text = String::from_utf8(output.stdout).unwrap();
    if !text.is_empty() && !text.ends_with('\n') {
        text.push('\n');
    }
    match output.status.code() {
        Some(0) => text,
        status => format!("{text}[exit status {}]\n", status.unwrap_or(-1)),
    }
}

/// The document with the output of every example as it is now.
fn run_again(document: &str) -> (String, usize) {
    let folder = Folder::new();
    let mut text = String::new();
    let mut in_block = false;
    let mut runs = 0;
    for line in document.lines() {
        if line.starts_with("```") {
            in_block = line == "```console";
        } else if in_block {
            let Some(command) = line.strip_prefix("$ ") else { continue };
            text.push_str(&format!("{line}\n{}", shell(&folder, command)));
            runs += 1;
            continue;
        }
        text.push_str(line);
        text.push('\n');
    }
    (text, runs)
}

fn examples_are_current(name: &str, at_least: usize) {
    let path = repository_file(name);
    let document = std::fs::read_to_string(&path).unwrap();
    let (current, runs) = run_again(&document);
    assert!(runs >= at_least, "{name} has {runs} examples");
    if std::env::var_os("LATCHLINE_UPDATE_DOCS").is_some() {
        std::fs::write(&path, &current).unwrap();
    }
    let published = std::fs::read_to_string(&path).unwrap();
    for (number, (published, current)) in published.lines().zip(current.lines()).enumerate() {
        assert_eq!(published, current, "{name}:{}: set LATCHLINE_UPDATE_DOCS and run again", number + 1);
    }
    assert_eq!(published, current, "{name} is old: set LATCHLINE_UPDATE_DOCS and run again");
}

#[test]
fn the_picture_in_the_readme_is_what_the_tool_prints() {
    examples_are_current("README.md", 11);
}

#[test]
fn the_examples_of_the_command_line_run() {
    examples_are_current("docs/command-line.md", 10);
}

/// Pictures of the documents: what draws them, the file that is written, its name in `docs/pictures`.
const PICTURES: [(&str, &str, &str); 13] = [
    ("latchline draw demo/site.toml -o .", "elevation-1.svg", "elevation-1.svg"),
    ("latchline draw demo/site.toml -o .", "elevation-2.svg", "elevation-2.svg"),
    ("latchline draw demo/site.toml -o . --what profiles", "profiles-1.svg", "profiles.svg"),
    ("latchline draw demo/site.toml -o . --what switches", "switches-1.svg", "switches.svg"),
    ("latchline draw demo/site.toml -o . --what wiring", "wiring-1.svg", "wiring.svg"),
    ("latchline draw demo/site.toml -o . --what signal", "signal.svg", "signal.svg"),
    ("latchline draw demo/site.toml -o . --what start-up", "start-up.svg", "start-up.svg"),
    ("latchline draw demo/faulty.toml -o faulty.svg --what start-up", "faulty.svg", "start-up-fails.svg"),
    ("latchline draw demo/designed.toml -o designed.svg", "designed-2.svg", "designed.svg"),
    ("latchline locate demo/site.toml demo/readings.toml --draw .", "suspects.svg", "locate-suspects.svg"),
    ("latchline locate demo/site.toml demo/readings.toml --draw .", "voltages.svg", "locate-voltages.svg"),
    (
        "latchline locate demo/site.toml demo/readings.toml --draw .",
        "probabilities.svg",
        "locate-probabilities.svg",
    ),
    ("latchline reach ostrel-48 --spacing 3,6,12 --chart reach.svg", "reach.svg", "reach.svg"),
];

#[test]
fn the_pictures_in_the_documents_are_what_the_tool_draws() {
    let folder = Folder::new();
    shell(&folder, "latchline new --demo demo");
    for (command, file, name) in PICTURES {
        let told = shell(&folder, command);
        assert!(!told.contains("exit status"), "{command}: {told}");
        let drawn = folder.read(file);
        let path = repository_file(&format!("docs/pictures/{name}"));
        if std::env::var_os("LATCHLINE_UPDATE_DOCS").is_some() {
            std::fs::write(&path, &drawn).unwrap();
        }
        let published = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(published == drawn, "docs/pictures/{name} is old: set LATCHLINE_UPDATE_DOCS and run again");
    }
}

#[test]
fn the_examples_of_the_fault_finding_page_run() {
    examples_are_current("docs/fault-finding.md", 7);
}

#[test]
fn the_examples_of_the_doors_page_run() {
    examples_are_current("docs/doors.md", 4);
}

#[test]
fn the_examples_of_the_phone_page_run() {
    examples_are_current("docs/phone.md", 2);
}

#[test]
fn the_designed_site_of_the_demo_is_what_design_makes_of_its_survey() {
    let folder = Folder::new();
    shell(&folder, "latchline new --demo demo");
    let told = shell(&folder, "latchline design demo/survey.xlsx -o again.toml");
    assert!(told.contains("holds in every state that was calculated"), "{told}");
    let made = folder.read("again.toml");
    let path = repository_file("crates/latchline/src/demo/designed.toml");
    if std::env::var_os("LATCHLINE_UPDATE_DOCS").is_some() {
        std::fs::write(&path, &made).unwrap();
    }
    let published = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(published == made, "designed.toml is old: set LATCHLINE_UPDATE_DOCS and run again");
    let checked = shell(&folder, "latchline check again.toml");
    assert!(!checked.contains("exit status"), "{checked}");
}
