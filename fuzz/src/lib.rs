//! What the program does with input from outside, as plain functions of bytes: nothing that they are given may make them panic, hang or
//! take all memory.
//!
//! Used twice: by libFuzzer (`scripts/fuzz`, the program in `fuzz_targets`), and without it by a test of the workspace that tries the kept
//! inputs (`corpus`) and changes of them.

mod catalogue;
mod found;
mod house;
mod office;
mod phone;
mod plain;
mod readings;
mod site;
mod survey;

/// One kind of input.
#[derive(Debug, Clone, Copy)]
pub struct Target {
    /// Its name: that of the folder with its kept inputs.
    pub name: &'static str,
    /// Does with the bytes what the program does with them.
    pub run: fn(&[u8]),
    /// How many changed inputs the test of the workspace tries: many where one costs little.
    pub tries: usize,
}

/// Every kind of input that comes from outside.
pub const TARGETS: [Target; 13] = [
    Target { name: "site", run: site::site, tries: 300 },
    Target { name: "catalogue", run: catalogue::catalogue, tries: 200 },
    Target { name: "workbook", run: survey::workbook, tries: 400 },
    Target { name: "sheets", run: survey::sheets, tries: 400 },
    Target { name: "plain-network", run: plain::network, tries: 2_000 },
    Target { name: "plain-line", run: plain::line, tries: 2_000 },
    Target { name: "readings-toml", run: readings::toml, tries: 300 },
    Target { name: "readings-csv", run: readings::csv, tries: 300 },
    Target { name: "readings-line", run: readings::line, tries: 300 },
    Target { name: "found", run: found::found, tries: 2_000 },
    Target { name: "edits", run: office::edits, tries: 150 },
    Target { name: "requests", run: office::requests, tries: 200 },
    Target { name: "phone", run: phone::events, tries: 300 },
];

/// The target with this name.
///
/// # Panics
/// If there is none: it is not asked for by whoever runs the program.
#[must_use]
pub fn target(name: &str) -> fn(&[u8]) {
    match TARGETS.iter().find(|target| target.name == name) {
        Some(target) => target.run,
        None => {
            let names: Vec<&str> = TARGETS.iter().map(|target| target.name).collect();
            panic!("there is no target \"{name}\"; there are {}", names.join(", "))
        }
    }
}
