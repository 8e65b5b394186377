//! One stage with a fault, solved.
//!
//! The flow knows neither cut-off nor current limits. Here devices below their cut-off voltage are switched off, the lowest
//! first, and a source or port over its limit is replaced by its limit with everything behind it switched off, so that only
//! resistances are left. Where either happens the state is *unsettled*. A device that is off tries to start again and again, so a meter
//! shows something between its drawing nothing and its drawing what it would at its cut-off voltage: both are solved, and the
//! range between them is known at every place. Behind a limit what a meter shows is known only roughly.

mod draft;
mod finish;
mod newton;
mod settle;
mod solved;

pub(crate) use solved::StageSolved;

use crate::effect::Effect;
use crate::plant::{Plant, StateLoads};
use draft::Draft;
use latchline_circuit::flow::{Source, Workspace};
use latchline_network::Corner;

/// Solves a stage with a fault. `below`: for each converter of the stage, the power that it draws.
pub(crate) fn solve_stage(
    plant: &Plant<'_>,
    state: &StateLoads,
    index: usize,
    effects: &[Effect],
    converters_w: &[f64],
    has_power: bool,
    workspace: &mut Workspace,
) -> StageSolved {
    let laid = &plant.layout.stages[index];
    let nodes = laid.parent.len();
    let Some(voltage_v) = state.voltage_v[index].filter(|_| has_power) else {
        return StageSolved::dead(nodes);
    };
    let mut source = Source { voltage_v, resistance_ohm: laid.resistance_ohm[Corner::Nominal.index()][0] };
    let mut reversed = vec![false; nodes];
    let mut across: Vec<(usize, f64, f64)> = Vec::new();
    let mut cut_at = vec![false; nodes];
    let mut ohm = laid.resistance_ohm[Corner::Nominal.index()].clone();
    let mut loads = state.loads[index].clone();
    if !plant.drawn.is_empty() {
        source.voltage_v *= plant.times(&[plant.source[index]]);
        for (node, ohm) in ohm.iter_mut().enumerate() {
            *ohm += plant.segments[index][node].as_ref().map_or(0.0, |parts| plant.beyond_nominal_ohm(parts));
            let times = plant.times(&plant.loads[index][node]);
            loads.power_w[node] *= times;
            loads.current_a[node] *= times;
            loads.conductance_s[node] *= times;
        }
    }
    for (converter, watt) in laid.converters.iter().zip(converters_w) {
        loads.power_w[converter.node] += watt;
    }
    // What a fault does to the conductors it does to them as they were built.
    let copper = |node: usize| {
        plant.segments[index][node]
            .as_ref()
            .map_or(0.0, |parts| parts.copper_ohm * plant.times(&parts.copper))
    };
    let mut copper_times = vec![1.0; nodes];
    let mut extra_w = vec![0.0; nodes];
    for effect in effects.iter().filter(|effect| effect.touches(index, &plant.run_stage)) {
        match *effect {
            Effect::Series { at, ohm: extra } => ohm[at.node] += extra,
            Effect::Open { at } => cut_at[at.node] = true,
            Effect::Across { at, position, siemens } => across.push((at.node, position, siemens)),
            Effect::Extra { at, watt } => {
                loads.power_w[at.node] += watt;
                extra_w[at.node] += watt;
            }
            Effect::NoLoad { at } => {
                loads.power_w[at.node] = 0.0;
                loads.current_a[at.node] = 0.0;
                loads.conductance_s[at.node] = 0.0;
            }
            Effect::SourceVoltage { factor, .. } => source.voltage_v *= factor,
            Effect::SourceResistance { ohm, .. } => source.resistance_ohm += ohm,
            Effect::Dead { .. } => return StageSolved::dead(nodes),
            Effect::Conductors { run, factor } => {
                for at in plant.section[run].iter().flatten() {
                    copper_times[at.node] *= factor;
                }
            }
            Effect::Longer { at, factor } => copper_times[at.node] *= factor,
            Effect::Reversed { at } => reversed[at.node] = true,
            Effect::Capacitance { .. } | Effect::Earth { .. } => {}
        }
    }
    for (node, times) in copper_times.iter().enumerate().filter(|(_, times)| **times != 1.0) {
        ohm[node] += (times - 1.0) * copper(node);
    }
    ohm[0] = 0.0;
    let mut draft = Draft {
        parent: laid.parent.clone(),
        ohm,
        wanted: loads.clone(),
        loads,
        cut_off_v: plant.cut_off_v[index].clone(),
        of: (0..nodes).map(Some).collect(),
        cut: cut_at,
        off: vec![false; nodes],
        limited: Vec::new(),
    };
    for node in 1..nodes {
        let above = draft.parent[node] as usize;
        draft.cut[node] |= draft.cut[above];
        reversed[node] ^= reversed[above];
    }
    // From the last node on, so that the earlier ones keep their places.
    across.sort_by_key(|bridge| std::cmp::Reverse(bridge.0));
    for (node, position, siemens) in across {
        draft.bridge(node, position, siemens);
    }
    let mut solved = draft.settle(plant, index, source, workspace);
    for (voltage, _) in solved.voltage_v.iter_mut().zip(&reversed).filter(|(_, reversed)| **reversed) {
        *voltage = -*voltage;
    }
    StageSolved { copper_times, extra_w, ..solved }
}
