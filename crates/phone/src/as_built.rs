//! What was read on site and can stand in the site file: the loop, the capacitance and the insulation of a run, the voltage that a
//! supply is set to.
//!
//! Each becomes an edit that sets one key. Voltages and currents with everything connected are what follows from such keys: they
//! correct none of them, and are left to fault finding.

use crate::comparison::{Comparison, Judgement, Side};
use latchline_assess::{Reading, StageSource};
use latchline_finding::{Edit, EditStep};
use latchline_handover::commissioning::Taken;
use latchline_site::model::Site;
use std::collections::BTreeMap;

/// A reading that can stand in the site file.
#[derive(Debug, Clone)]
pub struct Correction<'a> {
    /// The reading.
    pub judgement: Judgement<'a>,
    /// The key that it sets, from the top of the site file.
    pub path: Vec<String>,
    /// What it is set to, as it is written there, without quotes: "27 ohm".
    pub value: String,
}

impl Correction<'_> {
    /// The change of the site file.
    pub fn edit(&self) -> Edit {
        let keys: Vec<&str> = self.path.iter().map(String::as_str).collect();
        Edit::set(&keys, format!("\"{}\"", self.value))
    }
}

/// What the readings make of the site file.
#[derive(Debug, Clone, Default)]
pub struct AsBuilt<'a> {
    /// What can be written, in working order.
    pub corrections: Vec<Correction<'a>>,
    /// Readings out of range that no key of the site file can take.
    pub left: Vec<Judgement<'a>>,
    /// Keys of which two steps read different values: none of them is written.
    pub disagreeing: Vec<(Vec<String>, Vec<Judgement<'a>>)>,
}

impl<'a> AsBuilt<'a> {
    /// Of what was read: only what is out of its range, or `every` reading that a key can take.
    pub fn new(site: &Site, found: &Comparison<'a>, every: bool) -> AsBuilt<'a> {
        let mut made = AsBuilt::default();
        let mut by_path: BTreeMap<Vec<String>, usize> = BTreeMap::new();
        let mut doubled: BTreeMap<Vec<String>, Vec<Judgement<'a>>> = BTreeMap::new();
        for judgement in &found.judged {
            let is_outside = matches!(judgement.side, Side::Low | Side::High);
            let Some((path, value)) = key(site, judgement) else {
                if is_outside {
                    made.left.push(*judgement);
                }
                continue;
            };
            match by_path.get(&path) {
                // Read twice, at two steps.
                Some(&at) if made.corrections[at].value == value => continue,
                Some(&at) => {
                    doubled
                        .entry(path.clone())
                        .or_insert_with(|| vec![made.corrections[at].judgement])
                        .push(*judgement);
                }
                None => {
                    by_path.insert(path.clone(), made.corrections.len());
                    made.corrections.push(Correction { judgement: *judgement, path, value });
                }
            }
        }
        made.corrections.retain(|one| {
            let is_outside = matches!(one.judgement.side, Side::Low | Side::High);
            !doubled.contains_key(&one.path) && (every || is_outside)
        });
        made.disagreeing = doubled.into_iter().collect();
        made
    }

    /// All corrections as one change.
    pub fn edit(&self) -> Edit {
        let changes = self.corrections.iter().flat_map(|one| one.edit().changes);
        Edit { changes: changes.collect::<Vec<(Vec<EditStep>, _)>>() }
    }
}

/// The key that a reading tells, and its value.
fn key(site: &Site, judgement: &Judgement<'_>) -> Option<(Vec<String>, String)> {
    // A line that is open, or an insulation beyond the meter, has no value to write.
    let value = judgement.value.filter(|value| *value > 0.0)?;
    let value = format!("{value} {}", judgement.step.unit);
    let measured = |run: usize, key: &str| {
        let run = site.runs[run].id.to_string();
        vec![String::from("runs"), run, String::from("measured"), String::from(key)]
    };
    let path = match judgement.taken? {
        Taken::Insulation { run } => measured(*run, "insulation"),
        Taken::Predicted(Reading::LoopResistance { run }) => measured(*run, "loop"),
        Taken::Predicted(Reading::Capacitance { run }) => measured(*run, "capacitance"),
        Taken::Predicted(Reading::OpenCircuitVoltage { source: StageSource::Supply(supply) }) => {
            let supply = site.supplies[*supply].id.to_string();
            vec![String::from("supplies"), supply, String::from("set_voltage")]
        }
        Taken::Predicted(_) => return None,
    };
    Some((path, value))
}
