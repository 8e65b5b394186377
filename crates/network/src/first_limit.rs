//! How far the loads of a stage can grow together until the first limit that follows them is met, and which one that is.
//!
//! All loads of a stage are taken times a common factor, as for the loading margin, in every state with the calls that are worst there at
//! the load of today. What is met first is looked for among the least voltages of devices, the current and power of the source, and the
//! currents of ports and, where the catalogue gives what a conductor may carry, of cables. Loads of constant power and constant current, which are all that the adverse corner has, lower every voltage and
//! raise every current as they grow, so that each limit is met at one factor and bisection finds it. Limits that do not follow the
//! load, such as counts of stations or budgets of signals, are not looked at.

use crate::corner::Corner;
use crate::evaluate::{ENCLOSURE_V, SetOutcome, Solver};
use crate::layout::{Layout, StageSource};
use crate::memory::{Fingerprint, Key, Memory};
use crate::phase::{Phase, StageLoads};
use crate::stage_key::{add_set, of_stage};
use crate::state_space::StateSpace;
use crate::wanted::GivenUp;
use crate::worst::{CurrentState, FirstLimit, Limited, WorstStates};
use latchline_circuit::flow::{Options, Outcome, Source, Workspace, solve};
use latchline_site::catalogue::LimitKind;
use latchline_site::model::{RunStart, Site};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Relative width to which a factor is found.
const WIDTH: f64 = 1e-9;
/// Largest factor that is looked for.
const MOST: f64 = 1e6;

/// What is compared with a limit.
#[derive(Debug, Clone, Copy)]
enum Measure {
    Voltage { node: usize },
    Current { node: usize },
    Power { open_circuit_v: f64 },
}

/// One limit in one state with one set of calls.
#[derive(Debug, Clone)]
struct Candidate<'a> {
    limited: Limited,
    measure: Measure,
    limit: f64,
    phase: usize,
    set: &'a [usize],
    /// How far today's value is from the limit, in parts of what would reach it: what is looked at first. With loads that draw more at less
    /// voltage the limit is met at this factor or before.
    nearness: f64,
}

/// From what the lowest voltage of a state is today, how low it can be with all loads times a factor.
///
/// A load draws at voltage `u` at most `(U - d) / (u - d)` times its current of today, `U` the open-circuit voltage and `d` the most that any
/// load loses before it draws. If no node is below `x`, none loses more than `m L (U - d) / (x - d)`, `L` the most that one loses today with any
/// calls. Iterated from `U` down, `x = U - m L (U - d) / (x - d)` ends at or above a solution, and the voltages iterated from `U` stay above it, so
/// that there is an operating point and it has no node below `x`.
struct Bounds {
    /// By phase: the open-circuit voltage, and the most that a node loses today; `None` where there is no operating point or it is not known.
    phases: Vec<Option<(f64, f64)>>,
}

/// Steps of the iteration for the lowest voltage, and the change in volts at which it rests.
const MOST_STEPS: usize = 60;
const REST_V: f64 = 1e-6;
/// What rounding may take off such a bound, as a share.
const ROUNDING: f64 = 1e-9;

impl Bounds {
    fn of(layout: &Layout, space: &StateSpace, known: &WorstStates, stage: usize) -> Bounds {
        let nodes = layout.stages[stage].parent.len();
        let of_phase = |(index, phase): (usize, &Phase)| {
            let open_v = phase.voltage_v[stage]?;
            let mut measured = vec![false; nodes];
            let mut lost_v = 0.0_f64;
            for device in known.devices.iter().filter(|device| device.at.stage == stage) {
                for margin in device.margins.iter().filter(|margin| margin.phase == index) {
                    measured[device.at.node] = true;
                    lost_v = lost_v.max(open_v - margin.lowest_v?);
                }
            }
            // Between a device and its source voltages are higher; a node beyond every device carries no current.
            let is_bounded = (0..nodes).all(|node| {
                let end = layout.stages[stage].subtree_end[node] as usize;
                measured[node]
                    || phase.base[stage].is_idle(node)
                    || (node + 1..end).any(|below| measured[below])
            });
            is_bounded.then_some((open_v, lost_v))
        };
        Bounds { phases: space.phases.iter().enumerate().map(of_phase).collect() }
    }

    /// How many times its current of today a load draws at most with all loads times a factor; `None` where that is not known.
    fn growth(&self, phase: usize, drop_v: f64, factor: f64) -> Option<f64> {
        let (open_v, lost_v) = self.phases[phase]?;
        let mut least_v = open_v;
        for _ in 0..MOST_STEPS {
            if least_v <= drop_v {
                return None;
            }
            let next_v = open_v - factor * lost_v * (open_v - drop_v) / (least_v - drop_v);
            let is_at_rest = least_v - next_v < REST_V;
            least_v = next_v;
            if is_at_rest {
                // Once more past the rest that is left, to the safe side.
                let safe_v = least_v - 1e3 * REST_V;
                return (safe_v > drop_v).then(|| factor * (open_v - drop_v) / (safe_v - drop_v));
            }
        }
        None
    }
}

/// The first limit of every stage; `None` where it has none that any load reaches, or collapses at today's load in some state.
pub(crate) fn first_limits(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    known: &WorstStates,
    memory: &Memory,
) -> Result<Vec<Option<FirstLimit>>, GivenUp> {
    (0..layout.stages.len())
        .into_par_iter()
        .map(|stage| {
            memory.check()?;
            // Where the voltage collapses today no limit is the first.
            let on_stage = known.devices.iter().filter(|device| device.at.stage == stage);
            if on_stage.flat_map(|device| &device.margins).any(|margin| margin.voltage_v.is_none()) {
                return Ok(None);
            }
            let mut candidates = candidates(site, layout, space, known, stage);
            candidates.sort_by(|a, b| a.nearness.total_cmp(&b.nearness));
            let key = key(layout, space, stage, &candidates);
            let bounds = Bounds::of(layout, space, known, stage);
            let search = || Search::new(layout, space, stage, &bounds).run(&candidates);
            let found = memory.first_limit(key, search);
            Ok(found.map(|(factor, place)| {
                let one = &candidates[place];
                FirstLimit {
                    factor,
                    limited: one.limited,
                    limit: one.limit,
                    phase: one.phase,
                    set: one.set.to_vec(),
                }
            }))
        })
        .collect()
}

fn candidates<'a>(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    known: &'a WorstStates,
    stage: usize,
) -> Vec<Candidate<'a>> {
    let mut all = Vec::new();
    for device in known.devices.iter().filter(|device| device.at.stage == stage) {
        for margin in &device.margins {
            let open_v = space.phases[margin.phase].voltage_v[stage].unwrap_or(0.0);
            let to_limit = open_v - margin.limit_v;
            let lost = open_v - margin.voltage_v.unwrap_or(0.0);
            all.push(Candidate {
                limited: Limited::Voltage(device.device),
                measure: Measure::Voltage { node: device.at.node },
                limit: margin.limit_v,
                phase: margin.phase,
                set: &margin.set,
                nearness: to_limit / lost.max(1e-9),
            });
        }
    }
    let (most_a, most_w) = match layout.stages[stage].source {
        StageSource::Supply(supply) => {
            let model = site.supply_model(&site.supplies[supply]);
            let rated_a = model.rated_current.value.as_amps();
            let trips = matches!(model.limit_kind.value, LimitKind::Hiccup | LimitKind::Trip);
            let trip_a = model.limit_current.as_ref().filter(|_| trips).map(|limit| limit.value.as_amps());
            let power_w = model.rated_power.as_ref().map(|power| power.value.as_watts());
            (Some(trip_a.map_or(rated_a, |trip_a| trip_a.min(rated_a))), power_w)
        }
        StageSource::Regenerator(index) => {
            let model = site.box_model(&site.boxes[index]);
            (None, model.output_power.as_ref().map(|power| power.value.as_watts()))
        }
    };
    if let (Some(limit), Some(current)) = (most_a, &known.source_current[stage]) {
        all.push(of_current(Limited::SourceCurrent, 0, limit, current));
    }
    if let Some(limit) = most_w {
        for power in known.source_power.iter().filter_map(|of_phase| of_phase[stage].as_ref()) {
            all.push(Candidate {
                limited: Limited::SourcePower,
                measure: Measure::Power { open_circuit_v: power.open_circuit_v },
                limit,
                phase: power.phase,
                set: &power.set,
                nearness: power.power_w.map_or(0.0, |power_w| limit / power_w.max(1e-9)),
            });
        }
    }
    for (run, at) in layout.run_start.iter().enumerate() {
        let (Some(at), Some(current)) = (at.filter(|at| at.stage == stage), &known.run_current[run]) else {
            continue;
        };
        if let Some(rating) = &site.cable(&site.runs[run]).current_rating {
            let limit_a = rating.value.as_amps() * site.runs[run].pairs_in_parallel();
            all.push(of_current(Limited::CableCurrent { run }, at.node, limit_a, current));
        }
        let RunStart::Port { box_index, .. } = site.runs[run].from else { continue };
        if let Some(limit) = &site.box_model(&site.boxes[box_index]).port_current_limit {
            let limit_a = limit.value.as_amps();
            all.push(of_current(Limited::PortCurrent { run }, at.node, limit_a, current));
        }
    }
    all
}

fn of_current(limited: Limited, node: usize, limit: f64, current: &CurrentState) -> Candidate<'_> {
    Candidate {
        limited,
        measure: Measure::Current { node },
        limit,
        phase: current.phase,
        set: &current.set,
        nearness: current.current_a.map_or(0.0, |current_a| limit / current_a.max(1e-9)),
    }
}

/// Everything that the answer depends on.
fn key(layout: &Layout, space: &StateSpace, stage: usize, candidates: &[Candidate<'_>]) -> Key {
    let mut phases: BTreeMap<usize, Key> = BTreeMap::new();
    let mut key = Fingerprint::new();
    key.count(candidates.len());
    for one in candidates {
        let phase = &space.phases[one.phase];
        key.key(*phases.entry(one.phase).or_insert_with(|| of_stage(layout, phase, stage).finish()));
        add_set(&mut key, layout, phase, stage, one.set);
        match one.measure {
            Measure::Voltage { node } => key.count(0).count(node),
            Measure::Current { node } => key.count(1).count(node),
            Measure::Power { open_circuit_v } => key.count(2).number(open_circuit_v),
        };
        key.number(one.limit);
    }
    key.finish()
}

/// The loads of one state and set, ready to be taken times a factor.
struct Loaded<'a> {
    phase: &'a Phase,
    loads: StageLoads,
}

struct Search<'a> {
    layout: &'a Layout,
    space: &'a StateSpace,
    stage: usize,
    bounds: &'a Bounds,
    solvers: BTreeMap<usize, Solver<'a>>,
    workspace: Workspace,
}

impl<'a> Search<'a> {
    fn new(layout: &'a Layout, space: &'a StateSpace, stage: usize, bounds: &'a Bounds) -> Self {
        Search { layout, space, stage, bounds, solvers: BTreeMap::new(), workspace: Workspace::new() }
    }

    /// Whether a limit holds with all loads times a factor, seen from its figure of today alone.
    fn surely_holds(&self, one: &Candidate<'_>, factor: f64) -> bool {
        if matches!(one.measure, Measure::Power { .. }) {
            return false;
        }
        let drops = &self.space.phases[one.phase].base[self.stage].drop_v;
        let drop_v = drops.iter().copied().fold(0.0, f64::max);
        let growth = self.bounds.growth(one.phase, drop_v, factor);
        growth.is_some_and(|growth| growth * (1.0 + ROUNDING) <= one.nearness)
    }

    /// The least factor and whose it is. Of what is nearest to its limit the factor is found first; of the others it is enough to see that
    /// they hold there.
    fn run(mut self, candidates: &[Candidate<'_>]) -> Option<(f64, usize)> {
        let mut least: Option<(f64, usize)> = None;
        for (place, one) in candidates.iter().enumerate() {
            let most = least.map_or(MOST, |(factor, _)| factor);
            if self.surely_holds(one, most) {
                continue;
            }
            let Some(loaded) = self.loaded(one) else { continue };
            if self.holds(one, &loaded, most) {
                continue;
            }
            least = Some((self.factor(one, &loaded, most), place));
        }
        least
    }

    /// The loads of a candidate; `None` where a stage that draws from this one collapses, so that they are not known.
    fn loaded(&mut self, one: &Candidate<'_>) -> Option<Loaded<'a>> {
        let (layout, stage, phase) = (self.layout, self.stage, &self.space.phases[one.phase]);
        let solver = self.solvers.entry(one.phase).or_insert_with(|| Solver::of_stage(layout, phase, stage));
        let own =
            [SetOutcome::Solved, SetOutcome::NoOperatingPoint { stage }, SetOutcome::Undecided { stage }];
        own.contains(&solver.solve_set(stage, one.set))
            .then(|| Loaded { phase, loads: solver.loads(stage).clone() })
    }

    /// The largest factor at which a limit holds that does not hold at `most`.
    fn factor(&mut self, one: &Candidate<'_>, loaded: &Loaded<'_>, most: f64) -> f64 {
        let (mut low, mut high) = (0.0, most);
        // From today's load on in doubled steps: the answer is seldom far from it.
        let mut step = 1.0;
        while step < high {
            if self.holds(one, loaded, step) {
                low = step;
                step *= 2.0;
            } else {
                high = step;
            }
        }
        while high - low > WIDTH * high && high > WIDTH {
            let middle = 0.5 * (low + high);
            if self.holds(one, loaded, middle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        low
    }

    /// Whether a limit holds with all loads times a factor; not where there is no operating point.
    fn holds(&mut self, one: &Candidate<'_>, loaded: &Loaded<'_>, factor: f64) -> bool {
        let mut loads = loaded.loads.clone();
        for load in loads.power_w.iter_mut().chain(&mut loads.current_a).chain(&mut loads.conductance_s) {
            *load *= factor;
        }
        let corner = loaded.phase.corner.index();
        let resistance_ohm = self.layout.stages[self.stage].resistance_ohm[corner][0];
        let voltage_v = match one.measure {
            Measure::Power { open_circuit_v } => Some(open_circuit_v),
            _ => loaded.phase.voltage_v[self.stage],
        };
        let Some(voltage_v) = voltage_v else { return true };
        let source = Source { voltage_v, resistance_ohm };
        let options = Options { tolerance_v: ENCLOSURE_V, ..Options::default() };
        let tree = &loaded.phase.trees[self.stage];
        let solved = solve(tree, &source, &loads.as_loads(), &mut self.workspace, &options);
        if !matches!(solved, Ok(Outcome::Solved(_))) {
            return false;
        }
        let volts = self.workspace.voltages_v();
        let current_a = |node: usize| -> f64 {
            let end = self.layout.stages[self.stage].subtree_end[node] as usize;
            (node..end).map(|node| loads.demand(node).current_at(volts[node], loads.drop_v[node])).sum()
        };
        match one.measure {
            Measure::Voltage { node } => volts[node] >= one.limit,
            Measure::Current { node } => current_a(node) <= one.limit,
            Measure::Power { open_circuit_v } => {
                let adverse_ohm = self.layout.stages[self.stage].resistance_ohm[Corner::Adverse.index()][0];
                let current_a = current_a(0);
                (open_circuit_v - adverse_ohm * current_a) * current_a <= one.limit
            }
        }
    }
}
