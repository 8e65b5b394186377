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
mod reduced;
mod settle;
mod solved;

pub(crate) use reduced::Reducible;
pub(crate) use solved::StageSolved;

use crate::effect::Effect;
use crate::plant::{Plant, StateLoads};
use draft::Draft;
use latchline_circuit::flow::{Source, Workspace};
use latchline_network::Corner;
use reduced::Reduced;
use std::collections::BTreeMap;

/// A stage as it feeds and is fed.
pub(crate) struct Fed<'f> {
    /// Index of the stage.
    pub index: usize,
    /// For each of its converters the power that it draws.
    pub converters_w: &'f [f64],
    /// Whether its source has power.
    pub has_power: bool,
    /// The stage without a fault, where it may be reduced to what a fault changes.
    pub reducible: Option<&'f Reducible>,
}

/// Solves a stage with a fault.
pub(crate) fn solve_stage(
    plant: &Plant<'_>,
    state: &StateLoads,
    fed: &Fed<'_>,
    effects: &[Effect],
    workspace: &mut Workspace,
) -> StageSolved {
    let nodes = plant.layout.stages[fed.index].parent.len();
    let is_dead = effects.contains(&Effect::Dead { stage: fed.index });
    let Some(voltage_v) = state.voltage_v[fed.index].filter(|_| fed.has_power && !is_dead) else {
        return StageSolved::dead(nodes);
    };
    solve_reduced(plant, fed, effects, workspace)
        .or_else(|| solve_whole(plant, state, fed, voltage_v, effects, workspace))
        .unwrap_or_else(|| StageSolved::dead(nodes))
}

/// Solves what the effects change of it; `None` where it has to be solved whole.
fn solve_reduced(
    plant: &Plant<'_>,
    fed: &Fed<'_>,
    effects: &[Effect],
    workspace: &mut Workspace,
) -> Option<StageSolved> {
    let reducible = fed.reducible?;
    let Reduced { mut draft, place } = reducible.reduced(plant, fed.index, effects, fed.converters_w)?;
    let mut source = reducible.source();
    let put = Put::of(plant, fed.index, effects, &mut draft, &mut source, &|node| place[node]);
    let mut solved = draft.settle(plant, fed.index, source, workspace)?;
    reducible.fill(&place, &mut solved)?;
    Some(put.finish(plant, fed.index, solved))
}

fn solve_whole(
    plant: &Plant<'_>,
    state: &StateLoads,
    fed: &Fed<'_>,
    voltage_v: f64,
    effects: &[Effect],
    workspace: &mut Workspace,
) -> Option<StageSolved> {
    let index = fed.index;
    let laid = &plant.layout.stages[index];
    let mut source = Source { voltage_v, resistance_ohm: laid.resistance_ohm[Corner::Nominal.index()][0] };
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
    ohm[0] = 0.0;
    for (converter, watt) in laid.converters.iter().zip(fed.converters_w) {
        loads.power_w[converter.node] += watt;
    }
    let mut draft = Draft::whole(laid.parent.clone(), ohm, loads, plant.cut_off_v[index].clone());
    let put = Put::of(plant, index, effects, &mut draft, &mut source, &Some);
    let solved = draft.settle(plant, index, source, workspace)?;
    Some(put.finish(plant, index, solved))
}

/// What effects make of a stage besides what its draft says.
#[derive(Default)]
struct Put {
    copper_times: BTreeMap<usize, f64>,
    extra_w: BTreeMap<usize, f64>,
    extra_s: BTreeMap<usize, f64>,
    reversed_at: Vec<usize>,
}

impl Put {
    /// Puts effects into a draft; `place`: where in it a node of the layout is.
    fn of(
        plant: &Plant<'_>,
        index: usize,
        effects: &[Effect],
        draft: &mut Draft,
        source: &mut Source,
        place: &dyn Fn(usize) -> Option<usize>,
    ) -> Put {
        let mut put = Put::default();
        let mut across: Vec<(usize, f64, f64)> = Vec::new();
        for effect in effects.iter().filter(|effect| effect.touches(index, &plant.run_stage)) {
            let at = |node: usize| place(node).unwrap_or(0);
            match *effect {
                Effect::Series { at: of, ohm } => draft.ohm[at(of.node)] += ohm,
                Effect::Open { at: of } => draft.cut[at(of.node)] = true,
                Effect::Across { at: of, position, siemens } => {
                    across.push((at(of.node), position, siemens));
                    if position >= 1.0 {
                        *put.extra_s.entry(of.node).or_default() += siemens;
                    }
                }
                Effect::Extra { at: of, watt } => {
                    draft.loads.power_w[at(of.node)] += watt;
                    *put.extra_w.entry(of.node).or_default() += watt;
                }
                Effect::NoLoad { at: of } => {
                    draft.loads.power_w[at(of.node)] = 0.0;
                    draft.loads.current_a[at(of.node)] = 0.0;
                    draft.loads.conductance_s[at(of.node)] = 0.0;
                }
                Effect::SourceVoltage { factor, .. } => source.voltage_v *= factor,
                Effect::SourceResistance { ohm, .. } => source.resistance_ohm += ohm,
                Effect::Conductors { run, factor } => {
                    for of in plant.section[run].iter().flatten() {
                        *put.copper_times.entry(of.node).or_insert(1.0) *= factor;
                    }
                }
                Effect::Longer { at: of, factor } => {
                    *put.copper_times.entry(of.node).or_insert(1.0) *= factor;
                }
                Effect::Reversed { at: of } => put.reversed_at.push(of.node),
                Effect::Dead { .. } | Effect::Capacitance { .. } | Effect::Earth { .. } => {}
            }
        }
        // What a fault does to the conductors it does to them as they were built.
        for (&node, times) in put.copper_times.iter().filter(|(node, _)| **node > 0) {
            let copper_ohm = plant.segments[index][node]
                .as_ref()
                .map_or(0.0, |parts| parts.copper_ohm * plant.times(&parts.copper));
            draft.ohm[place(node).unwrap_or(0)] += (times - 1.0) * copper_ohm;
        }
        draft.wanted = draft.loads.clone();
        for node in 1..draft.parent.len() {
            draft.cut[node] |= draft.cut[draft.parent[node] as usize];
        }
        // From the last node on, so that the earlier ones keep their places.
        across.sort_by_key(|bridge| std::cmp::Reverse(bridge.0));
        for (node, position, siemens) in across {
            draft.bridge(node, position, siemens);
        }
        put
    }

    fn finish(self, plant: &Plant<'_>, index: usize, mut solved: StageSolved) -> StageSolved {
        if !self.reversed_at.is_empty() {
            let parent = &plant.layout.stages[index].parent;
            let mut reversed = vec![false; parent.len()];
            self.reversed_at.iter().for_each(|node| reversed[*node] = !reversed[*node]);
            for node in 1..parent.len() {
                reversed[node] ^= reversed[parent[node] as usize];
            }
            for (voltage, _) in solved.voltage_v.iter_mut().zip(&reversed).filter(|(_, reversed)| **reversed)
            {
                *voltage = -*voltage;
            }
        }
        let Put { copper_times, extra_w, extra_s, .. } = self;
        StageSolved { copper_times, extra_w, extra_s, ..solved }
    }
}
