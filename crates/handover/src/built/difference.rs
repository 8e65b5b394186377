//! What was built otherwise than planned, and the edit of the site file that takes it over.

use crate::subject::Subject;
use crate::table::{Cell, Entry};
use latchline_finding::{Change, Edit, EditStep, METRES_PER_FOOT, Units};
use std::collections::BTreeMap;

/// What takes a difference over into the site file.
#[derive(Debug, Clone, PartialEq)]
pub enum Takes {
    /// No single key does.
    Nothing,
    /// This key, set to this TOML text.
    Key(Vec<EditStep>, String),
    /// The length of this section of this run, in metres.
    Section {
        /// Index into the site's runs.
        run: usize,
        /// Section of it.
        section: usize,
        /// As it was laid.
        metres: f64,
    },
}

/// What is written of one thing, and what follows.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// In words.
    pub says: String,
    /// What takes it over.
    pub takes: Takes,
    /// Whether it is within what the plan allows anyway.
    pub is_within: bool,
}

/// What was built otherwise than planned.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Built {
    /// Each difference, in the order of the sheets.
    pub differences: Vec<Difference>,
    /// Entries for which the site file has no key.
    pub noted: usize,
    /// Readings of the commissioning sheets.
    pub readings: usize,
}

impl Built {
    /// How many differences are more than the plan allows.
    pub fn beyond_the_plan(&self) -> usize {
        self.differences.iter().filter(|one| !one.is_within).count()
    }

    /// The change of the site file: of what is beyond what the plan allows, or of `every` difference.
    pub fn edit(&self, subject: &Subject<'_>, has: &dyn Fn(&[EditStep]) -> bool, every: bool) -> Edit {
        let mut edit = Edit::default();
        let mut of_runs: BTreeMap<usize, BTreeMap<usize, f64>> = BTreeMap::new();
        for one in self.differences.iter().filter(|one| every || !one.is_within) {
            match &one.takes {
                Takes::Nothing => {}
                Takes::Key(path, value) => edit.changes.push((path.clone(), Change::Set(value.clone()))),
                Takes::Section { run, section, metres } => {
                    of_runs.entry(*run).or_default().insert(*section, *metres);
                }
            }
        }
        for (run, laid) in of_runs {
            lengths(subject, run, &laid, has, &mut edit);
        }
        edit
    }

    /// Something that no single key takes.
    pub(super) fn say(&mut self, says: String) {
        self.differences.push(Difference { says, takes: Takes::Nothing, is_within: false });
    }
}

/// Sets the lengths of a run: its only one, or the list of all.
fn lengths(
    subject: &Subject<'_>,
    index: usize,
    laid: &BTreeMap<usize, f64>,
    has: &dyn Fn(&[EditStep]) -> bool,
    edit: &mut Edit,
) {
    let (run, units) = (&subject.site.runs[index], subject.locale.units);
    let id = run.id.as_str();
    let of_section = |at: usize| laid.get(&at).copied().unwrap_or(run.sections[at].length.value.as_metres());
    let single = path(&["runs", id, "length"]);
    if run.sections.len() == 1 && has(&single) {
        edit.changes.push((single, Change::Set(length_text(of_section(0), units))));
        return;
    }
    let list: Vec<String> = (0..run.sections.len()).map(|at| length_text(of_section(at), units)).collect();
    edit.changes.push((path(&["runs", id, "lengths"]), Change::Set(format!("[{}]", list.join(", ")))));
    // What said the lengths before.
    let others = ["length", "first", "spacing"].map(|key| path(&["runs", id, key]));
    edit.changes.extend(others.into_iter().filter(|path| has(path)).map(|path| (path, Change::Remove)));
}

/// What was written into a cell.
pub(super) fn entry(cell: &Cell) -> Option<&Entry> {
    match cell {
        Cell::Written { entry, .. } => Some(entry),
        _ => None,
    }
}

/// A path of keys.
pub(super) fn path(steps: &[&str]) -> Vec<EditStep> {
    steps.iter().map(|step| EditStep::from(*step)).collect()
}

/// A length as it is written in a site file, in the reader's units.
pub(super) fn length_text(metres: f64, units: Units) -> String {
    let (value, unit) = match units {
        Units::Metric => (metres, "m"),
        Units::Us => (metres / METRES_PER_FOOT, "ft"),
    };
    let number = format!("{value:.2}");
    format!("\"{} {unit}\"", number.trim_end_matches('0').trim_end_matches('.'))
}
