//! The sheet of one door.

use super::fittings::{
    AccessoryDocument, AlarmInputDocument, LightDocument, LoadDocument, alarm_input, light, load, module,
};
use super::line::{LineDocument, line};
use super::lock::{LockDocument, lock};
use super::said::{caution, findings};
use crate::json::{FORMAT_VERSION, NotJudgedDocument};
use crate::json_findings::FindingDocument;
use crate::report::Report;
use latchline_assess::door::sheet::DoorSheet;
use latchline_finding::Language;
use schemars::JsonSchema;
use serde::Serialize;

/// Result of `latchline check --door NAME --format json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct DoorDocument {
    /// Version of this form.
    format_version: u32,
    /// Version of the program that wrote it.
    latchline_version: &'static str,
    /// Name of the site file as given.
    site_file: String,
    /// The entrance.
    door: String,
    /// Where it is, in words.
    place: String,
    /// Whether it is outdoors or in the wet.
    outdoors: bool,
    /// Model of the door station.
    station: String,
    /// Lock outputs of the station.
    lock_outputs: u32,
    /// Whether people escape through it; left out where the plan says nothing, which counts as no.
    #[serde(skip_serializing_if = "Option::is_none")]
    escape_route: Option<bool>,
    /// Who decided that.
    #[serde(skip_serializing_if = "Option::is_none")]
    escape_decided_by: Option<String>,
    /// When, as YYYY-MM-DD.
    #[serde(skip_serializing_if = "Option::is_none")]
    escape_decided_on: Option<String>,
    /// Whether a fire interlock acts on it; left out where the plan says nothing, which counts as no.
    #[serde(skip_serializing_if = "Option::is_none")]
    fire_interlock: Option<bool>,
    /// Height of the controls in metres, where stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    control_height_m: Option<f64>,
    /// Published range of heights.
    height_range: HeightDocument,
    /// Its locks in the order of the station's outputs.
    locks: Vec<LockDocument>,
    /// Its modules in the order of their chain.
    accessories: Vec<AccessoryDocument>,
    /// Current that the station gives for its modules, in amperes.
    #[serde(skip_serializing_if = "Option::is_none")]
    accessory_limit_a: Option<f64>,
    /// Current and length of their chain line by line.
    accessory_calculation: Vec<LineDocument>,
    /// Whether a heater is fitted and on at night; left out where the plan says nothing, which counts as none.
    #[serde(skip_serializing_if = "Option::is_none")]
    heater: Option<bool>,
    /// Its lights.
    lights: Vec<LightDocument>,
    /// What its lights take from the door station's light output.
    #[serde(skip_serializing_if = "Option::is_none")]
    light_output: Option<LineDocument>,
    /// What is wired to its alarm inputs.
    alarm_inputs: Vec<AlarmInputDocument>,
    /// What it draws from the bus in standby.
    #[serde(skip_serializing_if = "Option::is_none")]
    standby_load: Option<LoadDocument>,
    /// Published rules to look at with the responsible person.
    rules: Vec<RuleDocument>,
    /// Findings about it, worst first.
    findings: Vec<FindingDocument>,
    /// What could not be judged about it.
    not_judged: Vec<NotJudgedDocument>,
    /// What every reader must be told.
    caution: &'static str,
}

/// A published range of heights.
#[derive(Debug, Serialize, JsonSchema)]
struct HeightDocument {
    /// Lowest in metres.
    least_m: f64,
    /// Highest in metres.
    most_m: f64,
    /// The publication.
    source: &'static str,
    /// What else is asked of a door panel there.
    #[serde(skip_serializing_if = "str::is_empty")]
    also: &'static str,
}

/// A published rule in short.
#[derive(Debug, Serialize, JsonSchema)]
struct RuleDocument {
    /// The publication.
    source: &'static str,
    /// What it asks for.
    summary: &'static str,
}

pub(super) fn door_document(report: &Report<'_>, sheet: &DoorSheet) -> DoorDocument {
    let (findings, not_judged) = findings(report, &sheet.entrance);
    DoorDocument {
        format_version: FORMAT_VERSION,
        latchline_version: env!("CARGO_PKG_VERSION"),
        site_file: report.name.to_string(),
        door: sheet.entrance.to_string(),
        place: sheet.place.of(Language::English).to_string(),
        outdoors: sheet.outdoors,
        station: sheet.station.clone(),
        lock_outputs: sheet.lock_outputs,
        escape_route: sheet.escape_route,
        escape_decided_by: sheet.escape_decided_by.clone(),
        escape_decided_on: sheet.escape_decided_on.clone(),
        fire_interlock: sheet.fire_interlock,
        control_height_m: sheet.control_height_m,
        height_range: HeightDocument {
            least_m: sheet.height_range.least_m,
            most_m: sheet.height_range.most_m,
            source: sheet.height_range.source.say(Language::English),
            also: sheet.height_range.also.map_or("", |also| also.say(Language::English)),
        },
        locks: sheet.locks.iter().map(lock).collect(),
        accessories: sheet.modules.modules.iter().map(module).collect(),
        accessory_limit_a: sheet.modules.limit_a,
        accessory_calculation: sheet.modules.calculation().iter().map(line).collect(),
        heater: sheet.heater,
        lights: sheet.lights.iter().map(light).collect(),
        light_output: sheet.light_output.as_ref().map(|output| line(&output.calculation)),
        alarm_inputs: sheet.alarm_inputs.iter().map(alarm_input).collect(),
        standby_load: sheet.load.as_ref().map(load),
        rules: sheet
            .escape_rules
            .iter()
            .map(|rule| RuleDocument {
                source: rule.source.say(Language::English),
                summary: rule.summary.say(Language::English),
            })
            .collect(),
        findings,
        not_judged,
        caution: caution(),
    }
}
