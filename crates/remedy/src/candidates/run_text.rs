//! A run as it stands in the text of a site file.

use crate::bench::Bench;
use crate::candidate::{metres, quoted, quoted_list};
use latchline_finding::Edit;
use latchline_site::model::{Run, RunStop, Site};
use std::ops::Range;
use toml::de::DeValue;

/// The lengths of a newly pulled run, in place of whatever keys stood for them.
pub(super) fn write_lengths(bench: &Bench<'_>, id: &str, lengths_m: &[f64]) -> Edit {
    let texts: Vec<String> = lengths_m.iter().map(|length| metres(*length)).collect();
    let mut edit = Edit::set(&["runs", id, "lengths"], quoted_list(texts.iter().map(String::as_str)));
    // It is a new cable: neither existing nor measured.
    for key in ["length", "first", "spacing", "measured", "existing"] {
        if run_has(bench, id, key) {
            edit = edit.then(Edit::remove(&["runs", id, key]));
        }
    }
    edit
}

/// The names of the stops of a run as the user writes them in `to`.
pub(super) fn stops(site: &Site, run: &Run) -> Vec<String> {
    run.sections
        .iter()
        .map(|section| match section.to {
            RunStop::BoxLink(_) => format!("{}.link", site.stop_id(section.to)),
            _ => site.stop_id(section.to).to_string(),
        })
        .collect()
}

/// The edit that leaves the first `cut` stops on a run.
pub(super) fn keep_head(bench: &Bench<'_>, run: &Run, cut: usize) -> Edit {
    let id = run.id.as_str();
    let names = stops(bench.site, run);
    let mut edit = Edit::set(&["runs", id, "to"], quoted_list(names[..cut].iter().map(String::as_str)));
    // What followed from the loop of the whole run is written for what is left of it.
    let is_told_once = ["length", "first", "spacing"].iter().any(|key| run_has(bench, id, key));
    if run_has(bench, id, "lengths") || !is_told_once {
        let lengths: Vec<String> =
            run.section_lengths_m()[..cut].iter().map(|length| metres(*length)).collect();
        let list = quoted_list(lengths.iter().map(String::as_str));
        edit = edit.then(Edit::set(&["runs", id, "lengths"], list));
    }
    if run_has(bench, id, "measured") {
        edit = edit.then(Edit::remove(&["runs", id, "measured"]));
    }
    // A terminator stays with the run: it stands at the new end.
    edit
}

/// Up to this length a way to a first stop is a piece within a box or beside it.
const BESIDE_M: f64 = 2.0;

/// The TOML of a run that takes some stops of another. Where that is an existing cable it stays where it lies, its end led to what stands beside; a
/// longer way to the first stop is pulled anew, and with it the rest, in the cable that the site has unless a run says otherwise: what was found
/// in a wall is not to be had.
pub(super) fn new_run(bench: &Bench<'_>, run: &Run, taken: Range<usize>, from: &str, first_m: f64) -> String {
    let names = stops(bench.site, run);
    let to = quoted_list(names[taken.clone()].iter().map(String::as_str));
    let mut lengths = vec![metres(first_m)];
    lengths.extend(run.section_lengths_m()[taken].iter().skip(1).map(|length| metres(*length)));
    let lengths = quoted_list(lengths.iter().map(String::as_str));
    let is_kept = run.existing.value && first_m <= BESIDE_M;
    let usual = bench.written(&["site", "cable"]).and_then(DeValue::as_str);
    let own = run.cable.value.as_str();
    let cable = quoted(usual.filter(|_| run.existing.value && !is_kept).unwrap_or(own));
    let mut text = format!("{{ from = {}, to = {to}, cable = {cable}, lengths = {lengths}", quoted(from));
    // What ends the chain stands at the end of each of its parts.
    for key in [
        "environment",
        "surge_protection",
        "surge_protection_at",
        "surge_earth",
        "terminator",
        "terminator_capacitor",
    ] {
        if let Some(value) = bench.written_text(&["runs", run.id.as_str(), key]) {
            text.push_str(&format!(", {key} = {value}"));
        }
    }
    if is_kept {
        text.push_str(", existing = true");
    }
    text.push_str(" }");
    text
}

/// Whether the user's text has a key in a run.
pub(super) fn run_has(bench: &Bench<'_>, run: &str, key: &str) -> bool {
    bench.written(&["runs", run, key]).is_some()
}
