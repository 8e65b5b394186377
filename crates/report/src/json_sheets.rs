//! The sheet of one door and of one supply, for programs.
//!
//! The structs are apart from the model, as those of the check document: numbers in base units, what is
//! not finite or not stated left out.

use crate::json::{FORMAT_VERSION, NotJudgedDocument, finite, not_judged, schema_of};
use crate::json_findings::{FindingDocument, figure, finding_document, unit};
use crate::json_physics::{StartUpDocument, start_up};
use crate::report::Report;
use crate::sheet::words;
use latchline_assess::door::alarm::{AlarmSheet, kind_word};
use latchline_assess::door::circuit::{LockCircuit, Unknown};
use latchline_assess::door::light::LightSheet;
use latchline_assess::door::loads::DoorLoad;
use latchline_assess::door::sheet::{DoorSheet, LockSheet};
use latchline_assess::door::times::{Energised, HoldWinner, LockTimes};
use latchline_assess::supply::{BatteryFigures, MainsFigures, SupplySheet};
use latchline_assess::{CalculationLine, Rounding};
use latchline_finding::ElementId;
use latchline_site::catalogue::{Feed, LightKind, LockKind, PowerLoss};
use latchline_site::model::{LightFeed, LitWhen, LockFeed, RelayContact, Suppression};
use schemars::JsonSchema;
use serde::Serialize;

const CAUTION: &str = crate::sheet::CAUTION;

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

/// A module.
#[derive(Debug, Serialize, JsonSchema)]
struct AccessoryDocument {
    /// Its place in the chain, from 1.
    position: usize,
    /// Model name.
    model: String,
    /// What it is.
    kind: &'static str,
    /// Current by day in amperes.
    current_a: f64,
    /// Current at night in amperes.
    night_current_a: f64,
}

/// A light.
#[derive(Debug, Serialize, JsonSchema)]
struct LightDocument {
    /// Which of the entrance's lights, from 1.
    number: usize,
    /// Model name.
    model: String,
    /// "buttons", "names" or "porch".
    kind: &'static str,
    /// "station", "bus" or "own-supply".
    feed: &'static str,
    /// "night", "always" or "in-use".
    lit: &'static str,
    /// Rated voltage.
    rated_v: f64,
    /// Current at rated voltage in amperes.
    current_a: f64,
    /// Nominal voltage of what feeds it, where that is the door station or the bus.
    #[serde(skip_serializing_if = "Option::is_none")]
    feed_v: Option<f64>,
}

/// An alarm input.
#[derive(Debug, Serialize, JsonSchema)]
struct AlarmInputDocument {
    /// Which of the station's inputs, from 1.
    number: usize,
    /// "tamper", "duress", "door" or "fire".
    kind: &'static str,
    /// How its contact stands while all is well: "normally-open" or "normally-closed".
    contact: &'static str,
    /// Whether a resistor at the contact watches the cable.
    end_of_line_resistor: bool,
    /// Whether a cut cable passes unnoticed.
    cut_passes_unnoticed: bool,
    /// The resistance of its loop.
    #[serde(skip_serializing_if = "Option::is_none")]
    calculation: Option<LineDocument>,
    /// What keeps the loop from being calculated.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    missing: Vec<String>,
    /// Whether it releases the locks of the door.
    releases_locks: bool,
    /// Management stations and dwellings that are told.
    tells: Vec<String>,
}

/// What a door draws from its bus in standby, with nominal values.
#[derive(Debug, Serialize, JsonSchema)]
struct LoadDocument {
    /// Nominal voltage of the bus, at which the currents are given.
    bus_v: f64,
    /// Current of all parts by day, in amperes.
    day_a: f64,
    /// The same at night.
    night_a: f64,
    /// Part by part.
    parts: Vec<LoadPartDocument>,
}

/// A part of that load.
#[derive(Debug, Serialize, JsonSchema)]
struct LoadPartDocument {
    /// What it is, in words.
    part: &'static str,
    /// Model name.
    model: String,
    /// Current by day in amperes.
    day_a: f64,
    /// Current at night in amperes.
    night_a: f64,
    /// Where the figure is from, as "part key".
    source: String,
}

/// One lock.
#[derive(Debug, Serialize, JsonSchema)]
struct LockDocument {
    /// Which of the entrance's locks, from 1.
    number: usize,
    /// Model name.
    model: String,
    /// "strike", "magnet", "motor" or "gate".
    kind: &'static str,
    /// "opens" or "stays-shut".
    power_loss: &'static str,
    /// "dc", "ac" or "either".
    current_kind: &'static str,
    /// "station", "bus", "own-supply" or "dry-contact".
    feed: &'static str,
    /// Lock cable, where stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    cable: Option<String>,
    /// Its length one way in metres, where stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    length_m: Option<f64>,
    /// Voltages and currents, where they could be calculated.
    #[serde(skip_serializing_if = "Option::is_none")]
    circuit: Option<CircuitDocument>,
    /// What keeps them from being calculated.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    missing: Vec<String>,
    /// The figures line by line.
    calculation: Vec<LineDocument>,
    /// "normally-open" or "normally-closed", by the plan.
    contact: &'static str,
    /// The same as this kind of lock needs it.
    required_contact: &'static str,
    /// Contact of the station's relay that switches the coil of a relay in between, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    coil_contact: Option<&'static str>,
    /// In series from feed to feed, in words.
    series: Vec<&'static str>,
    /// Across the relay's contact, in words.
    across_contact: Vec<&'static str>,
    /// Across the lock: "diode", "clamp" or "varistor".
    #[serde(skip_serializing_if = "Option::is_none")]
    across_lock: Option<&'static str>,
    /// Times of release and coil.
    #[serde(skip_serializing_if = "Option::is_none")]
    times: Option<TimesDocument>,
    /// Exit button; left out where the plan says nothing, which counts as none.
    #[serde(skip_serializing_if = "Option::is_none")]
    exit_button: Option<bool>,
    /// Mechanical means of escape; left out where the plan says nothing, which counts as none.
    #[serde(skip_serializing_if = "Option::is_none")]
    mechanical_escape: Option<bool>,
    /// Emergency release in the lock's circuit; left out where the plan says nothing, which counts as none.
    #[serde(skip_serializing_if = "Option::is_none")]
    emergency_release: Option<bool>,
    /// Whether the relay is on the secure side, where stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    relay_on_secure_side: Option<bool>,
    /// Door contact; left out where the plan says nothing, which counts as none.
    #[serde(skip_serializing_if = "Option::is_none")]
    door_contact: Option<bool>,
    /// Delay of delayed egress in seconds, where the plan has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    delayed_egress_s: Option<f64>,
    /// What must be said beside the figures.
    cautions: Vec<&'static str>,
}

/// Voltages and currents of a lock.
#[derive(Debug, Serialize, JsonSchema)]
struct CircuitDocument {
    /// Nominal voltage of the feed.
    feed_v: f64,
    /// Its lowest voltage.
    feed_low_v: f64,
    /// Its highest voltage.
    feed_high_v: f64,
    /// Loop resistance with nominal values.
    loop_ohm: f64,
    /// Loop resistance in the adverse corner.
    adverse_loop_ohm: f64,
    /// Loop resistance that the lock would bear.
    #[serde(skip_serializing_if = "Option::is_none")]
    most_loop_ohm: Option<f64>,
    /// Rated current.
    current_a: f64,
    /// Current with which the drop is reckoned.
    adverse_current_a: f64,
    /// Voltage at the lock with nominal values.
    nominal_v: f64,
    /// Lower bound of the voltage at the lock.
    least_v: f64,
    /// Upper bound of the voltage at the lock.
    highest_v: f64,
    /// Least voltage that it works with.
    least_allowed_v: f64,
    /// Highest voltage that it bears.
    most_allowed_v: f64,
    /// Nominal voltage that the feed would need.
    needed_supply_v: f64,
    /// Whether least and highest voltage are within what the lock bears.
    holds: bool,
    /// Assumed values in it, as "part key".
    assumed: Vec<String>,
}

/// Times of a lock.
#[derive(Debug, Serialize, JsonSchema)]
struct TimesDocument {
    /// Release time that acts, in seconds.
    hold_s: f64,
    /// Whose setting that is: "station" or "plan".
    set_by: &'static str,
    /// The plan's release time, or its default, in seconds.
    plan_s: f64,
    /// Whether the plan states it.
    plan_is_stated: bool,
    /// "while-released" or "while-shut".
    energised: &'static str,
    /// Longest time energised at a stretch that the lock bears, in seconds; left out for continuous duty.
    #[serde(skip_serializing_if = "Option::is_none")]
    duty_limit_s: Option<f64>,
    /// Time until the coil's current has fallen to drop-out, in seconds.
    #[serde(skip_serializing_if = "Option::is_none")]
    decay_s: Option<f64>,
}

/// One line of a calculation.
#[derive(Debug, Serialize, JsonSchema)]
struct LineDocument {
    /// What is calculated, in kebab case.
    quantity: &'static str,
    /// The formula.
    formula: &'static str,
    /// Its inputs.
    inputs: Vec<InputDocument>,
    /// The result in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    result: Option<f64>,
    /// What it is held against, in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<f64>,
    /// "least" or "most".
    #[serde(skip_serializing_if = "Option::is_none")]
    limit_is: Option<&'static str>,
    /// Unit of result and limit.
    unit: &'static str,
    /// Side to which it is rounded where it is shown: "nearest", "down" or "up".
    rounded: &'static str,
    /// Whether it holds its limit; true without one.
    holds: bool,
    /// Where the formula is from.
    source: &'static str,
}

/// An input of a formula.
#[derive(Debug, Serialize, JsonSchema)]
struct InputDocument {
    /// Its symbol in the formula.
    symbol: &'static str,
    /// Its value in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
    /// Unit.
    unit: &'static str,
    /// Where it is from.
    source: String,
}

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
    /// Current from the battery in amperes.
    battery_current_a: f64,
    /// Hours that the aged battery carries it.
    hours: f64,
}

/// The sheet of the entrance with this name as a JSON text; `None` if there is none.
///
/// # Errors
/// If it cannot be written as JSON, which the types here rule out.
pub fn door(report: &Report<'_>, name: &str) -> Result<Option<String>, serde_json::Error> {
    let found = report.assessment.and_then(|a| a.doors.iter().find(|sheet| sheet.entrance.as_str() == name));
    found.map(|sheet| text(&door_document(report, sheet))).transpose()
}

/// The sheet of the supply with this name as a JSON text; `None` if there is none.
///
/// # Errors
/// If it cannot be written as JSON, which the types here rule out.
pub fn supply(report: &Report<'_>, name: &str) -> Result<Option<String>, serde_json::Error> {
    let sheets = report.assessment.map(|assessment| &assessment.supply_sheets);
    let found = sheets.and_then(|sheets| sheets.iter().find(|sheet| sheet.supply.as_str() == name));
    found.map(|sheet| text(&supply_document(report, sheet))).transpose()
}

/// JSON Schema (draft 2020-12) of a door's sheet.
pub fn door_schema() -> serde_json::Value {
    schema_of::<DoorDocument>("Latchline door sheet")
}

/// JSON Schema (draft 2020-12) of a supply's sheet.
pub fn supply_schema() -> serde_json::Value {
    schema_of::<SupplyDocument>("Latchline supply sheet")
}

fn text(document: &impl Serialize) -> Result<String, serde_json::Error> {
    Ok(serde_json::to_string_pretty(document)? + "\n")
}

fn findings(report: &Report<'_>, element: &ElementId) -> (Vec<FindingDocument>, Vec<NotJudgedDocument>) {
    let about = report.standing.iter().filter(|finding| finding.element.as_ref() == Some(element));
    let gaps = report.assessment.map_or(&[][..], |assessment| &assessment.not_judged);
    (
        about.map(|finding| finding_document(report, finding)).collect(),
        gaps.iter().filter(|gap| gap.elements.contains(element)).map(not_judged).collect(),
    )
}

fn door_document(report: &Report<'_>, sheet: &DoorSheet) -> DoorDocument {
    let (findings, not_judged) = findings(report, &sheet.entrance);
    DoorDocument {
        format_version: FORMAT_VERSION,
        latchline_version: env!("CARGO_PKG_VERSION"),
        site_file: report.name.to_string(),
        door: sheet.entrance.to_string(),
        place: sheet.place.clone(),
        outdoors: sheet.outdoors,
        station: sheet.station.clone(),
        lock_outputs: sheet.lock_outputs,
        escape_route: sheet.escape_route,
        fire_interlock: sheet.fire_interlock,
        control_height_m: sheet.control_height_m,
        height_range: HeightDocument {
            least_m: sheet.height_range.least_m,
            most_m: sheet.height_range.most_m,
            source: sheet.height_range.source,
            also: sheet.height_range.also,
        },
        locks: sheet.locks.iter().map(lock).collect(),
        accessories: sheet
            .modules
            .modules
            .iter()
            .map(|module| AccessoryDocument {
                position: module.position,
                model: module.model.clone(),
                kind: words::accessory(module.kind),
                current_a: module.current_a,
                night_current_a: module.night_current_a,
            })
            .collect(),
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
            .map(|rule| RuleDocument { source: rule.source, summary: rule.summary })
            .collect(),
        findings,
        not_judged,
        caution: CAUTION,
    }
}

fn light(light: &LightSheet) -> LightDocument {
    LightDocument {
        number: light.number,
        model: light.model.clone(),
        kind: match light.kind {
            LightKind::Buttons => "buttons",
            LightKind::Names => "names",
            LightKind::Porch => "porch",
        },
        feed: match light.feed {
            LightFeed::Station => "station",
            LightFeed::Bus => "bus",
            LightFeed::OwnSupply => "own-supply",
        },
        lit: match light.lit {
            LitWhen::Night => "night",
            LitWhen::Always => "always",
            LitWhen::InUse => "in-use",
        },
        rated_v: light.rated_v,
        current_a: light.current_a,
        feed_v: light.feed_v.and_then(finite),
    }
}

fn alarm_input(input: &AlarmSheet) -> AlarmInputDocument {
    AlarmInputDocument {
        number: input.number,
        kind: kind_word(input.kind),
        contact: contact(input.contact),
        end_of_line_resistor: input.end_of_line_resistor,
        cut_passes_unnoticed: input.cut_passes_unnoticed,
        calculation: input.calculation.as_ref().map(line),
        missing: input.cable.as_ref().err().cloned().unwrap_or_default(),
        releases_locks: input.releases_locks,
        tells: input.tells.iter().map(ToString::to_string).collect(),
    }
}

fn load(load: &DoorLoad) -> LoadDocument {
    let parts = load.lines.iter().map(|line| LoadPartDocument {
        part: words::load_part(line.part),
        model: line.model.clone(),
        day_a: line.day_a,
        night_a: line.night_a,
        source: line.source.clone(),
    });
    LoadDocument { bus_v: load.bus_v, day_a: load.day_a(), night_a: load.night_a(), parts: parts.collect() }
}

fn lock(lock: &LockSheet) -> LockDocument {
    let missing = match &lock.circuit {
        Ok(_) | Err(Unknown::NotNeeded) => Vec::new(),
        Err(Unknown::NoFeed(missing)) => vec![missing.clone()],
        Err(Unknown::Missing(missing)) => missing.clone(),
        Err(Unknown::BusCollapses) => vec![String::from("an operating point of the bus")],
    };
    let wiring = &lock.wiring;
    LockDocument {
        number: lock.number,
        model: lock.model.clone(),
        kind: match lock.kind {
            LockKind::Strike => "strike",
            LockKind::Magnet => "magnet",
            LockKind::Motor => "motor",
            LockKind::Gate => "gate",
        },
        power_loss: match lock.power_loss {
            PowerLoss::Opens => "opens",
            PowerLoss::StaysShut => "stays-shut",
        },
        current_kind: match lock.current_kind {
            Feed::Dc => "dc",
            Feed::Ac => "ac",
            Feed::Either => "either",
        },
        feed: match wiring.feed {
            LockFeed::Station => "station",
            LockFeed::Bus => "bus",
            LockFeed::OwnSupply => "own-supply",
            LockFeed::DryContact => "dry-contact",
        },
        cable: lock.cable.as_ref().map(|(cable, _)| cable.clone()),
        length_m: lock.cable.as_ref().map(|(_, length_m)| *length_m),
        circuit: lock.circuit.as_ref().ok().map(|circuit| circuit_document(lock, circuit)),
        missing,
        calculation: lock.calculation.iter().map(line).collect(),
        contact: contact(wiring.contact),
        required_contact: contact(wiring.required_contact),
        coil_contact: wiring.coil_contact.map(contact),
        series: wiring.series.iter().map(|element| words::element(*element, wiring.is_ac)).collect(),
        across_contact: wiring
            .across_contact
            .iter()
            .map(|element| words::element(*element, wiring.is_ac))
            .collect(),
        across_lock: wiring.across_lock.and_then(|fitted| match fitted {
            Suppression::None => None,
            Suppression::Diode => Some("diode"),
            Suppression::Clamp => Some("clamp"),
            Suppression::Varistor => Some("varistor"),
        }),
        times: lock.times.as_ref().map(times),
        exit_button: lock.exit_button,
        mechanical_escape: lock.mechanical_escape,
        emergency_release: lock.emergency_release,
        relay_on_secure_side: lock.relay_on_secure_side,
        door_contact: lock.door_contact,
        delayed_egress_s: lock.delayed_egress_s,
        cautions: lock.cautions.iter().map(|caution| words::caution(*caution)).collect(),
    }
}

fn contact(contact: RelayContact) -> &'static str {
    match contact {
        RelayContact::NormallyOpen => "normally-open",
        RelayContact::NormallyClosed => "normally-closed",
    }
}

fn circuit_document(lock: &LockSheet, circuit: &LockCircuit) -> CircuitDocument {
    CircuitDocument {
        feed_v: circuit.feed.voltage_v,
        feed_low_v: circuit.feed.low_v,
        feed_high_v: circuit.feed.high_v,
        loop_ohm: circuit.loop_ohm,
        adverse_loop_ohm: circuit.adverse_loop_ohm,
        most_loop_ohm: circuit.most_loop_ohm.and_then(finite),
        current_a: circuit.current_a,
        adverse_current_a: circuit.adverse_current_a,
        nominal_v: circuit.nominal_v,
        least_v: circuit.least_v,
        highest_v: circuit.highest_v,
        least_allowed_v: circuit.least_allowed_v,
        most_allowed_v: circuit.most_allowed_v,
        needed_supply_v: circuit.needed_supply_v,
        holds: lock.calculation.iter().all(CalculationLine::holds),
        assumed: circuit.assumed.list().to_vec(),
    }
}

fn times(times: &LockTimes) -> TimesDocument {
    TimesDocument {
        hold_s: times.hold.time_s,
        set_by: match times.hold.winner {
            HoldWinner::Station => "station",
            HoldWinner::Plan => "plan",
        },
        plan_s: times.plan_s,
        plan_is_stated: times.plan_is_stated,
        energised: match times.energised {
            Energised::WhileReleased => "while-released",
            Energised::WhileShut => "while-shut",
        },
        duty_limit_s: times.duty_limit_s.and_then(finite),
        decay_s: times.decay_s.and_then(finite),
    }
}

fn line(line: &CalculationLine) -> LineDocument {
    let inputs = line.inputs.iter().map(|input| {
        let shown = figure(&input.figure);
        InputDocument {
            symbol: input.symbol,
            value: shown.value,
            unit: shown.unit,
            source: input.source.clone(),
        }
    });
    LineDocument {
        quantity: line.quantity,
        formula: line.formula,
        inputs: inputs.collect(),
        result: finite(line.result.value),
        limit: line.limit.and_then(|limit| finite(limit.figure.value)),
        limit_is: line.limit.map(|limit| if limit.is_least { "least" } else { "most" }),
        unit: unit(line.result.unit),
        rounded: match line.rounding {
            Rounding::Nearest => "nearest",
            Rounding::Down => "down",
            Rounding::Up => "up",
        },
        holds: line.holds(),
        source: line.source,
    }
}

fn supply_document(report: &Report<'_>, sheet: &SupplySheet) -> SupplyDocument {
    let (findings, not_judged) = findings(report, &sheet.supply);
    let (battery, battery_missing) = match &sheet.battery {
        Some(Ok(battery)) => (Some(battery_document(battery)), Vec::new()),
        Some(Err(missing)) => (None, missing.clone()),
        None => (None, Vec::new()),
    };
    let starts = report.assessment.map_or(&[][..], |assessment| &assessment.start_up);
    SupplyDocument {
        format_version: FORMAT_VERSION,
        latchline_version: env!("CARGO_PKG_VERSION"),
        site_file: report.name.to_string(),
        supply: sheet.supply.to_string(),
        model: sheet.model.clone(),
        place: sheet.place.clone(),
        ambient_c: sheet.ambient_c,
        ambient_limit_c: sheet.ambient_limit_c,
        mains: sheet.mains.as_ref().map(mains_document),
        battery,
        battery_missing,
        power_return: starts.iter().find(|start| start.source == sheet.supply).map(start_up),
        calculation: sheet.calculation.iter().map(line).collect(),
        findings,
        not_judged,
        caution: CAUTION,
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
        missing: mains.missing.clone(),
    }
}

fn battery_document(battery: &BatteryFigures) -> BatteryDocument {
    let loads = battery.loads.iter().map(|load| BatteryLoadDocument {
        state: load.state.name(),
        power_w: load.bus_power_w,
        battery_current_a: load.battery_current_a,
        hours: load.hours,
    });
    BatteryDocument {
        batteries: battery.batteries,
        voltage_v: battery.voltage_v,
        capacity_ah: battery.capacity_ah,
        rated_hours: battery.rated_hours,
        effective_ah: battery.effective_ah,
        required_hours: battery.required_hours,
        loads: loads.collect(),
        recharge_hours: battery.recharge_hours.and_then(finite),
        assumed: battery.assumed.list().to_vec(),
    }
}
