//! The sheet of one supply.

use super::line::{LineDocument, line};
use super::said::{caution, english, findings};
use crate::json::{FORMAT_VERSION, NotJudgedDocument};
use crate::json_findings::FindingDocument;
use crate::json_physics::{StartUpDocument, start_up};
use crate::json_values::finite;
use crate::report::Report;
use latchline_assess::supply::{BatteryFigures, MainsFigures, SupplySheet};
use latchline_finding::Language;
use schemars::JsonSchema;
use serde::Serialize;

/// Result of `latchline check --supply NAME --format json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SupplyDocument {
    /// Version of this form.
    format_version: u32,
    /// Version of the program that wrote it.
    latchline_version: &'static str,
    /// Name of the site file as given.
    site_file: String,
    /// The supply.
    supply: String,
    /// Model name.
    model: String,
    /// Where it is, in words.
    place: String,
    /// Temperature of its cupboard in °C, where stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    ambient_c: Option<f64>,
    /// Highest temperature at rated load in °C, where stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    ambient_limit_c: Option<f64>,
    /// Load, mains and heat.
    #[serde(skip_serializing_if = "Option::is_none")]
    mains: Option<MainsDocument>,
    /// Its battery, where it has one and all is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    battery: Option<BatteryDocument>,
    /// What keeps its battery from being judged.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    battery_missing: Vec<String>,
    /// What happens when mains return after a failure that outlasts the battery.
    #[serde(skip_serializing_if = "Option::is_none")]
    power_return: Option<StartUpDocument>,
    /// The figures line by line.
    calculation: Vec<LineDocument>,
    /// Findings about it, worst first.
    findings: Vec<FindingDocument>,
    /// What could not be judged about it.
    not_judged: Vec<NotJudgedDocument>,
    /// What every reader must be told.
    caution: &'static str,
}

/// Load, mains and heat of a supply in the busiest of its states with mains.
#[derive(Debug, Serialize, JsonSchema)]
struct MainsDocument {
    /// Name of that state.
    state: &'static str,
    /// Power at its output in watts.
    output_w: f64,
    /// Charging power on top, in watts.
    charging_w: f64,
    /// Whether the load leaves less than the greatest charging current takes.
    charging_waits: bool,
    /// Power that it may give in its cupboard, where that is hotter than its limit at rated load, in watts.
    #[serde(skip_serializing_if = "Option::is_none")]
    derated_w: Option<f64>,
    /// Mains current in amperes.
    #[serde(skip_serializing_if = "Option::is_none")]
    mains_current_a: Option<f64>,
    /// Heat in the cupboard in watts.
    #[serde(skip_serializing_if = "Option::is_none")]
    heat_w: Option<f64>,
    /// What is not stated.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    missing: Vec<String>,
}

/// A battery.
#[derive(Debug, Serialize, JsonSchema)]
struct BatteryDocument {
    /// How many in parallel.
    batteries: u32,
    /// Nominal voltage.
    voltage_v: f64,
    /// Rated capacity of all in ampere-hours.
    capacity_ah: f64,
    /// Hours at which that is rated.
    rated_hours: f64,
    /// Capacity counted on, in ampere-hours.
    effective_ah: f64,
    /// Hours that the site asks for.
    #[serde(skip_serializing_if = "Option::is_none")]
    required_hours: Option<f64>,
    /// Lowest temperature of the battery in °C.
    coldest_c: f64,
    /// Calls in an hour that are counted with.
    #[serde(skip_serializing_if = "Option::is_none")]
    calls_per_hour: Option<f64>,
    /// Standby states on battery.
    loads: Vec<BatteryLoadDocument>,
    /// Hours to put four fifths back.
    #[serde(skip_serializing_if = "Option::is_none")]
    recharge_hours: Option<f64>,
    /// Assumed values in it, as "part key".
    assumed: Vec<String>,
}

/// One standby state on battery.
#[derive(Debug, Serialize, JsonSchema)]
struct BatteryLoadDocument {
    /// Name of the state.
    state: &'static str,
    /// Power at the supply's output in watts.
    power_w: f64,
    /// Current from the battery without a call, in amperes.
    battery_current_a: f64,
    /// The constant current that would empty it as fast as this with the calls of the policy, in amperes.
    with_calls_a: f64,
    /// Hours that the aged battery carries it.
    hours: f64,
}

pub(super) fn supply_document(report: &Report<'_>, sheet: &SupplySheet) -> SupplyDocument {
    let (findings, not_judged) = findings(report, &sheet.supply);
    let (battery, battery_missing) = match &sheet.battery {
        Some(Ok(battery)) => (Some(battery_document(battery)), Vec::new()),
        Some(Err(missing)) => (None, english(missing)),
        None => (None, Vec::new()),
    };
    let starts = report.assessment.map_or(&[][..], |assessment| &assessment.start_up);
    SupplyDocument {
        format_version: FORMAT_VERSION,
        latchline_version: env!("CARGO_PKG_VERSION"),
        site_file: report.name.to_string(),
        supply: sheet.supply.to_string(),
        model: sheet.model.clone(),
        place: sheet.place.of(Language::English).to_string(),
        ambient_c: sheet.ambient_c,
        ambient_limit_c: sheet.ambient_limit_c,
        mains: sheet.mains.as_ref().map(mains_document),
        battery,
        battery_missing,
        power_return: starts.iter().find(|start| start.source == sheet.supply).map(start_up),
        calculation: sheet.calculation.iter().map(line).collect(),
        findings,
        not_judged,
        caution: caution(),
    }
}

fn mains_document(mains: &MainsFigures) -> MainsDocument {
    MainsDocument {
        state: mains.state.name(),
        output_w: mains.output_w,
        charging_w: mains.charging_w,
        charging_waits: mains.charging_waits,
        mains_current_a: mains.mains_current_a.and_then(finite),
        derated_w: mains.derated_w,
        heat_w: mains.heat_w.and_then(finite),
        missing: english(&mains.missing),
    }
}

fn battery_document(battery: &BatteryFigures) -> BatteryDocument {
    let loads = battery.loads.iter().map(|load| BatteryLoadDocument {
        state: load.state.name(),
        power_w: load.bus_power_w,
        battery_current_a: load.battery_current_a,
        with_calls_a: load.with_calls_a,
        hours: load.hours,
    });
    BatteryDocument {
        batteries: battery.batteries,
        voltage_v: battery.voltage_v,
        capacity_ah: battery.capacity_ah,
        rated_hours: battery.rated_hours,
        effective_ah: battery.effective_ah,
        required_hours: battery.required_hours,
        coldest_c: battery.coldest_c,
        calls_per_hour: battery.calls.as_ref().map(|calls| calls.per_hour),
        loads: loads.collect(),
        recharge_hours: battery.recharge_hours.and_then(finite),
        assumed: battery.assumed.list().to_vec(),
    }
}
