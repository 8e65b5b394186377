//! The job as data: what the page is made from.

use latchline_handover::commissioning::Taken;
use serde::Serialize;
use std::collections::BTreeMap;

/// The job.
#[derive(Debug, Clone, Serialize)]
pub struct WorkPlan {
    /// Title of the site.
    pub site: String,
    /// The revision as it is shown.
    pub revision: String,
    /// SHA-256 of the inputs, in hexadecimal: what makes a revision the same.
    pub plan: String,
    /// Language of all of it: "en" or "de".
    pub language: &'static str,
    /// The verdict in words.
    pub verdict: String,
    /// What is said of a site with errors; empty without.
    pub errors: String,
    /// What every sheet says.
    pub cautions: Vec<String>,
    /// How the readings are meant.
    pub notes: Vec<String>,
    /// Places in walking order.
    pub floors: Vec<String>,
    /// Devices in walking order, then what is fitted at doors.
    pub devices: Vec<PlanDevice>,
    /// The stages of the work in order.
    pub stages: Vec<PlanStage>,
    /// The words of the steps, each once.
    pub texts: Vec<String>,
    /// The handover record.
    pub handover: Vec<HandoverPart>,
    /// What the check found.
    pub findings: Vec<PlanFinding>,
    /// By class the fields of its addresses.
    pub classes: BTreeMap<&'static str, Vec<Field>>,
    /// By word the class that it names.
    pub class_words: BTreeMap<&'static str, &'static str>,
    /// Runs with the devices along them.
    pub runs: Vec<PlanRun>,
    /// What is said of settings that are read at power-up only; empty where they are not.
    pub latched: String,
    /// What the page says, by name.
    pub words: BTreeMap<String, String>,
    /// Words and units of the causes in the table of faults; left out where there is no table.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub faults: Option<PlanFaults>,
    /// The table of faults, packed (RFC 1950) and in base64; empty where there is none.
    #[serde(skip)]
    pub fault_table: String,
    /// Which reading each step takes, by its key.
    #[serde(skip)]
    pub taken: BTreeMap<String, Taken>,
}

/// A stage.
#[derive(Debug, Clone, Serialize)]
pub struct PlanStage {
    /// Its name in keys.
    pub name: &'static str,
    /// Its letter on the sheets.
    pub letter: char,
    /// Its title.
    pub title: String,
    /// Whether the bus is to be dead or live: "off" or "on".
    pub power: &'static str,
    /// Its steps.
    pub steps: Vec<PlanStep>,
}

/// A step.
#[derive(Debug, Clone, Serialize)]
pub struct PlanStep {
    /// Its name, the same as long as stage, place and order there are.
    pub key: String,
    /// Its number on its sheet.
    pub number: usize,
    /// At what, as the sheet has it.
    pub place: String,
    /// At which device one stands: index into the devices; -1 for the whole site.
    pub device: i64,
    /// What to do: index into the texts.
    pub what: usize,
    /// With what; empty for nothing.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub instrument: String,
    /// "tick", "read", "write" or "tell".
    pub kind: &'static str,
    /// Unit of the reading: "V", "A", "ohm", "Mohm", "nF", "s".
    #[serde(skip_serializing_if = "str::is_empty")]
    pub unit: &'static str,
    /// Decimals with which it is shown.
    #[serde(skip_serializing_if = "is_one")]
    pub decimals: u8,
    /// What is expected.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nominal: Option<f64>,
    /// The lowest, rounded down as on the sheet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lowest: Option<f64>,
    /// The highest, rounded up as on the sheet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub highest: Option<f64>,
    /// The reading of the table of faults that it takes, if it is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fault: Option<usize>,
}

/// The causes of the table of faults.
#[derive(Debug, Clone, Serialize)]
pub struct PlanFaults {
    /// By their names in the table.
    pub kinds: BTreeMap<String, PlanFault>,
}

/// A kind of cause.
#[derive(Debug, Clone, Serialize)]
pub struct PlanFault {
    /// What it is called.
    pub words: &'static str,
    /// Unit of its size: "ohm", "W", "m", "plan" for a part of what is planned, "along" for a part of a section.
    pub unit: &'static str,
}

/// One decimal is what the page takes where none is said.
fn is_one(decimals: &u8) -> bool {
    *decimals == 1
}

/// A device or what is fitted at a door.
#[derive(Debug, Clone, Serialize)]
pub struct PlanDevice {
    /// Designation.
    pub id: String,
    /// Number in the device schedule; 0 for what has none.
    pub number: usize,
    /// What it is.
    pub what: String,
    /// Its model.
    pub model: String,
    /// Index into the floors.
    pub floor: usize,
    /// Address in words.
    pub address: String,
    /// Class of its address; empty for none.
    pub class: &'static str,
    /// Numbers of its address.
    pub numbers: Vec<u32>,
    /// Its switches.
    pub switches: Vec<Switch>,
    /// Terminal, leg, cable, type, pair, colour, other end, remark.
    pub wires: Vec<Vec<String>>,
    /// The dwelling that has to be entered; empty for none.
    pub dwelling: String,
}

/// A switch as it is to stand.
#[derive(Debug, Clone, Serialize)]
pub struct Switch {
    /// What is printed beside it.
    pub label: String,
    /// "rotary", "dip", "jumpers" or "keyed".
    pub kind: &'static str,
    /// Positions of a rotary switch.
    pub positions: u32,
    /// The printed number of the first.
    pub first: u32,
    /// Position of each, 1 for ON or fitted.
    pub at: Vec<u32>,
    /// Digits to key in.
    pub digits: String,
    /// The same in words.
    pub words: String,
}

/// A field of an address.
#[derive(Debug, Clone, Serialize)]
pub struct Field {
    /// What is printed beside its switches.
    pub label: String,
    /// "rotary", "dip", "jumpers" or "keyed".
    pub kind: &'static str,
    /// The printed number of its first switch.
    pub first: u32,
    /// By number how its switches stand.
    pub settings: BTreeMap<u32, Vec<u32>>,
}

/// A run.
#[derive(Debug, Clone, Serialize)]
pub struct PlanRun {
    /// Designation.
    pub id: String,
    /// Where it starts.
    pub from: String,
    /// The devices along it: indices.
    pub stops: Vec<usize>,
}

/// A part of the handover record.
#[derive(Debug, Clone, Serialize)]
pub struct HandoverPart {
    /// Heading.
    pub title: String,
    /// What somebody saw, in order.
    pub lines: Vec<HandoverLine>,
}

/// A line of the handover record.
#[derive(Debug, Clone, Serialize)]
pub struct HandoverLine {
    /// Its name.
    pub key: String,
    /// What it says.
    pub text: String,
}

/// Something that the check found.
#[derive(Debug, Clone, Serialize)]
pub struct PlanFinding {
    /// At what.
    #[serde(rename = "where")]
    pub place: String,
    /// What.
    pub text: String,
}

impl WorkPlan {
    /// Every step in working order.
    pub fn steps(&self) -> impl Iterator<Item = &PlanStep> {
        self.stages.iter().flat_map(|stage| &stage.steps)
    }

    /// What a step says.
    pub fn text_of(&self, step: &PlanStep) -> &str {
        self.texts.get(step.what).map_or("", String::as_str)
    }
}
