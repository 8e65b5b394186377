//! The difference of two versions of a site, for programs.

use super::{Compared, at_door, key, positions, run};
use crate::json_findings::{FindingName, finding_name};
use latchline_assess::comparison::FigureChange;
use latchline_finding::{ElementId, Language};
use latchline_site::bill::BillKind;
use latchline_site::changes::{Bearing, RunWork, Swap};
use latchline_words::states;
use schemars::JsonSchema;
use serde::Serialize;

/// The difference of two versions of a site, for programs.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CompareDocument {
    /// Version of this form.
    format_version: u32,
    /// Version of the program that wrote it.
    latchline_version: &'static str,
    /// The verdict before, as in the check document.
    old_verdict: &'static str,
    /// The verdict after.
    new_verdict: &'static str,
    /// Extra material in `currency`, without parts that have no price; `null` if the two catalogues have different currencies.
    material: Option<f64>,
    /// Currency of `material` and of every cost; `null` if the catalogues have different ones or name none.
    currency: Option<String>,
    /// Lines of `quantities` without a price.
    unpriced: usize,
    /// Extra labour in minutes; making good is not in it.
    labour_minutes: f64,
    /// Dwellings to enter.
    enters: Vec<String>,
    /// What is bought (more than nought) or taken back.
    quantities: Vec<QuantityDocument>,
    /// Supplies, boxes and stations that are new, gone or another model.
    models: Vec<SwapDocument>,
    /// What stands in another place.
    places: Vec<SwapDocument>,
    /// Work on runs.
    runs: Vec<RunDocument>,
    /// Cables at doors that come, go or are others, in English.
    cables_at_doors: Vec<String>,
    /// Stations whose switches are set to other positions.
    set: Vec<SetDocument>,
    /// Other keys of the site file that differ: work on site, labels, and what is known or wished.
    keys: Vec<KeyDocument>,
    /// Parts that both catalogues have and of which they do not say the same.
    parts: Vec<String>,
    /// Findings that are gone.
    findings_gone: Vec<FindingName>,
    /// Findings that have come.
    findings_new: Vec<FindingName>,
    /// Findings of both that matter more than they did.
    findings_graver: Vec<FindingName>,
    /// Findings of both that matter less.
    findings_lesser: Vec<FindingName>,
    /// States that only one of the two has; margins are not compared in these.
    states_of_one: Vec<StateDocument>,
    /// Least margins of devices in V, in the states of both.
    margins_v: Vec<FigureDocument>,
    /// Largest currents of supplies in A.
    currents_a: Vec<FigureDocument>,
    /// What locks have beyond the least that they need, in V; an element is a door, or door and number where it has several locks.
    lock_margins_v: Vec<FigureDocument>,
    /// Hours of batteries; nought where a supply has none. Where the two files count other calls, only of supplies with a battery in one alone.
    battery_hours: Vec<FigureDocument>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct QuantityDocument {
    /// Part of the catalogue.
    part: String,
    /// Pieces, or metres of cable.
    quantity: f64,
    /// "pieces" or "m".
    unit: &'static str,
    /// What that costs.
    #[serde(skip_serializing_if = "Option::is_none")]
    cost: Option<f64>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct SwapDocument {
    /// The element.
    element: String,
    /// What it was; absent if it is new.
    #[serde(skip_serializing_if = "Option::is_none")]
    old: Option<String>,
    /// What it is; absent if it is gone.
    #[serde(skip_serializing_if = "Option::is_none")]
    new: Option<String>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct RunDocument {
    /// The run.
    run: String,
    /// "new", "gone", "cable", "extended", "shortened", "sections", "length", "from", "stops", "pairs" or "terminator".
    work: &'static str,
    /// The work in English.
    message: String,
}

#[derive(Debug, Serialize, JsonSchema)]
struct SetDocument {
    /// The station.
    station: String,
    /// Label and positions of its switches before.
    old: String,
    /// The same after.
    new: String,
}

#[derive(Debug, Serialize, JsonSchema)]
struct KeyDocument {
    /// The element; absent for the site, its conditions, its policy and what it accepts.
    #[serde(skip_serializing_if = "Option::is_none")]
    element: Option<String>,
    /// The key of the site file.
    key: &'static str,
    /// "fit", "set", "label" or "known".
    work: &'static str,
    /// The difference in English.
    message: String,
}

/// A state that only one of the two has, with the device of the least margin there.
#[derive(Debug, Serialize, JsonSchema)]
struct StateDocument {
    /// The state in English.
    state: String,
    /// Whether it is the new one that has it.
    is_new: bool,
    /// The device.
    device: String,
    /// Its margin in V; absent without an operating point.
    #[serde(skip_serializing_if = "Option::is_none")]
    margin_v: Option<f64>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct FigureDocument {
    /// The element.
    element: String,
    /// Before; absent where there was no operating point.
    #[serde(skip_serializing_if = "Option::is_none")]
    old: Option<f64>,
    /// After.
    #[serde(skip_serializing_if = "Option::is_none")]
    new: Option<f64>,
    /// Whether that is better.
    better: bool,
    /// Whether `old` is a lower bound: at least that much.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    old_is_bound: bool,
    /// Whether `new` is a lower bound.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    new_is_bound: bool,
}

/// For programs; the verdicts are the words of the check document.
pub fn document(
    compared: &Compared<'_>,
    old_verdict: &'static str,
    new_verdict: &'static str,
) -> CompareDocument {
    let Compared { changes, comparison, .. } = *compared;
    let swap = |one: &Swap| SwapDocument {
        element: one.element.to_string(),
        old: one.old.clone(),
        new: one.new.clone(),
    };
    let figure = |one: &FigureChange| FigureDocument {
        element: one.element.to_string(),
        old: one.old,
        new: one.new,
        better: one.better,
        old_is_bound: one.is_bound[0],
        new_is_bound: one.is_bound[1],
    };
    CompareDocument {
        format_version: 1,
        latchline_version: env!("CARGO_PKG_VERSION"),
        old_verdict,
        new_verdict,
        material: changes.currencies.is_none().then(|| changes.material.as_units()),
        currency: (changes.currencies.is_none() && !compared.currency.is_empty())
            .then(|| compared.currency.to_string()),
        unpriced: changes.unpriced,
        labour_minutes: changes.minutes,
        enters: changes.enters.iter().map(|dwelling| dwelling.to_string()).collect(),
        quantities: changes
            .quantities
            .iter()
            .map(|one| QuantityDocument {
                part: one.name.clone(),
                quantity: one.quantity,
                unit: if one.kind == BillKind::Cable { "m" } else { "pieces" },
                cost: one.cost.map(|cost| cost.as_units()),
            })
            .collect(),
        models: changes.models.iter().map(swap).collect(),
        places: changes.places.iter().filter(|one| one.old.is_some()).map(swap).collect(),
        runs: changes
            .runs
            .iter()
            .map(|one| RunDocument {
                run: one.run.to_string(),
                work: work_word(&one.work),
                message: run(one, Language::English),
            })
            .collect(),
        cables_at_doors: changes.at_doors.iter().map(|one| at_door(one, Language::English)).collect(),
        set: changes
            .set
            .iter()
            .map(|one| SetDocument {
                station: one.station.to_string(),
                old: positions(&one.old, Language::English),
                new: positions(&one.new, Language::English),
            })
            .collect(),
        keys: changes
            .keys
            .iter()
            .map(|one| KeyDocument {
                element: one.element.as_ref().map(ElementId::to_string),
                key: one.key,
                work: match one.bearing {
                    Bearing::Fit => "fit",
                    Bearing::Set => "set",
                    Bearing::Label => "label",
                    Bearing::Known | Bearing::Told => "known",
                },
                message: key(one, Language::English),
            })
            .collect(),
        parts: compared.parts.to_vec(),
        findings_gone: comparison.gone.iter().map(finding_name).collect(),
        findings_new: comparison.come.iter().map(finding_name).collect(),
        findings_graver: comparison.graver.iter().map(|(_, one)| finding_name(one)).collect(),
        findings_lesser: comparison.lesser.iter().map(|(_, one)| finding_name(one)).collect(),
        states_of_one: comparison
            .states_of_one
            .iter()
            .map(|one| StateDocument {
                state: states::name(&one.state, Language::English),
                is_new: one.is_new,
                device: one.device.to_string(),
                margin_v: one.margin_v,
            })
            .collect(),
        margins_v: comparison.margins_v.iter().map(figure).collect(),
        currents_a: comparison.currents_a.iter().map(figure).collect(),
        lock_margins_v: comparison.lock_margins_v.iter().map(figure).collect(),
        battery_hours: comparison.battery_hours.iter().map(figure).collect(),
    }
}

fn work_word(work: &RunWork) -> &'static str {
    match work {
        RunWork::New { .. } => "new",
        RunWork::Gone => "gone",
        RunWork::Cable { .. } => "cable",
        RunWork::InPlace { .. } => "in-place",
        RunWork::Beside { .. } => "beside",
        RunWork::Extended { .. } => "extended",
        RunWork::Shortened { .. } => "shortened",
        RunWork::Sections { .. } => "sections",
        RunWork::Length { .. } => "length",
        RunWork::From { .. } => "from",
        RunWork::Stops { .. } => "stops",
        RunWork::Pairs { .. } => "pairs",
        RunWork::Terminator { .. } => "terminator",
    }
}

/// The JSON Schema of [`CompareDocument`].
pub fn schema() -> serde_json::Value {
    crate::json::schema_of::<CompareDocument>("Latchline compare document")
}
