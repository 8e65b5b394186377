//! The worst state of every device, and the largest current of every source and run.
//!
//! A *state space* is the list of operating states that can occur on a site, each a [`Phase`] in the
//! adverse corner. For every device and every state the set of calls is searched that is worst *for the
//! margin to the limit that holds for what the device is then doing*: standing by, ringing or talking.

use crate::bound::{Functional, StageBound};
use crate::demand::Activity;
use crate::evaluate::{ENCLOSURE_V, SetOutcome, Solver};
use crate::layout::{Corner, Layout, NodeRef};
use crate::phase::{HighestVoltages, Phase};
use crate::search::{Found, SearchOptions, Target, worst_set};
use latchline_finding::{OperatingState, StateKind};
use latchline_site::model::Site;
use std::collections::BTreeMap;

/// A device that has a least voltage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Device {
    /// A station: index into [`Site::stations`].
    Station(usize),
    /// The input of a box: index into [`Site::boxes`].
    Box(usize),
}

/// The states of a site in the adverse corner, and what bounds them from above.
#[derive(Debug, Clone)]
pub struct StateSpace {
    /// States that can occur, in the order of [`StateKind::ALL`], without [`StateKind::LightLoad`].
    pub phases: Vec<Phase>,
    /// Least load on the highest supply voltage.
    pub light: Option<Phase>,
    /// Highest voltage of every node of every stage.
    pub highest_v: Vec<Vec<f64>>,
}

impl StateSpace {
    /// Builds every state of a site.
    pub fn new(site: &Site, layout: &Layout) -> Self {
        let light = Phase::new(site, layout, StateKind::LightLoad, Corner::Light, None);
        let highest_v: HighestVoltages = match &light {
            Some(phase) => {
                let solver = Solver::new(layout, phase);
                (0..layout.stages.len())
                    .map(|stage| match solver.base(stage) {
                        Some(solution) => solution.voltage_v.clone(),
                        // No operating point even here: the open-circuit voltage bounds it.
                        None => vec![
                            layout.stages[stage].voltage_v[Corner::Light.index()];
                            layout.stages[stage].parent.len()
                        ],
                    })
                    .collect()
            }
            None => Vec::new(),
        };
        let phases = StateKind::ALL
            .into_iter()
            .filter(|kind| *kind != StateKind::LightLoad)
            .filter_map(|kind| Phase::new(site, layout, kind, Corner::Adverse, Some(&highest_v)))
            .collect();
        StateSpace { phases, light, highest_v }
    }
}

/// A device's worst margin in one state.
#[derive(Debug, Clone, PartialEq)]
pub struct StateMargin {
    /// Index into [`StateSpace::phases`].
    pub phase: usize,
    /// Call options that stand (indices into the phase's).
    pub set: Vec<usize>,
    /// Voltage in the adverse corner, less the search's tolerance and the width of the solver's enclosure, so
    /// that no admissible set gives less; `None` without operating point.
    pub voltage_v: Option<f64>,
    /// The limit that holds.
    pub limit_v: f64,
    /// The stage that has no operating point, or that could not be decided, if there is one.
    pub failing_stage: Option<usize>,
    /// Whether that stage was too close to collapse to be decided, rather than proved to have none.
    pub is_undecided: bool,
    /// Whether no set can be worse by more than the search's tolerance.
    pub complete: bool,
}

impl StateMargin {
    /// Voltage minus limit; minus infinity without operating point.
    pub fn margin_v(&self) -> f64 {
        self.voltage_v.map_or(f64::NEG_INFINITY, |voltage| voltage - self.limit_v)
    }
}

/// A device with its margins.
#[derive(Debug, Clone, PartialEq)]
pub struct DeviceStates {
    /// Which device.
    pub device: Device,
    /// Where it is.
    pub at: NodeRef,
    /// Its worst margin in each state in which it has power, by phase.
    pub margins: Vec<StateMargin>,
    /// Index of the least margin.
    pub worst: usize,
    /// Voltage with nominal values in the worst state; `None` without operating point.
    pub nominal_v: Option<f64>,
}

impl DeviceStates {
    /// The state in which the margin is least.
    pub fn worst(&self) -> &StateMargin {
        &self.margins[self.worst]
    }
}

/// The largest current through a segment.
#[derive(Debug, Clone, PartialEq)]
pub struct CurrentState {
    /// Index into [`StateSpace::phases`].
    pub phase: usize,
    /// Call options that stand.
    pub set: Vec<usize>,
    /// The current in amperes; `None` without operating point.
    pub current_a: Option<f64>,
    /// Whether no set can be worse by more than the search's tolerance.
    pub complete: bool,
}

/// How a state was dealt with.
#[derive(Debug, Clone, PartialEq)]
pub struct StateInfo {
    /// Which state.
    pub kind: StateKind,
    /// Sets of calls that were solved.
    pub solved_sets: u64,
    /// Call options.
    pub options: usize,
    /// Calls at once.
    pub most_calls: usize,
    /// Whether every search in it was completed.
    pub complete: bool,
}

/// The worst of everything.
#[derive(Debug, Clone, PartialEq)]
pub struct WorstStates {
    /// Devices: stations in the site's order, then boxes with a least voltage.
    pub devices: Vec<DeviceStates>,
    /// Largest source current of every stage.
    pub source_current: Vec<Option<CurrentState>>,
    /// The same among the states with mains: without the battery's end, which never coincides with charging.
    pub mains_current: Vec<Option<CurrentState>>,
    /// Nominal source current of every stage in standby by day.
    pub standby_current_a: Vec<Option<f64>>,
    /// Largest current at the start of every run.
    pub run_current: Vec<Option<CurrentState>>,
    /// Loading margin of every stage in the state of its device with the least margin.
    pub loading_margin: Vec<Option<f64>>,
    /// How each state was dealt with.
    pub states: Vec<StateInfo>,
}

/// Searches the worst states of a site.
pub fn worst_states(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    options: &SearchOptions,
) -> WorstStates {
    let mut devices = devices(site, layout);
    let mut mains_current: Vec<Option<CurrentState>> = vec![None; layout.stages.len()];
    let mut battery_current = mains_current.clone();
    let mut run_current: Vec<Option<CurrentState>> = vec![None; site.runs.len()];
    let mut states = Vec::new();
    for (index, phase) in space.phases.iter().enumerate() {
        let mut solver = Solver::new(layout, phase);
        let bounds = stage_bounds(layout, phase, &solver);
        let every_option: Vec<usize> = (0..phase.options.len()).collect();
        let mut search = PhaseSearch {
            site,
            layout,
            phase,
            index,
            solver: &mut solver,
            bounds: &bounds,
            options,
            options_of_station: options_of_stations(site, phase),
            every_option: &every_option,
        };
        let mut complete = true;
        for device in &mut devices {
            if let Some(margin) = search.device(device.device, device.at) {
                complete &= margin.complete;
                device.margins.push(margin);
            }
        }
        let by_stage = match phase.kind {
            StateKind::BatteryEnd => {
                // What is known prunes the search.
                battery_current.clone_from(&mains_current);
                &mut battery_current
            }
            _ => &mut mains_current,
        };
        for (stage, worst) in by_stage.iter_mut().enumerate() {
            complete &= search.current(NodeRef { stage, node: 0 }, worst);
        }
        for (at, worst) in layout.run_start.iter().zip(&mut run_current) {
            if let Some(at) = at {
                complete &= search.current(*at, worst);
            }
        }
        states.push(StateInfo {
            kind: phase.kind,
            solved_sets: solver.solved_sets.max(1),
            options: phase.options.len(),
            most_calls: phase.most_calls,
            complete,
        });
    }
    let source_current = mains_current.iter().zip(battery_current).map(larger).collect();
    devices.retain(|device| !device.margins.is_empty());
    for device in &mut devices {
        device.worst = (0..device.margins.len())
            .min_by(|a, b| device.margins[*a].margin_v().total_cmp(&device.margins[*b].margin_v()))
            .unwrap_or(0);
    }
    let standby_current_a = nominal_values(site, layout, space, &mut devices);
    let loading_margin = loading_margins(layout, space, &devices);
    WorstStates {
        devices,
        source_current,
        mains_current,
        standby_current_a,
        run_current,
        loading_margin,
        states,
    }
}

/// The larger of two currents, the first where they are equal; without operating point is larger than any.
fn larger((first, second): (&Option<CurrentState>, Option<CurrentState>)) -> Option<CurrentState> {
    let size = |state: &CurrentState| state.current_a.unwrap_or(f64::INFINITY);
    match (first, second) {
        (Some(first), Some(second)) if size(&second) > size(first) => Some(second),
        (None, second) => second,
        (first, _) => first.clone(),
    }
}

/// The state of a device in words that the report can name.
pub fn operating_state(site: &Site, phase: &Phase, set: &[usize]) -> OperatingState {
    let calls = set
        .iter()
        .map(|option| &phase.options[*option])
        .filter(|option| option.caller != option.answering)
        .map(|option| option.call_ref(site))
        .collect();
    OperatingState { kind: phase.kind, calls }
}

/// Bounds of every stage, those that draw from a stage before it.
pub fn stage_bounds(layout: &Layout, phase: &Phase, solver: &Solver<'_>) -> Vec<Option<StageBound>> {
    let mut bounds: Vec<Option<StageBound>> = (0..layout.stages.len()).map(|_| None).collect();
    for stage in (0..layout.stages.len()).rev() {
        bounds[stage] = StageBound::new(layout, phase, solver, &bounds, stage);
    }
    bounds
}

fn devices(site: &Site, layout: &Layout) -> Vec<DeviceStates> {
    let stations =
        layout.station.iter().enumerate().filter_map(|(index, at)| at.map(|at| (Device::Station(index), at)));
    let boxes = layout
        .box_input
        .iter()
        .enumerate()
        .filter(|(index, _)| site.box_model(&site.boxes[*index]).least_voltage.is_some())
        .filter_map(|(index, at)| at.map(|at| (Device::Box(index), at)));
    stations
        .chain(boxes)
        .map(|(device, at)| DeviceStates { device, at, margins: Vec::new(), worst: 0, nominal_v: None })
        .collect()
}

fn options_of_stations(site: &Site, phase: &Phase) -> Vec<Vec<(usize, Activity)>> {
    let mut list = vec![Vec::new(); site.stations.len()];
    for (index, option) in phase.options.iter().enumerate() {
        for &(station, activity) in &option.busy {
            list[station].push((index, activity));
        }
    }
    list
}

struct PhaseSearch<'a, 'b> {
    site: &'a Site,
    layout: &'a Layout,
    phase: &'a Phase,
    index: usize,
    solver: &'a mut Solver<'b>,
    bounds: &'a [Option<StageBound>],
    options: &'a SearchOptions,
    options_of_station: Vec<Vec<(usize, Activity)>>,
    every_option: &'a [usize],
}

impl PhaseSearch<'_, '_> {
    /// The worst margin of a device in this state; `None` without power.
    fn device(&mut self, device: Device, at: NodeRef) -> Option<StateMargin> {
        self.phase.voltage_v[at.stage]?;
        let (in_use_v, standby_v) = self.limits(device);
        let own: &[(usize, Activity)] = match device {
            Device::Station(station) => &self.options_of_station[station],
            Device::Box(_) => &[],
        };
        let base_activity = match device {
            Device::Station(station) => self.phase.base_activity[station],
            Device::Box(_) => Activity::Standby,
        };
        let idle_limit = if base_activity.is_in_use() { in_use_v } else { standby_v };
        let base_outcome = self.solver.base_outcome(at.stage);
        if base_outcome != SetOutcome::Solved {
            return Some(StateMargin {
                phase: self.index,
                set: Vec::new(),
                voltage_v: None,
                limit_v: idle_limit,
                failing_stage: base_outcome.failing_stage(),
                is_undecided: base_outcome.is_undecided(),
                complete: matches!(base_outcome, SetOutcome::NoOperatingPoint { .. }),
            });
        }
        let own_options: Vec<usize> = own.iter().map(|(option, _)| *option).collect();
        let pool: Vec<usize> = if own_options.is_empty() {
            self.every_option.to_vec()
        } else {
            let mut pool = Vec::with_capacity(self.every_option.len());
            let mut own = own_options.iter().peekable();
            for option in self.every_option {
                if own.peek() == Some(&option) {
                    own.next();
                } else {
                    pool.push(*option);
                }
            }
            pool
        };
        // In use first: its limit is the higher one, and what it shows prunes the idle search.
        let mut worst: Option<StateMargin> = None;
        let mut complete = true;
        let in_use = (!own_options.is_empty()).then_some((&own_options[..], in_use_v));
        for (one_of, limit_v) in in_use.into_iter().chain([(&[][..], idle_limit)]) {
            let must_beat = worst.as_ref().map(|worst| -(worst.margin_v() + limit_v));
            let functional = Functional::Voltage(at.node);
            let target = Target { stage: at.stage, functional, one_of, pool: &pool };
            let found = self.search(&target, must_beat);
            complete &= found.complete;
            if let Some(set) = found.worst {
                complete &= !set.outcome.is_undecided();
                worst = Some(StateMargin {
                    phase: self.index,
                    set: set.set,
                    voltage_v: set.value.map(|voltage| voltage - self.uncertainty(ENCLOSURE_V)),
                    limit_v,
                    failing_stage: set.outcome.failing_stage(),
                    is_undecided: set.outcome.is_undecided(),
                    complete: true,
                });
            }
        }
        worst.map(|worst| StateMargin { complete, ..worst })
    }

    /// How far the true worst may lie beyond a value found: the tolerance of the search where there is
    /// anything to search, and what the solver leaves open.
    fn uncertainty(&self, solver: f64) -> f64 {
        let search = if self.phase.options.is_empty() { 0.0 } else { self.options.tolerance };
        search + solver
    }

    fn search(&mut self, target: &Target<'_>, must_beat: Option<f64>) -> Found {
        let bound = self.bounds[target.stage].as_ref();
        worst_set(self.layout, self.phase, self.solver, bound, target, self.options, must_beat)
    }

    /// Limits in use and in standby.
    fn limits(&self, device: Device) -> (f64, f64) {
        match device {
            Device::Station(station) => {
                let model = self.site.station_model(&self.site.stations[station]);
                (model.least_voltage.value.as_volts(), model.least_standby_voltage.value.as_volts())
            }
            Device::Box(index) => {
                let model = self.site.box_model(&self.site.boxes[index]);
                let least = model.least_voltage.as_ref().map_or(0.0, |least| least.value.as_volts());
                (least, least)
            }
        }
    }

    /// Updates the largest current through a segment; returns whether the search was completed.
    fn current(&mut self, at: NodeRef, worst: &mut Option<CurrentState>) -> bool {
        if self.phase.voltage_v[at.stage].is_none() {
            return true;
        }
        let known = worst.as_ref().map(|worst| worst.current_a.unwrap_or(f64::INFINITY));
        if self.solver.base_outcome(at.stage) != SetOutcome::Solved {
            let phase = self.index;
            *worst = Some(CurrentState { phase, set: Vec::new(), current_a: None, complete: true });
            return true;
        }
        let target = Target {
            stage: at.stage,
            functional: Functional::Current(at.node),
            one_of: &[],
            pool: self.every_option,
        };
        let found = self.search(&target, known);
        if let Some(set) = found.worst {
            let current_a = set.value.map(|current| current + self.uncertainty(0.0));
            *worst =
                Some(CurrentState { phase: self.index, set: set.set, current_a, complete: found.complete });
        }
        found.complete
    }
}

/// Fills in the nominal voltage of every device in its worst state; returns the nominal standby
/// current of every stage.
fn nominal_values(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    devices: &mut [DeviceStates],
) -> Vec<Option<f64>> {
    // Devices that share state and set share one solve.
    let mut groups: BTreeMap<(usize, usize, Vec<usize>), Vec<usize>> = BTreeMap::new();
    for (index, device) in devices.iter().enumerate() {
        let worst = device.worst();
        groups.entry((worst.phase, device.at.stage, worst.set.clone())).or_default().push(index);
    }
    let mut nominal: BTreeMap<usize, Phase> = BTreeMap::new();
    for &(phase, _, _) in groups.keys() {
        if let std::collections::btree_map::Entry::Vacant(entry) = nominal.entry(phase)
            && let Some(phase) = Phase::new(site, layout, space.phases[phase].kind, Corner::Nominal, None)
        {
            entry.insert(phase);
        }
    }
    let mut solvers: BTreeMap<usize, Solver<'_>> =
        nominal.iter().map(|(index, phase)| (*index, Solver::new(layout, phase))).collect();
    for ((phase, stage, set), members) in groups {
        let Some(solver) = solvers.get_mut(&phase) else { continue };
        if solver.solve_set(stage, &set) == SetOutcome::Solved {
            for member in members {
                let node = devices[member].at.node;
                devices[member].nominal_v = Some(solver.solution(stage).voltage_v[node]);
            }
        }
    }
    let standby = Phase::new(site, layout, StateKind::StandbyDay, Corner::Nominal, None);
    match &standby {
        Some(phase) => {
            let solver = Solver::new(layout, phase);
            (0..layout.stages.len())
                .map(|stage| solver.base(stage).map(|solution| solution.source_current_a))
                .collect()
        }
        None => vec![None; layout.stages.len()],
    }
}

fn loading_margins(layout: &Layout, space: &StateSpace, devices: &[DeviceStates]) -> Vec<Option<f64>> {
    let mut solvers: BTreeMap<usize, Solver<'_>> = BTreeMap::new();
    (0..layout.stages.len())
        .map(|stage| {
            let worst = devices
                .iter()
                .filter(|device| device.at.stage == stage)
                .map(DeviceStates::worst)
                .min_by(|a, b| a.margin_v().total_cmp(&b.margin_v()))?;
            let solver =
                solvers.entry(worst.phase).or_insert_with(|| Solver::new(layout, &space.phases[worst.phase]));
            if solver.solve_set(stage, &worst.set) == SetOutcome::Solved {
                solver.loading_margin(stage)
            } else {
                None
            }
        })
        .collect()
}
