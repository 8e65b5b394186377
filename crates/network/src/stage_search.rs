//! The worst of everything on one stage in one state, in terms that hold for any site with the same stage.

use crate::bound::{Functional, StageBound};
use crate::evaluate::{ENCLOSURE_V, SetOutcome, Solver};
use crate::layout::Layout;
use crate::margin::margin_v;
use crate::memory::{Fingerprint, Key, Weighed};
use crate::phase::Phase;
use crate::search::{Found, SearchOptions, StageSearch, Target};
use crate::stage_calls::StageCalls;
use crate::stage_key::of_stage;
use std::collections::BTreeMap;

/// A device of the stage, as the search sees it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct DeviceTarget {
    /// Its node.
    pub node: usize,
    /// Options that put it to use, as positions in the stage's list, in ascending order.
    pub own: Vec<usize>,
    /// Limit while it is in use.
    pub in_use_v: f64,
    /// Limit while none of its own options stands.
    pub idle_v: f64,
}

/// What to look for on one stage in one state.
pub(crate) struct StageTask<'a> {
    /// The layout.
    pub layout: &'a Layout,
    /// The state.
    pub phase: &'a Phase,
    /// The stage.
    pub stage: usize,
    /// Options that matter to it.
    pub calls: StageCalls,
    /// Their key, as [`key_of_calls`] gives it.
    pub calls_key: Key,
    /// Devices whose margins are wanted.
    pub devices: Vec<DeviceTarget>,
    /// Nodes whose segments' largest current is wanted.
    pub current_nodes: Vec<usize>,
    /// How hard to search.
    pub options: SearchOptions,
}

/// A margin; options by their position in the stage's list, stages by their position in [`Layout::with_stages_below`].
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LocalMargin {
    pub set: Vec<usize>,
    pub voltage_v: Option<f64>,
    /// The lowest voltage of the device in the state, whatever it needs at that moment.
    pub lowest_v: Option<f64>,
    pub limit_v: f64,
    pub failing_stage: Option<usize>,
    pub is_undecided: bool,
    pub complete: bool,
}

impl LocalMargin {
    fn margin_v(&self) -> f64 {
        margin_v(self.voltage_v, self.limit_v)
    }

    /// The worse of two, with the lower of their lowest voltages.
    fn worse(self, other: LocalMargin) -> LocalMargin {
        let lowest_v = self.lowest_v.zip(other.lowest_v).map(|(one, other)| one.min(other));
        let worse = if other.margin_v() < self.margin_v() { other } else { self };
        LocalMargin { lowest_v, ..worse }
    }
}

/// A largest current.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LocalCurrent {
    pub set: Vec<usize>,
    pub current_a: Option<f64>,
    pub complete: bool,
}

/// What was found.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct StageFound {
    /// By device of the task.
    pub devices: Vec<LocalMargin>,
    /// By node of the task.
    pub currents: Vec<LocalCurrent>,
    /// Sets that were solved.
    pub solved_sets: u64,
}

impl Weighed for StageFound {
    fn bytes(&self) -> usize {
        let sets = self.devices.iter().map(|one| &one.set).chain(self.currents.iter().map(|one| &one.set));
        let sets: usize = sets.map(|set| 8 * set.len()).sum();
        sets + size_of::<LocalMargin>() * self.devices.len() + size_of::<LocalCurrent>() * self.currents.len()
    }
}

/// What a stage's calls do to it, as a key; the same at every voltage of its source.
pub(crate) fn key_of_calls(layout: &Layout, phase: &Phase, stage: usize, calls: &StageCalls) -> Key {
    let mut key = Fingerprint::new();
    let stages = layout.with_stages_below(stage);
    key.count(phase.most_calls);
    key.count(phase.most_releases);
    let mut parties: BTreeMap<u32, usize> = BTreeMap::new();
    for option in &calls.options {
        key.count(usize::from(phase.options[*option].is_release()));
        for party in phase.options[*option].parties {
            let next = parties.len();
            key.count(*parties.entry(party).or_insert(next));
        }
        for touch in &phase.touches[*option] {
            let Some(place) = stages.iter().position(|one| *one == touch.at.stage) else { continue };
            key.count(place);
            key.count(touch.at.node);
            key.numbers(&[touch.change.power_w, touch.change.current_a, touch.change.conductance_s]);
        }
        key.count(usize::MAX);
    }
    key.finish()
}

impl StageTask<'_> {
    /// Everything that the result depends on.
    pub fn fingerprint(&self) -> Key {
        let mut key = of_stage(self.layout, self.phase, self.stage);
        key.key(self.calls_key);
        for device in &self.devices {
            key.count(device.node);
            key.number(device.in_use_v);
            key.number(device.idle_v);
            for option in &device.own {
                key.count(*option);
            }
            key.count(usize::MAX);
        }
        for node in &self.current_nodes {
            key.count(*node);
        }
        let options = &self.options;
        key.number(options.tolerance);
        for count in [options.most_sets, options.most_sets_of_stage, options.most_sets_without_bound] {
            key.count(count as usize);
        }
        key.finish()
    }

    /// Searches.
    pub fn run(&self) -> StageFound {
        let (layout, phase, stage) = (self.layout, self.phase, self.stage);
        let stages = layout.with_stages_below(stage);
        let mut solver = Solver::of_stage(layout, phase, stage);
        let base = solver.base_outcome(stage);
        let place = |outcome: SetOutcome| {
            outcome.failing_stage().and_then(|failing| stages.iter().position(|one| *one == failing))
        };
        if base != SetOutcome::Solved {
            let devices = self.devices.iter().map(|device| LocalMargin {
                set: Vec::new(),
                voltage_v: None,
                lowest_v: None,
                limit_v: device.idle_v,
                failing_stage: place(base),
                is_undecided: base.is_undecided(),
                complete: !base.is_undecided(),
            });
            let none = LocalCurrent { set: Vec::new(), current_a: None, complete: true };
            let currents = vec![none; self.current_nodes.len()];
            return StageFound { devices: devices.collect(), currents, solved_sets: 1 };
        }
        let mut bounds: Vec<Option<StageBound>> = (0..layout.stages.len()).map(|_| None).collect();
        for &index in &stages {
            bounds[index] = StageBound::new(layout, phase, &solver, &bounds, index, &self.calls);
        }
        let bound = bounds[stage].as_ref();
        let mut search =
            StageSearch::new(layout, phase, stage, &self.calls, &mut solver, bound, &self.options);
        let devices = self.devices.iter().map(|device| self.device(&mut search, device, &place)).collect();
        let currents = self.current_nodes.iter().map(|node| self.current(&mut search, *node)).collect();
        StageFound { devices, currents, solved_sets: search.solved.max(1) }
    }

    /// How far the true worst may lie beyond a value found: the tolerance of the search where there is
    /// anything to search, and what the solver leaves open.
    fn uncertainty(&self, solver: f64) -> f64 {
        let search = if self.phase.options.is_empty() { 0.0 } else { self.options.tolerance };
        search + solver
    }

    /// The worst margin of a device.
    fn device(
        &self,
        search: &mut StageSearch<'_, '_>,
        device: &DeviceTarget,
        place: &impl Fn(SetOutcome) -> Option<usize>,
    ) -> LocalMargin {
        // Without operating point nothing is worse, whatever the device does.
        if let Some((set, outcome)) = search.collapsed() {
            let in_use = set.iter().any(|option| device.own.contains(option));
            return LocalMargin {
                set: set.to_vec(),
                voltage_v: None,
                lowest_v: None,
                limit_v: if in_use { device.in_use_v } else { device.idle_v },
                failing_stage: place(outcome),
                is_undecided: false,
                complete: true,
            };
        }
        // In use first: its voltage is mostly the lower one, and prunes the idle search.
        let mut worst: Option<LocalMargin> = None;
        let mut complete = true;
        let in_use = (!device.own.is_empty()).then_some((true, device.in_use_v));
        for (in_use, limit_v) in in_use.into_iter().chain([(false, device.idle_v)]) {
            // Wanted is what has less margin, and what has less voltage.
            let must_beat = worst.as_ref().map(|worst: &LocalMargin| match worst.voltage_v {
                Some(voltage) => -voltage.max(voltage - worst.limit_v + limit_v),
                None => f64::INFINITY,
            });
            let functional = Functional::Voltage(device.node);
            let Found { worst: found, complete: was_completed } =
                search.worst(&Target { functional, own: &device.own, in_use }, must_beat);
            complete &= was_completed;
            if let Some(set) = found {
                complete &= !set.outcome.is_undecided();
                let voltage_v = set.value.map(|voltage| voltage - self.uncertainty(ENCLOSURE_V));
                let here = LocalMargin {
                    set: set.set,
                    voltage_v,
                    lowest_v: voltage_v,
                    limit_v,
                    failing_stage: place(set.outcome),
                    is_undecided: set.outcome.is_undecided(),
                    complete: true,
                };
                worst = Some(match worst {
                    Some(known) => known.worse(here),
                    None => here,
                });
            }
        }
        match worst {
            Some(worst) if worst.voltage_v.is_none() && !worst.is_undecided => worst,
            Some(worst) => LocalMargin { complete, ..worst },
            // A set is always found: that of no calls at all, at least.
            None => LocalMargin {
                set: Vec::new(),
                voltage_v: None,
                lowest_v: None,
                limit_v: device.idle_v,
                failing_stage: None,
                is_undecided: true,
                complete: false,
            },
        }
    }

    /// Whether anything at a node or behind it ever draws.
    fn is_ever_loaded(&self, node: usize) -> bool {
        let behind = node..self.layout.stages[self.stage].subtree_end[node] as usize;
        let base = &self.phase.base[self.stage];
        let loads = [&base.power_w, &base.current_a, &base.conductance_s];
        loads.iter().any(|loads| loads[behind.clone()].iter().any(|load| *load != 0.0))
            || self.calls.options.iter().any(|option| {
                let touches = &self.phase.touches[*option];
                touches.iter().any(|touch| touch.at.stage == self.stage && behind.contains(&touch.at.node))
            })
            || self.layout.stages[self.stage].converters.iter().any(|one| behind.contains(&one.node))
    }

    /// The largest current through a segment.
    fn current(&self, search: &mut StageSearch<'_, '_>, node: usize) -> LocalCurrent {
        let target = Target { functional: Functional::Current(node), own: &[], in_use: false };
        let uncertainty = if self.is_ever_loaded(node) { self.uncertainty(0.0) } else { 0.0 };
        let found = search.worst(&target, None);
        match found.worst {
            Some(set) => LocalCurrent {
                set: set.set,
                current_a: set.value.map(|current| current + uncertainty),
                complete: found.complete,
            },
            None => LocalCurrent { set: Vec::new(), current_a: None, complete: false },
        }
    }
}
