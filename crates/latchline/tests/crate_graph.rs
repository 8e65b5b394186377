//! Which crate may depend on which: one list, held against every manifest and against the record of the architecture.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, reason = "tests may read files, and fail")]

use crate::common::repository_file;
use std::collections::{BTreeMap, BTreeSet};

/// Every crate with all of ours that it uses, from the bottom up: no crate uses one that stands after it. The binary stands
/// on top and may use any.
///
/// What shows results reaches neither `circuit` nor `network`: it has nothing to compute an engineering quantity with. And no
/// [renderer](RENDERERS) uses another: what two of them show stands below both.
const ALLOWED: &[(&str, &[&str])] = &[
    ("finding", &[]),
    ("words", &["finding"]),
    ("circuit", &[]),
    ("site", &["finding", "words", "circuit"]),
    ("wiring", &["finding", "words", "site"]),
    ("cutting", &["site"]),
    ("network", &["finding", "words", "circuit", "site"]),
    ("assess", &["finding", "words", "circuit", "site", "wiring", "network"]),
    ("report", &["finding", "words", "site", "assess"]),
    ("remedy", &["finding", "site", "network", "assess"]),
    ("reach", &["finding", "words", "site", "network", "assess"]),
    ("session", &["finding", "words", "site", "assess", "remedy", "reach"]),
    ("store", &["finding", "words", "site"]),
    ("survey", &["finding", "words", "site"]),
    ("design", &["finding", "words", "site", "network", "assess", "survey"]),
    ("locate", &["finding", "words", "circuit", "site", "network"]),
    ("scene", &["finding"]),
    ("drawing", &["finding", "words", "site", "wiring", "assess", "scene"]),
    ("answer", &["finding", "words", "site", "network", "assess", "locate", "scene", "drawing"]),
    ("handover", &["finding", "words", "site", "wiring", "cutting", "assess", "locate", "scene"]),
    ("workbook", &["scene", "handover"]),
    ("typeset", &["finding", "words", "scene", "handover"]),
    ("phone", &["finding", "words", "site", "wiring", "assess", "locate", "handover"]),
    ("pack", &["finding", "words", "site", "wiring", "scene", "drawing", "handover", "workbook"]),
    (
        "server",
        &[
            "finding", "words", "site", "cutting", "assess", "report", "reach", "session", "store", "survey",
            "design", "locate", "scene", "drawing", "answer", "handover", "typeset", "phone", "pack",
        ],
    ),
];

/// What turns results into something to read, each into a format or a kind of picture of its own.
const RENDERERS: [&str; 5] = ["report", "drawing", "workbook", "typeset", "phone"];

/// The binary.
const BINARY: &str = "latchline";

fn read(path: &str) -> String {
    let path = repository_file(path);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The list by name, without the binary.
fn allowed() -> BTreeMap<String, BTreeSet<String>> {
    let all = ALLOWED.iter().map(|(name, uses)| {
        (name.to_string(), uses.iter().map(|name| name.to_string()).collect::<BTreeSet<String>>())
    });
    all.collect()
}

/// The crates of ours under `[dependencies]` of a manifest.
fn dependencies(manifest: &str) -> BTreeSet<String> {
    let (_, rest) = manifest.split_once("\n[dependencies]\n").unwrap_or(("", ""));
    rest.lines()
        .take_while(|line| !line.starts_with('['))
        .filter_map(|line| Some(line.strip_prefix("latchline-")?.split_once(' ')?.0.to_string()))
        .collect()
}

#[test]
fn no_crate_uses_one_that_stands_after_it() {
    for (place, (name, uses)) in ALLOWED.iter().enumerate() {
        for used in *uses {
            assert!(ALLOWED[..place].iter().any(|(below, _)| below == used), "{name} uses {used}");
        }
    }
    for shows in RENDERERS.into_iter().chain(["scene", "handover", "pack"]) {
        for used in &allowed()[shows] {
            assert!(!["circuit", "network"].contains(&used.as_str()), "{shows} uses {used}");
            assert!(
                !RENDERERS.contains(&used.as_str()) || shows == "pack",
                "{shows} uses the renderer {used}"
            );
        }
    }
}

/// What shows results takes them as they are: none of these calls what works them out, in its sources outside tests.
#[test]
fn what_shows_results_works_none_out() {
    const WORKS_OUT: [&str; 7] = [
        "assess(",
        "assess_trial(",
        "Assessing",
        "predicted_readings(",
        "assess_with(",
        "FaultTable::of_site(",
        "FaultTable::new(",
    ];
    let mut looked_at = 0;
    for shows in RENDERERS.into_iter().chain(["scene", "handover", "pack"]) {
        for path in sources(&repository_file(&format!("crates/{shows}/src"))) {
            let text = std::fs::read_to_string(&path).unwrap();
            // Tests stand at the end of a file, or in one of their own.
            let text = text.split("#[cfg(test)]").next().unwrap_or_default();
            if path.file_stem().is_some_and(|stem| stem == "tests") {
                continue;
            }
            for call in WORKS_OUT {
                let word = |at: usize| {
                    text[..at].chars().next_back().is_some_and(|sign| sign.is_alphanumeric() || sign == '_')
                };
                let found = text.match_indices(call).find(|(at, _)| !word(*at));
                assert!(found.is_none(), "{} works out: {call}", path.display());
            }
            looked_at += 1;
        }
    }
    assert!(looked_at > 100, "{looked_at} files");
}

/// All files of Rust in a folder.
fn sources(folder: &std::path::Path) -> Vec<std::path::PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

#[test]
fn every_manifest_keeps_to_the_list() {
    let members = read("Cargo.toml");
    let members = members
        .lines()
        .filter_map(|line| line.trim().strip_prefix("\"crates/")?.strip_suffix("\",").map(String::from));
    let found: BTreeMap<String, BTreeSet<String>> = members
        .filter(|name| name != BINARY)
        .map(|name| {
            let uses = dependencies(&read(&format!("crates/{name}/Cargo.toml")));
            (name, uses)
        })
        .collect();
    assert_eq!(found, allowed());
}

/// The table "What is where" of the record names the same edges; "nothing" is none. The binary may use all.
#[test]
fn the_record_of_the_architecture_says_the_same() {
    let record = read("docs/architecture.md");
    let (_, section) = record.split_once("\n## What is where\n").unwrap();
    let section = section.split("\n## ").next().unwrap_or_default();
    let rows = section.lines().filter_map(|line| {
        let mut cells = line.strip_prefix("| `")?.trim_end_matches('|').split(" | ");
        let names: Vec<String> = cells.next()?.split(", ").map(|name| name.replace('`', "")).collect();
        Some((names, cells.nth(1)?.trim().to_string()))
    });
    let mut found = BTreeMap::new();
    for (names, uses) in rows {
        for name in names {
            if name == BINARY {
                assert_eq!(uses, "all");
                continue;
            }
            let uses: BTreeSet<String> = match uses.as_str() {
                "nothing" | "nothing of ours" => BTreeSet::new(),
                list => list.split(", ").map(String::from).collect(),
            };
            found.insert(name, uses);
        }
    }
    assert_eq!(found, allowed());
}
