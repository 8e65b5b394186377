//! Whole tests of the crate, in one binary: one file a subject.

mod ask_json;
mod asked_well;
mod bad_input;
mod check;
mod commands;
mod common;
mod crate_graph;
mod documents;
mod edges;
mod file_circles;
mod files;
mod first_page;
mod german;
mod hard_use;
mod hidden;
mod locate;
mod old_cable;
mod one_device;
mod one_home_for_words;
mod one_rounding;
mod pack_folder;
mod phone;
mod sheets;
mod slips;
mod store;
mod surveys;
mod telephone;
mod told_first;
mod told_once;

use std::fs;
use std::path::Path;

/// A file under `tests/` that no module names would never be compiled, nor missed.
#[test]
#[allow(clippy::disallowed_methods, reason = "tests may read files")]
fn every_test_file_of_the_workspace_is_compiled() {
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut unnamed = Vec::new();
    for entry in fs::read_dir(crates).unwrap() {
        let folder = entry.unwrap().path().join("tests");
        let Ok(main) = fs::read_to_string(folder.join("main.rs")) else { continue };
        for file in fs::read_dir(&folder).unwrap() {
            let file = file.unwrap().path();
            let is_source = file.extension().is_some_and(|extension| extension == "rs");
            let name = file.file_stem().unwrap().to_string_lossy().into_owned();
            if is_source && name != "main" && !main.contains(&format!("mod {name};")) {
                unnamed.push(file);
            }
        }
    }
    assert!(unnamed.is_empty(), "not named in their main.rs: {unnamed:?}");
}
