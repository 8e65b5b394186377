//! What an assessment says: owned data, the one source of every output.

use crate::door::DoorSheet;
use crate::existing_cable::ExistingRun;
use crate::not_judged::NotJudged;
use crate::physics_summary::{ShortCircuitSummary, SignalSummary, StartUpSummary, ToleranceSummary};
use crate::supply::SupplySheet;
use latchline_finding::{ElementId, Figure, Finding, OperatingState, StateKind};
pub use latchline_network::worst::Limited;
use latchline_network::{BusState, Device, StageSource, margin_v};
use latchline_site::addresses::AddressPlan;
use latchline_site::model::RunStart;
use std::collections::BTreeMap;

/// The verdict on a site.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Every rule that was judged holds, on known data.
    Holds,
    /// Every rule that was judged holds, but on the values in [`Assessment::assumed`].
    HoldsOnAssumedData,
    /// Nothing failed, but what [`Assessment::not_judged`] lists could not be judged for want of data.
    NotJudged,
    /// There are findings of severity error, and the user has accepted every one.
    FailsAsAccepted,
    /// At least one finding of severity error stands.
    Fails,
}

impl Verdict {
    /// The stable word used in JSON.
    pub fn word(&self) -> &'static str {
        match self {
            Verdict::Holds => "holds",
            Verdict::HoldsOnAssumedData => "holds-on-assumed-data",
            Verdict::NotJudged => "not-judged",
            Verdict::FailsAsAccepted => "fails-as-accepted",
            Verdict::Fails => "fails",
        }
    }
}

/// A voltage in the adverse corner with what is known beside it.
#[derive(Debug, Clone, PartialEq)]
pub struct WorstVoltage {
    /// The state and set of calls in which the margin is least.
    pub state: OperatingState,
    /// The same by index.
    pub bus_state: BusState,
    /// Voltage at the terminals in the adverse corner; `None` if there is no operating point.
    pub adverse_v: Option<f64>,
    /// Voltage in the same state with nominal values; `None` if there is no operating point.
    pub nominal_v: Option<f64>,
    /// The limit that holds in that state.
    pub limit_v: f64,
    /// Whether `adverse_v` is a certified lower bound rather than the exact corner (it is where a
    /// load's current rises with voltage).
    pub is_bound: bool,
}

impl WorstVoltage {
    /// Margin to the limit in volts; minus infinity without operating point.
    pub fn margin_v(&self) -> f64 {
        margin_v(self.adverse_v, self.limit_v)
    }
}

/// What a device has in one state in the adverse corner; volts, `None` without operating point.
#[derive(Debug, Clone, PartialEq)]
pub struct StateVoltage {
    /// The state with the calls that leave the least margin.
    pub bus_state: BusState,
    /// Voltage where the margin to what it needs at that moment is least.
    pub voltage_v: Option<f64>,
    /// What it needs at that moment.
    pub limit_v: f64,
    /// Lowest voltage in the state.
    pub lowest_v: Option<f64>,
}

impl StateVoltage {
    /// Margin in that state in volts; minus infinity without operating point.
    pub fn margin_v(&self) -> f64 {
        margin_v(self.voltage_v, self.limit_v)
    }
}

/// One device with its worst voltage, and its voltage in each state that was solved.
#[derive(Debug, Clone, PartialEq)]
pub struct DeviceResult {
    /// Station or box.
    pub id: ElementId,
    /// The same by index.
    pub device: Device,
    /// Model name.
    pub model: String,
    /// The supply or regenerating box whose tree it hangs on.
    pub source: ElementId,
    /// The same by index.
    pub fed_from: StageSource,
    /// The run whose section leads to it.
    pub run: Option<ElementId>,
    /// The same by index.
    pub run_index: Option<usize>,
    /// Worst undervoltage.
    pub worst: WorstVoltage,
    /// Highest voltage, with least load and highest supply; the limit if there is one.
    pub highest_v: f64,
    /// Limit of the highest voltage.
    pub highest_limit_v: Option<f64>,
    /// What it has in every state that was solved.
    pub by_state: BTreeMap<StateKind, StateVoltage>,
    /// Cable length from the source in metres.
    pub distance_m: f64,
    /// Nominal loop resistance from the source in ohms.
    pub loop_resistance_ohm: f64,
}

/// The largest current that one supply, converter or port is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct WorstCurrent {
    /// The state and set of calls in which it occurs.
    pub state: OperatingState,
    /// The same by index.
    pub bus_state: BusState,
    /// Current in the corner of greatest load; `None` if there is no operating point.
    pub current_a: Option<f64>,
    /// Its limit, if there is one.
    pub limit_a: Option<f64>,
}

/// One supply, or one regenerating box as the source of its own tree.
#[derive(Debug, Clone, PartialEq)]
pub struct SourceSummary {
    /// Supply or box.
    pub id: ElementId,
    /// The same by index.
    pub source: StageSource,
    /// Model name.
    pub model: String,
    /// What it is set to and what it delivers as it comes, in volts, where it is set below that.
    pub set_below_v: Option<(f64, f64)>,
    /// Stations on its tree and on the trees that draw from it.
    pub stations: usize,
    /// Of a supply, the shares of the data sheet's counts of stations that are used, added up: 1 is full (common practice, no source).
    /// `None` where no station on it has a count.
    pub count_share: Option<f64>,
    /// The stations that have such a count: model, how many, how many of it alone would be full.
    pub counts: Vec<(String, usize, u32)>,
    /// Its largest current.
    pub current: WorstCurrent,
    /// Largest power at its terminals in any state, at the end of its voltage where that is largest, in watts.
    pub power_w: Option<f64>,
    /// Rated power.
    pub rated_power_w: Option<f64>,
    /// Quiescent current in standby by day, nominal.
    pub standby_current_a: Option<f64>,
    /// Current when power returns and every device boots, every tolerance against it; `None` without operating point.
    pub power_return_current_a: Option<f64>,
    /// The device with the least margin on its tree: index into [`Assessment::devices`].
    pub worst_device: Option<usize>,
    /// Loading margin in its worst state: the factor by which all loads can grow before there is
    /// no operating point, below 1 where it collapses today. `None` if nothing limits it.
    pub loading_margin: Option<f64>,
    /// The first limit that is met as all loads grow together; `None` where none follows the load.
    pub first_limit: Option<FirstLimit>,
}

/// The first limit that is met as all loads of a tree grow together, in every state with the calls that are worst there today.
#[derive(Debug, Clone, PartialEq)]
pub struct FirstLimit {
    /// The factor on all loads at which it is met, below 1 where it is passed today.
    pub factor: f64,
    /// What is limited.
    pub limited: Limited,
    /// Where: the device, the source or the port.
    pub element: ElementId,
    /// The limit.
    pub limit: Figure,
    /// The state and calls in which it is met.
    pub state: OperatingState,
}

/// One port or supply output with everything that hangs on it.
#[derive(Debug, Clone, PartialEq)]
pub struct RunSummary {
    /// The run.
    pub id: ElementId,
    /// The same by index.
    pub run: usize,
    /// From where ("A-D1.3").
    pub from: ElementId,
    /// The same by index.
    pub start: RunStart,
    /// The source of its tree.
    pub source: ElementId,
    /// The same by index.
    pub fed_from: StageSource,
    /// Cable name as shown, with pairs in parallel if more than one.
    pub cable: String,
    /// Stations on its own sections and on everything beyond.
    pub stations: usize,
    /// Length of its own sections in metres.
    pub length_m: f64,
    /// Largest current at its start.
    pub current: WorstCurrent,
    /// The device with the least margin on it or beyond: index into [`Assessment::devices`].
    pub worst_device: Option<usize>,
    /// Whether it can stay, and why; `None` for a new cable.
    pub existing: Option<ExistingRun>,
}

/// What voltages and currents alone say of a site, before the rest is known.
#[derive(Debug, Clone, PartialEq)]
pub struct VoltageResults {
    /// As [`Assessment::devices`].
    pub devices: Vec<DeviceResult>,
    /// As [`Assessment::sources`].
    pub sources: Vec<SourceSummary>,
    /// Largest current at the start of every run of the site, in its order; `None` where nothing feeds it.
    pub run_currents: Vec<Option<WorstCurrent>>,
}

/// Everything that was found out about a site.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// Title of the site.
    pub title: String,
    /// The verdict.
    pub verdict: Verdict,
    /// The assumed values that the figures rest on, whatever the verdict, as "model key", in order.
    pub assumed: Vec<String>,
    /// Supplies and regenerating boxes, in file order.
    pub sources: Vec<SourceSummary>,
    /// Runs in file order.
    pub runs: Vec<RunSummary>,
    /// Devices in the order of the site: stations, then boxes.
    pub devices: Vec<DeviceResult>,
    /// Addresses and settings.
    pub addresses: AddressPlan,
    /// Findings met while reading the files, in the order of the files; none stands in the way of using the site.
    pub read: Vec<Finding>,
    /// Findings of the rules: those that stand, then the accepted ones, which carry their acceptance; each worst first, then in the
    /// order of the rules and of the site.
    pub findings: Vec<Finding>,
    /// Findings for which remedies were not looked for, there being too many.
    pub remedies_not_sought: usize,
    /// What could not be judged, whatever the verdict.
    pub not_judged: Vec<NotJudged>,
    /// Doors that were counted as released outside of calls at once, and those that could be; `None` where no door takes more from the bus
    /// to release.
    pub releases_at_once: Option<(usize, usize)>,
    /// States that were solved, and how.
    pub states: Vec<StateSummary>,
    /// The sheet of every entrance, in file order.
    pub doors: Vec<DoorSheet>,
    /// The sheet of every supply, in file order.
    pub supply_sheets: Vec<SupplySheet>,
    /// The family's signal bands, in its order; empty where it gives none or none could be judged.
    pub signal: Vec<SignalSummary>,
    /// Power return of every supply and regenerating box that could be judged.
    pub start_up: Vec<StartUpSummary>,
    /// A short at the end of every run that carries power, in file order.
    pub short_circuit: Vec<ShortCircuitSummary>,
    /// Sampled tolerances; empty unless asked for.
    pub tolerance: Vec<ToleranceSummary>,
}

/// A state that was solved.
#[derive(Debug, Clone, PartialEq)]
pub struct StateSummary {
    /// Which.
    pub kind: StateKind,
    /// Sets of calls that are admissible in it (1 if it has no calls).
    pub call_sets: f64,
    /// Sets that were solved; the others were excluded by bounds.
    pub solved_sets: u64,
    /// Whether the worst set is exact (search completed) in this state.
    pub exact: bool,
}

/// The device with the least margin among these, of equals the one behind the most copper: where a bus collapses all of it are.
pub fn least_margin(devices: &[DeviceResult], among: impl Iterator<Item = usize>) -> Option<usize> {
    let margin = |index: &usize| devices[*index].worst.margin_v();
    let copper = |index: &usize| devices[*index].loop_resistance_ohm;
    among.min_by(|a, b| margin(a).total_cmp(&margin(b)).then(copper(b).total_cmp(&copper(a))))
}

impl VoltageResults {
    /// As [`Assessment::tightest_device`].
    pub fn tightest_device(&self) -> Option<usize> {
        least_margin(&self.devices, 0..self.devices.len())
    }
}

impl Assessment {
    /// The device with the least margin, of equals (where a bus collapses all of it are) the one behind the most copper: index into
    /// [`Assessment::devices`].
    pub fn tightest_device(&self) -> Option<usize> {
        least_margin(&self.devices, 0..self.devices.len())
    }
}
