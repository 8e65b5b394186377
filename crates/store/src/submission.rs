//! What is submitted, and what is answered.

use crate::hash;
use crate::revision::{Number, Revision, Signed};
use crate::texts::Texts;
use latchline_finding::{Change, Edit, EditStep};

/// Signs of the longest id that a client gives.
pub const LONGEST_ID: usize = 100;
/// Signs of the longest name, of a site, a person, a client or a state.
pub const LONGEST_NAME: usize = 200;
/// Signs of the longest note.
pub const LONGEST_NOTE: usize = 2_000;

/// What happens to one file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FileChange {
    /// An edit of what is there. What it sets, removes or expects must still be as it was on the base.
    Edit(Edit),
    /// The whole text, as it is to be; what others changed since the base stays where the two go together.
    Write(String),
    /// The catalogue goes, unless somebody has changed it since the base.
    Remove,
}

/// What is asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Proposal {
    /// Changes that belong together, by path, made on the base.
    Change {
        /// The revision that the client saw.
        base: Number,
        /// What happens, in order.
        files: Vec<(String, FileChange)>,
    },
    /// Take back this client's last change that stands.
    Undo,
    /// Make again what this client took back last.
    Redo,
    /// Take back one revision, whoever made it, and keep what came after it.
    TakeBack(Number),
    /// Make the texts what they were in a revision. Nothing may have come since the base: what others did would go unseen.
    BringBack {
        /// The revision that the client saw.
        base: Number,
        /// The one to bring back.
        revision: Number,
    },
}

/// A proposal with its id.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Submission {
    /// Made by the client, used once in a site: a repeated id gets the first answer again.
    pub id: String,
    /// What is asked for.
    pub proposal: Proposal,
    /// When, by whom, with which engine.
    pub signed: Signed,
}

/// What became of a submission.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// It is a revision now, and on the medium.
    Accepted(Revision),
    /// It would change nothing: the texts are already as asked, or nothing is left to take back. The head as it is.
    Unchanged(Revision),
    /// It does not go together with what was changed since. Nothing was changed.
    Conflict(Box<Conflict>),
}

/// A change that does not go together with another: both are shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conflict {
    /// The revision that the change was made on; `None` where it is gone or was never there.
    pub base: Option<Number>,
    /// The head that it was held against: what others made of it.
    pub head: Number,
    /// Where the two meet.
    pub clashes: Vec<Clash>,
    /// What the change makes of its base: what was wanted. `None` if it does not fit its own base.
    pub wanted: Option<Texts>,
}

/// One place where two changes meet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clash {
    /// The file.
    pub path: String,
    /// Where in it, in the user's words: `runs.A-R1.length`, `line 12`, or empty for the whole file.
    pub place: String,
    /// What was there, as the change knew it; `None`: nothing.
    pub was: Option<String>,
    /// What is there now; `None`: nothing.
    pub is: Option<String>,
    /// What the change puts there; `None`: nothing.
    pub wanted: Option<String>,
    /// Why it cannot be applied, in a sentence without full stop.
    pub reason: String,
}

impl Submission {
    /// SHA-256 of what is asked for: the same id with something else is another edit. When and by whom does not count.
    pub(crate) fn digest(&self) -> String {
        let mut parts: Vec<String> = Vec::new();
        match &self.proposal {
            Proposal::Change { base, files } => {
                parts.push(format!("change {}", base.0));
                for (path, change) in files {
                    parts.push(path.clone());
                    match change {
                        FileChange::Edit(edit) => edit_parts(edit, &mut parts),
                        FileChange::Write(text) => parts.extend([String::from("write"), text.clone()]),
                        FileChange::Remove => parts.push(String::from("remove")),
                    }
                }
            }
            Proposal::Undo => parts.push(String::from("undo")),
            Proposal::Redo => parts.push(String::from("redo")),
            Proposal::TakeBack(number) => parts.push(format!("take back {}", number.0)),
            Proposal::BringBack { base, revision } => {
                parts.push(format!("bring back {} {}", base.0, revision.0));
            }
        }
        parts.push(self.signed.client.clone());
        hash::of_parts(parts.iter().map(String::as_str))
    }
}

fn edit_parts(edit: &Edit, parts: &mut Vec<String>) {
    parts.push(format!("edit {}", edit.changes.len()));
    for (path, change) in &edit.changes {
        parts.push(path.len().to_string());
        parts.extend(path.iter().map(|step| match step {
            EditStep::Key(key) => format!("key {key}"),
            EditStep::Index(index) => format!("index {index}"),
        }));
        let mut part = |word: &str, texts: &[&str]| {
            parts.push(format!("{word} {}", texts.len()));
            parts.extend(texts.iter().map(|text| (*text).to_string()));
        };
        match change {
            Change::Set(value) => part("set", &[value]),
            Change::Remove => part("remove", &[]),
            Change::Insert(at, value) => part("insert", &[&at.to_string(), value]),
            Change::AppendTable(body) => part("append", &[body]),
            Change::Rename(name) => part("rename", &[name]),
            Change::Expect(None) => part("expect nothing", &[]),
            Change::Expect(Some(value)) => part("expect", &[value]),
            Change::Lines { line, expects, becomes } => {
                part("lines", &[&line.to_string(), expects, becomes]);
            }
        }
    }
}
