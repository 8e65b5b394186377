//! The largest power at the terminals of what feeds a stage.
//!
//! It has a worst corner of its own. Conductors are hot and long and loads at the upper end of their tolerance, as for the
//! lowest voltages; but where constant power alone is drawn, losses are largest at the low end of the source's voltage, and
//! a constant current takes most at its high end. Where there is any constant current (resistive loads are bounded by one)
//! the calls are searched at both ends and the larger power is taken. Between the ends it is not searched: the power that one load of
//! constant power and constant current behind a resistance takes is convex in the source's voltage as long as the loaded
//! voltage follows it at less than twice its step, so within reach of collapse alone could something between be more.

use crate::corner::Corner;
use crate::layout::{Layout, StageSource};
use crate::memory::{Key, Memory};
use crate::phase::Phase;
use crate::search::SearchOptions;
use crate::stage_calls::StageCalls;
use crate::stage_search::{StageTask, key_of_calls};
use crate::state_space::StateSpace;
use latchline_finding::StateKind;

/// Power at the terminals of a source in one state.
#[derive(Debug, Clone, PartialEq)]
pub struct PowerState {
    /// Index into [`StateSpace::phases`].
    pub phase: usize,
    /// Call options that stand.
    pub set: Vec<usize>,
    /// Voltage of the source without load, at the end of its tolerance where the power is largest.
    pub open_circuit_v: f64,
    /// Power in watts; `None` without operating point.
    pub power_w: Option<f64>,
    /// Whether no set can be worse by more than the search's tolerance.
    pub complete: bool,
}

impl PowerState {
    /// The one of the larger power, the first where they are equal; without operating point is larger than any.
    pub(crate) fn larger(self, other: PowerState) -> PowerState {
        let size = |one: &PowerState| one.power_w.unwrap_or(f64::INFINITY);
        if size(&other) > size(&self) { other } else { self }
    }
}

/// Power at the terminals of a stage's source, where the current is so large: it grows with the current as long as the
/// terminals are above half of the open-circuit voltage.
pub(crate) fn at_terminals(layout: &Layout, stage: usize, open_circuit_v: f64, current_a: f64) -> f64 {
    let resistance_ohm = layout.stages[stage].resistance_ohm[Corner::Adverse.index()][0];
    (open_circuit_v - resistance_ohm * current_a) * current_a
}

/// A state with one source at the highest voltage that it can have; `None` where power is largest at its lowest, or it has
/// but one.
pub(crate) fn at_highest_voltage(layout: &Layout, phase: &Phase, stage: usize) -> Option<Phase> {
    let is_battery =
        phase.kind == StateKind::BatteryEnd && matches!(layout.stages[stage].source, StageSource::Supply(_));
    let own = phase.voltage_v[stage]?;
    let highest = layout.stages[stage].voltage_v[Corner::Light.index()];
    if is_battery || !phase.has_current[stage] || highest <= own {
        return None;
    }
    let mut phase = phase.clone();
    phase.voltage_v[stage] = Some(highest);
    Some(phase)
}

/// The current of the source alone, as something to look for.
pub(crate) fn task<'a>(
    layout: &'a Layout,
    phase: &'a Phase,
    stage: usize,
    (calls, calls_key): (&StageCalls, Key),
    options: &SearchOptions,
) -> StageTask<'a> {
    let (calls, devices, current_nodes) = (calls.clone(), Vec::new(), vec![0]);
    StageTask { layout, phase, stage, calls, calls_key, devices, current_nodes, options: *options }
}

/// The largest power of a stage's source while so many calls stand at once, at most as many as the family allows; `None` without calls.
pub fn of_calls(
    layout: &Layout,
    space: &StateSpace,
    stage: usize,
    at_once: usize,
    options: &SearchOptions,
    memory: &Memory,
) -> Option<PowerState> {
    let index = space.phases.iter().position(|phase| phase.kind == StateKind::Call)?;
    let most_calls = at_once.min(space.phases[index].most_calls);
    let low = Phase { most_calls, most_releases: 0, ..space.phases[index].clone() };
    let calls = StageCalls::of_stage(layout, &low, stage);
    let calls_key = key_of_calls(layout, &low, stage, &calls);
    let at = |phase: &Phase| -> Option<PowerState> {
        let open_circuit_v = phase.voltage_v[stage]?;
        let task = task(layout, phase, stage, (&calls, calls_key), options);
        let found = memory.states(task.fingerprint(), || task.run());
        let current = found.currents.first()?;
        Some(PowerState {
            phase: index,
            set: current.set.iter().map(|option| task.calls.options[*option]).collect(),
            open_circuit_v,
            power_w: current
                .current_a
                .map(|current_a| at_terminals(layout, stage, open_circuit_v, current_a)),
            complete: current.complete,
        })
    };
    let high = at_highest_voltage(layout, &low, stage).and_then(|phase| at(&phase));
    let low = at(&low)?;
    Some(high.map_or_else(|| low.clone(), |high| low.clone().larger(high)))
}
