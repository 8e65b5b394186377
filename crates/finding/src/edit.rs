//! Changes to the text of a site file, as data.
//!
//! Everything that flows back to the file is an [`Edit`]: remedies, page edits, undo, acceptance,
//! design changes and as-built corrections. The site crate applies it to the text and keeps
//! comments, order and layout. An edit can carry what it expects to find, so that on a newer text it is applied or refused, never
//! laid over something else.

use crate::{Code, ElementId, MainsLost, Money, Rounded, Severity};

/// One step into a TOML document.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum EditStep {
    /// The value of this key.
    Key(String),
    /// This place of an array, from 0.
    Index(usize),
}

impl From<&str> for EditStep {
    fn from(key: &str) -> Self {
        EditStep::Key(key.to_string())
    }
}

impl From<usize> for EditStep {
    fn from(index: usize) -> Self {
        EditStep::Index(index)
    }
}

/// What happens at the place that the path names.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// Set the value, given as TOML text (`"14 m"` with its quotes). Adds the key if it is new.
    Set(String),
    /// Remove the key or array item.
    Remove,
    /// Put a value, given as TOML text, into the array before this place (its length: at the end).
    Insert(usize, String),
    /// Add a new table to the array of tables that the path names, given as TOML text of its body.
    AppendTable(String),
    /// Give a key another name, keeping its value and place.
    Rename(String),
    /// Change nothing, but go on only if this value is there, given as TOML text; `None`: only if nothing is.
    Expect(Option<String>),
    /// Put other lines in place of these, byte for byte; the path is empty. They are looked for at `line` (from 0) and, where they are
    /// not there, anywhere; found nowhere or more than once, nothing is changed.
    Lines {
        /// Where they are expected.
        line: usize,
        /// The lines that must be there, whole, with their ends.
        expects: String,
        /// What stands there afterwards.
        becomes: String,
    },
}

/// One or more changes to a site file that belong together.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Edit {
    /// Path and change, applied in order.
    pub changes: Vec<(Vec<EditStep>, Change)>,
}

impl Edit {
    /// Whether it gives dwellings other stations than were chosen for them: what a client has chosen is changed last.
    pub fn changes_stations_of_dwellings(&self) -> bool {
        self.changes.iter().any(|(path, _)| {
            let is = |step: Option<&EditStep>, keys: &[&str]| {
                matches!(step, Some(EditStep::Key(key)) if keys.contains(&key.as_str()))
            };
            is(path.first(), &["dwellings"]) && is(path.last(), &["station", "extensions"])
        })
    }

    /// The edit that sets one key.
    pub fn set(path: &[&str], toml_value: impl Into<String>) -> Self {
        Self::one(path, Change::Set(toml_value.into()))
    }

    /// The edit that removes one key.
    pub fn remove(path: &[&str]) -> Self {
        Self::one(path, Change::Remove)
    }

    /// An edit of one change.
    pub fn one(path: &[&str], change: Change) -> Self {
        Self { changes: vec![(path.iter().map(|key| EditStep::from(*key)).collect(), change)] }
    }

    /// The edit that puts other lines in place of some.
    pub fn lines(line: usize, expects: impl Into<String>, becomes: impl Into<String>) -> Self {
        Self::one(&[], Change::Lines { line, expects: expects.into(), becomes: becomes.into() })
    }

    /// Whether it changes nothing.
    pub fn is_empty(&self) -> bool {
        self.changes.iter().all(|(_, change)| matches!(change, Change::Expect(_)))
    }

    /// This edit followed by another.
    pub fn then(mut self, other: Edit) -> Self {
        self.changes.extend(other.changes);
        self
    }
}

/// A change that was computed, applied to a copy, solved again and found to remove its finding. Where it brings a finding that was not
/// there, that is no error, an error goes, and it is named. Without an edit it is nothing that a site file says, and was simulated only.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Remedy {
    /// What kind of remedy, in kebab case ("thicker-conductor").
    pub kind: &'static str,
    /// The change to the site file.
    pub edit: Edit,
    /// Where it is several changes in one, each with its kind; else empty.
    pub parts: Vec<(&'static str, Edit)>,
    /// The figure that the finding was about, after the change.
    pub value_after: Option<Rounded>,
    /// Extra cost in the catalogue's currency, where prices are known.
    pub cost: Option<Money>,
    /// Whether anything is bought for it: also where that costs what it takes the place of.
    pub buys: bool,
    /// Where something of it has no price, what the rest costs.
    pub priced: Option<Money>,
    /// Extra labour in minutes, where the bill knows it.
    pub minutes: Option<f64>,
    /// Every finding that goes with it, by code and element, its own among them.
    pub clears: Vec<(Code, Option<ElementId>)>,
    /// Every finding that comes with it, none of them an error.
    pub brings: Vec<Brought>,
    /// What it makes of doors and stations while the mains are lost, where that was otherwise and is not a battery's gain.
    pub mains_lost: Vec<MainsLost>,
    /// For a change of nothing but what is known: what has to be measured.
    pub measure: Option<LoopMeasurement>,
}

/// A finding that comes with a change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Brought {
    /// Its kind.
    pub code: Code,
    /// How much it matters.
    pub severity: Severity,
    /// What it is about.
    pub element: Option<ElementId>,
}

/// A loop resistance that, measured on site, would mend a finding.
#[derive(Debug, Clone, PartialEq)]
pub struct LoopMeasurement {
    /// The run, with the electronics disconnected.
    pub run: ElementId,
    /// Where the ohmmeter goes: the terminals from which the run starts.
    pub at: ElementId,
    /// Where both conductors are joined: the last stop of the run.
    pub joined_at: ElementId,
    /// What it should read by what is stated, in ohms.
    pub expected_ohm: f64,
    /// The most that it may read, in ohms.
    pub most_ohm: f64,
}

impl Remedy {
    /// Whether it is a change of the site file, rather than of something that no site file says.
    pub fn changes_the_file(&self) -> bool {
        !self.edit.changes.is_empty()
    }
}
