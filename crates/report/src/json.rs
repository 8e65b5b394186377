//! The check document: everything an assessment says, for programs.
//!
//! The structs here are apart from the model, so that the published form does not change when the
//! model does. Numbers are in base units and printed shortest round-trip. A number that is not
//! finite is left out, never `null`; where there is no operating point, `operating_point` says so.

use crate::addresses::AddressDocument;
use crate::json_findings::{FindingDocument, finding_document};
use crate::json_jobs::{self, JobDocument};
use crate::json_physics::{self, ShortCircuitDocument, SignalDocument, StartUpDocument, ToleranceDocument};
use crate::json_values::{CallDocument, calls, finite};
use crate::report::Report;
use latchline_assess::{
    Assessment, DeviceResult, Limited, NotJudged, RunSummary, SourceSummary, WorstCurrent,
};
use latchline_finding::Language;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// Version of the form. It grows when something is renamed, removed or means something else; new
/// keys do not change it.
pub const FORMAT_VERSION: u32 = 1;

/// Result of `latchline check --format json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CheckDocument {
    /// Version of this form.
    format_version: u32,
    /// Version of the program that wrote it.
    latchline_version: &'static str,
    /// Name of the site file as given.
    site_file: String,
    /// Title of the site.
    #[serde(skip_serializing_if = "Option::is_none")]
    title: Option<String>,
    /// "holds", "holds-on-assumed-data", "not-judged", "fails-as-accepted" if there are errors and
    /// the user has accepted every one, "fails", or "unusable" if the files could not be resolved,
    /// so that nothing was judged.
    verdict: &'static str,
    /// The assumed values that the figures rest on, whatever the verdict, as "model key".
    assumed: Vec<String>,
    /// Number of findings.
    counts: CountsDocument,
    /// Currency of every cost; absent where the catalogue names none.
    #[serde(skip_serializing_if = "Option::is_none")]
    currency: Option<String>,
    /// The device with the least margin.
    #[serde(skip_serializing_if = "Option::is_none")]
    tightest: Option<String>,
    /// What is to be done, the worst danger first, in each danger errors first: what a person sees first of a site that fails.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    jobs: Vec<JobDocument>,
    /// Findings, worst first; accepted ones at the end.
    findings: Vec<FindingDocument>,
    /// Findings for which remedies were not looked for, there being too many; absent where there are none.
    #[serde(skip_serializing_if = "Option::is_none")]
    remedies_not_sought: Option<usize>,
    /// Doors that are counted as released outside of calls at once; left out where none would draw from the bus.
    #[serde(skip_serializing_if = "Option::is_none")]
    releases_at_once: Option<usize>,
    /// What could not be judged.
    not_judged: Vec<NotJudgedDocument>,
    /// Supplies and regenerated outputs.
    sources: Vec<SourceDocument>,
    /// Runs in file order.
    runs: Vec<RunDocument>,
    /// Stations and boxes.
    devices: Vec<DeviceDocument>,
    /// Addresses and switch settings.
    #[serde(skip_serializing_if = "Option::is_none")]
    addresses: Option<AddressDocument>,
    /// Operating states that were solved.
    states: Vec<StateDocument>,
    /// Bands of the family's signals.
    signal: Vec<SignalDocument>,
    /// Power return, by supply and regenerating box.
    start_up: Vec<StartUpDocument>,
    /// A short at the end of every run.
    short_circuit: Vec<ShortCircuitDocument>,
    /// Sampled tolerances, where asked for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    tolerance: Vec<ToleranceDocument>,
}

/// Number of findings.
#[derive(Debug, Serialize, JsonSchema)]
struct CountsDocument {
    /// Standing errors.
    error: usize,
    /// Standing warnings.
    warning: usize,
    /// Standing pieces of advice.
    advice: usize,
    /// Accepted findings of any severity.
    accepted: usize,
}

/// Something that could not be judged.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct NotJudgedDocument {
    /// Code of the rule.
    code: &'static str,
    /// Elements concerned.
    elements: Vec<String>,
    /// The part and key that is missing.
    missing: String,
}

/// A largest current.
#[derive(Debug, Serialize, JsonSchema)]
struct CurrentDocument {
    /// Name of the operating state.
    state: &'static str,
    /// The calls that stand in it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    calls: Vec<CallDocument>,
    /// Whether there is an operating point.
    operating_point: bool,
    /// Current in the corner of greatest load, in A; where calls are searched, 1 mA more than that of the calls named, so that no other set of
    /// calls draws more.
    #[serde(skip_serializing_if = "Option::is_none")]
    current_a: Option<f64>,
    /// Its limit in A.
    #[serde(skip_serializing_if = "Option::is_none")]
    limit_a: Option<f64>,
}

/// A supply or regenerated output.
#[derive(Debug, Serialize, JsonSchema)]
struct SourceDocument {
    /// Supply or box.
    id: String,
    /// Model name.
    model: String,
    /// What it is set to in V, where that is below what it delivers as it comes.
    #[serde(skip_serializing_if = "Option::is_none")]
    set_voltage_v: Option<f64>,
    /// What it delivers as it comes in V, where it is set below that.
    #[serde(skip_serializing_if = "Option::is_none")]
    delivered_voltage_v: Option<f64>,
    /// Stations on its tree and on the trees that draw from it.
    stations: usize,
    /// Shares of the data sheet's counts of stations, added up; 1 is full.
    #[serde(skip_serializing_if = "Option::is_none")]
    count_share: Option<f64>,
    /// The stations that have such a count.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    counts: Vec<CountDocument>,
    /// Its largest current.
    current: CurrentDocument,
    /// Power at that current, in W.
    #[serde(skip_serializing_if = "Option::is_none")]
    power_w: Option<f64>,
    /// Rated power in W.
    #[serde(skip_serializing_if = "Option::is_none")]
    rated_power_w: Option<f64>,
    /// Nominal current in standby by day, in A.
    #[serde(skip_serializing_if = "Option::is_none")]
    standby_current_a: Option<f64>,
    /// Hours that an old battery carries the shorter of the standby states; absent without a battery, or where it is not judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    battery_hours: Option<f64>,
    /// Hours that are asked for without mains.
    #[serde(skip_serializing_if = "Option::is_none")]
    battery_hours_asked: Option<f64>,
    /// The device with the least margin on its tree.
    #[serde(skip_serializing_if = "Option::is_none")]
    worst_device: Option<String>,
    /// Factor on all loads at which the voltage collapses, in the state of the device with the least margin.
    #[serde(skip_serializing_if = "Option::is_none")]
    loading_margin: Option<f64>,
    /// The first limit that is met as all loads grow together; counts of stations and signals do not follow the load and are not among them.
    #[serde(skip_serializing_if = "Option::is_none")]
    first_limit: Option<FirstLimitDocument>,
}

/// The first limit that is met as all loads of a supply or box grow together, in every state with the calls that are worst there today.
#[derive(Debug, Serialize, JsonSchema)]
struct FirstLimitDocument {
    /// The factor on all loads, below 1 where the limit is passed today.
    factor: f64,
    /// What is limited: `voltage` of a device, `current` or `power` of the source, `port-current`, `cable-current` of a run.
    kind: &'static str,
    /// The device, the source or the port.
    element: String,
    /// The limit in V, A or W.
    limit: f64,
    /// The state in which it is met.
    state: &'static str,
}

/// A run.
#[derive(Debug, Serialize, JsonSchema)]
struct RunDocument {
    /// The run.
    id: String,
    /// From where.
    from: String,
    /// Supply or box of its tree.
    source: String,
    /// Cable.
    cable: String,
    /// Stations on it and beyond.
    stations: usize,
    /// Length of its own sections in m.
    length_m: f64,
    /// Largest current at its start.
    current: CurrentDocument,
    /// The device with the least margin on it or beyond.
    #[serde(skip_serializing_if = "Option::is_none")]
    worst_device: Option<String>,
    /// Of a cable that is there already: "can-stay", "can-stay-if-measured", "warned" (warnings stand against it), "reads-otherwise"
    /// (they do, and its readings are not those of the stated cable), "fails" (errors do) or "not-judged".
    #[serde(skip_serializing_if = "Option::is_none")]
    existing: Option<&'static str>,
}

/// A station or box.
#[derive(Debug, Serialize, JsonSchema)]
struct DeviceDocument {
    /// Its name.
    id: String,
    /// Model name.
    model: String,
    /// Supply or box of its tree.
    source: String,
    /// The run that leads to it.
    #[serde(skip_serializing_if = "Option::is_none")]
    run: Option<String>,
    /// Worst state for the margin.
    worst: VoltageDocument,
    /// Highest voltage in V.
    #[serde(skip_serializing_if = "Option::is_none")]
    highest_v: Option<f64>,
    /// Limit of the highest voltage in V.
    #[serde(skip_serializing_if = "Option::is_none")]
    highest_limit_v: Option<f64>,
    /// Lowest voltage in V in the adverse corner, in each state that was solved and has an operating point: whatever calls stand and whatever
    /// it needs at that moment.
    by_state_v: BTreeMap<&'static str, f64>,
    /// States without operating point.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    no_operating_point: Vec<&'static str>,
    /// Cable length from the source in m.
    distance_m: f64,
    /// Nominal loop resistance from the ideal voltage of its source in ohm, the resistance of source and ports included.
    loop_resistance_ohm: f64,
}

/// The worst voltage of a device.
#[derive(Debug, Serialize, JsonSchema)]
struct VoltageDocument {
    /// Name of the operating state.
    state: &'static str,
    /// The calls that stand in it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    calls: Vec<CallDocument>,
    /// Whether there is an operating point.
    operating_point: bool,
    /// Voltage with every tolerance against it, in V.
    #[serde(skip_serializing_if = "Option::is_none")]
    adverse_v: Option<f64>,
    /// Voltage with nominal values, in V.
    #[serde(skip_serializing_if = "Option::is_none")]
    nominal_v: Option<f64>,
    /// Limit in that state, in V.
    limit_v: f64,
    /// Adverse voltage less the limit, in V.
    #[serde(skip_serializing_if = "Option::is_none")]
    margin_v: Option<f64>,
    /// "corner" if `adverse_v` is the voltage at the adverse corner, "lower-bound" if it is a bound.
    adverse_kind: &'static str,
}

/// A state that was solved.
#[derive(Debug, Serialize, JsonSchema)]
struct StateDocument {
    /// Its name.
    state: &'static str,
    /// Admissible sets of calls.
    #[serde(skip_serializing_if = "Option::is_none")]
    call_sets: Option<f64>,
    /// Sets that were solved; bounds exclude the others.
    solved_sets: u64,
    /// Whether the search for the worst set was completed.
    search_completed: bool,
}

/// The check document as a JSON text with a line break at its end.
///
/// # Errors
/// If it cannot be written as JSON, which the types here rule out.
pub fn render(report: &Report<'_>) -> Result<String, serde_json::Error> {
    text(&document(report))
}

/// Any document as indented JSON whose strings show on a terminal what hides in them.
///
/// # Errors
/// If it cannot be written as JSON.
pub fn text(document: &impl Serialize) -> Result<String, serde_json::Error> {
    let text = serde_json::to_string_pretty(document)?;
    Ok(format!("{}\n", latchline_finding::shown::json(&text)))
}

/// JSON Schema (draft 2020-12) of the check document.
pub fn schema() -> serde_json::Value {
    schema_of::<CheckDocument>("Latchline check document")
}

/// JSON Schema (draft 2020-12) of a document with this title.
pub fn schema_of<T: JsonSchema>(title: &str) -> serde_json::Value {
    let mut schema =
        schemars::SchemaGenerator::from(schemars::generate::SchemaSettings::draft2020_12().for_serialize())
            .into_root_schema_for::<T>();
    schema.insert(String::from("title"), serde_json::json!(title));
    schema.to_value()
}

fn document(report: &Report<'_>) -> CheckDocument {
    let counts = report.counts();
    let all = || report.standing.iter().chain(&report.accepted);
    let assessment = report.assessment;
    CheckDocument {
        format_version: FORMAT_VERSION,
        latchline_version: env!("CARGO_PKG_VERSION"),
        site_file: report.name.to_string(),
        title: assessment.map(|assessment| assessment.title.clone()),
        verdict: report.verdict_word(),
        assumed: assessment.map(|assessment| assessment.assumed.clone()).unwrap_or_default(),
        counts: CountsDocument {
            error: counts.errors,
            warning: counts.warnings,
            advice: counts.advice,
            accepted: counts.accepted,
        },
        currency: report.currency().map(str::to_string),
        tightest: assessment.and_then(|assessment| {
            Some(assessment.devices.get(assessment.tightest_device()?)?.id.to_string())
        }),
        jobs: json_jobs::documents(report),
        findings: all().map(|finding| finding_document(report, finding)).collect(),
        releases_at_once: assessment.and_then(|a| a.releases_at_once).map(|(most, _)| most),
        remedies_not_sought: assessment.map(|a| a.remedies_not_sought).filter(|left| *left > 0),
        not_judged: assessment.map(|a| a.not_judged.iter().map(not_judged).collect()).unwrap_or_default(),
        sources: assessment.map(|a| a.sources.iter().map(|one| source(a, one)).collect()).unwrap_or_default(),
        runs: assessment.map(|a| a.runs.iter().map(|one| run(a, one)).collect()).unwrap_or_default(),
        devices: assessment.map(|a| a.devices.iter().map(device).collect()).unwrap_or_default(),
        addresses: assessment
            .zip(report.site)
            .map(|(assessment, site)| crate::addresses::document(site, &assessment.addresses)),
        states: assessment.map(|a| a.states.iter().map(state).collect()).unwrap_or_default(),
        signal: assessment.map(|a| a.signal.iter().map(json_physics::signal).collect()).unwrap_or_default(),
        start_up: assessment
            .map(|a| a.start_up.iter().map(json_physics::start_up).collect())
            .unwrap_or_default(),
        short_circuit: assessment
            .map(|a| a.short_circuit.iter().map(json_physics::short_circuit).collect())
            .unwrap_or_default(),
        tolerance: assessment
            .map(|a| a.tolerance.iter().map(json_physics::tolerance).collect())
            .unwrap_or_default(),
    }
}

pub(crate) fn not_judged(missing: &NotJudged) -> NotJudgedDocument {
    NotJudgedDocument {
        code: missing.code.as_str(),
        elements: missing.elements.iter().map(ToString::to_string).collect(),
        missing: missing.missing.say(Language::English),
    }
}

fn current(current: &WorstCurrent) -> CurrentDocument {
    let current_a = current.current_a.and_then(finite);
    CurrentDocument {
        state: current.state.kind.name(),
        calls: calls(&current.state),
        operating_point: current_a.is_some(),
        current_a,
        limit_a: current.limit_a.and_then(finite),
    }
}

fn device_name(assessment: &Assessment, index: Option<usize>) -> Option<String> {
    Some(assessment.devices.get(index?)?.id.to_string())
}

/// Stations of one model on a supply against the data sheet's count.
#[derive(Debug, Serialize, JsonSchema)]
struct CountDocument {
    /// Model name.
    model: String,
    /// How many there are.
    stations: usize,
    /// How many of this model alone the supply may have.
    most_alone: u32,
}

fn source(assessment: &Assessment, source: &SourceSummary) -> SourceDocument {
    let sheet = assessment.supply_sheets.iter().find(|sheet| sheet.supply == source.id);
    let battery = sheet.and_then(|sheet| sheet.battery.as_ref()?.as_ref().ok());
    SourceDocument {
        id: source.id.to_string(),
        model: source.model.clone(),
        set_voltage_v: source.set_below_v.map(|(set_v, _)| set_v),
        delivered_voltage_v: source.set_below_v.map(|(_, delivered_v)| delivered_v),
        stations: source.stations,
        count_share: source.count_share,
        counts: source
            .counts
            .iter()
            .map(|(model, stations, most)| CountDocument {
                model: model.clone(),
                stations: *stations,
                most_alone: *most,
            })
            .collect(),
        current: current(&source.current),
        power_w: source.power_w.and_then(finite),
        rated_power_w: source.rated_power_w.and_then(finite),
        standby_current_a: source.standby_current_a.and_then(finite),
        battery_hours: battery.and_then(|battery| finite(battery.shortest()?.hours)),
        battery_hours_asked: sheet.and_then(|sheet| sheet.asked_hours),
        worst_device: device_name(assessment, source.worst_device),
        loading_margin: source.loading_margin.and_then(finite),
        first_limit: source.first_limit.as_ref().map(|first| FirstLimitDocument {
            factor: first.factor,
            kind: match first.limited {
                Limited::Voltage(_) => "voltage",
                Limited::SourceCurrent => "current",
                Limited::SourcePower => "power",
                Limited::PortCurrent { .. } => "port-current",
                Limited::CableCurrent { .. } => "cable-current",
            },
            element: first.element.to_string(),
            limit: first.limit.value,
            state: first.state.kind.name(),
        }),
    }
}

fn run(assessment: &Assessment, run: &RunSummary) -> RunDocument {
    RunDocument {
        id: run.id.to_string(),
        from: run.from.to_string(),
        source: run.source.to_string(),
        cable: run.cable.clone(),
        stations: run.stations,
        length_m: run.length_m,
        current: current(&run.current),
        worst_device: device_name(assessment, run.worst_device),
        existing: run.existing.as_ref().map(|existing| existing.verdict.word()),
    }
}

fn device(device: &DeviceResult) -> DeviceDocument {
    let worst = &device.worst;
    let adverse_v = worst.adverse_v.and_then(finite);
    let voltages = device.by_state.iter();
    DeviceDocument {
        id: device.id.to_string(),
        model: device.model.clone(),
        source: device.source.to_string(),
        run: device.run.as_ref().map(ToString::to_string),
        worst: VoltageDocument {
            state: worst.state.kind.name(),
            calls: calls(&worst.state),
            operating_point: adverse_v.is_some(),
            adverse_v,
            nominal_v: worst.nominal_v.and_then(finite),
            limit_v: worst.limit_v,
            margin_v: adverse_v.map(|_| worst.margin_v()).and_then(finite),
            adverse_kind: if worst.is_bound { "lower-bound" } else { "corner" },
        },
        highest_v: finite(device.highest_v),
        highest_limit_v: device.highest_limit_v.and_then(finite),
        by_state_v: voltages
            .clone()
            .filter_map(|(kind, voltage)| Some((kind.name(), voltage.lowest_v.and_then(finite)?)))
            .collect(),
        no_operating_point: voltages
            .filter(|(_, voltage)| voltage.lowest_v.and_then(finite).is_none())
            .map(|(kind, _)| kind.name())
            .collect(),
        distance_m: device.distance_m,
        loop_resistance_ohm: device.loop_resistance_ohm,
    }
}

fn state(state: &latchline_assess::StateSummary) -> StateDocument {
    StateDocument {
        state: state.kind.name(),
        call_sets: finite(state.call_sets),
        solved_sets: state.solved_sets,
        search_completed: state.exact,
    }
}
