//! A stage reduced to what a fault changes: the way from the source to it and all that hangs behind it.
//!
//! Everything else is the same for every fault, and sees it by the voltage alone at the place where it hangs. What such a part draws is known to second
//! order around its voltage without a fault: of a segment of `R` ohm with a demand `D(v)` at its end, what it draws as a function of the voltage `u`
//! before it has the derivatives `D'/(1 + R D')` and `D''/(1 + R D')^3` (implicit differentiation of `i = D(u - R i)`). It is put in as one load of
//! constant power, current and conductance with that value, slope and curvature. Where a part moves farther than [`FARTHEST`], or anything in it would go
//! off or over its limit, the whole stage is solved instead.

use super::draft::{Draft, Part};
use super::settle::limit_of;
use super::solved::{Problem, StageSolved};
use crate::effect::Effect;
use crate::plant::Plant;
use latchline_circuit::flow::Source;
use latchline_network::phase::StageLoads;

/// Farthest that the voltage of a part may move, as a share of the source's. What is left out is of third order, and nothing at all for constant powers
/// at one place.
const FARTHEST: f64 = 0.2;
/// A stage with fewer nodes is solved whole as soon.
const LEAST_NODES: usize = 24;
/// Nor is one reduced of which more than this share is the way or behind the fault.
const MOST_ACTIVE: f64 = 0.6;

/// A current as a function of a voltage, to second order at one voltage.
#[derive(Debug, Clone, Copy, Default)]
struct Drawn {
    ampere: f64,
    /// Amperes per volt.
    slope: f64,
    /// Amperes per volt squared.
    curvature: f64,
}

/// A load that draws constant power, constant current and what a conductance does.
#[derive(Debug, Clone, Copy, Default)]
struct Load {
    power_w: f64,
    current_a: f64,
    conductance_s: f64,
}

impl Drawn {
    fn of_load(loads: &StageLoads, node: usize, voltage_v: f64) -> Drawn {
        let mut drawn = Drawn {
            ampere: loads.current_a[node] + loads.conductance_s[node] * voltage_v,
            slope: loads.conductance_s[node],
            curvature: 0.0,
        };
        let behind_v = voltage_v - loads.drop_v[node];
        if loads.power_w[node] > 0.0 && behind_v > 0.0 {
            let power_a = loads.power_w[node] / behind_v;
            drawn.ampere += power_a;
            drawn.slope -= power_a / behind_v;
            drawn.curvature += 2.0 * power_a / (behind_v * behind_v);
        }
        drawn
    }

    fn add(&mut self, other: Drawn, times: f64) {
        self.ampere += times * other.ampere;
        self.slope += times * other.slope;
        self.curvature += times * other.curvature;
    }

    /// The load with this current, slope and curvature at a voltage.
    fn load(self, at_v: f64) -> Load {
        let power_w = (0.5 * self.curvature * at_v.powi(3)).max(0.0);
        let conductance_s = self.slope + power_w / (at_v * at_v);
        let current_a = self.ampere - power_w / at_v - conductance_s * at_v;
        Load { power_w, current_a, conductance_s }
    }
}

impl Load {
    fn ampere(self, at_v: f64) -> f64 {
        self.power_w / at_v + self.current_a + self.conductance_s * at_v
    }
}

/// A stage without a fault, ready to be reduced.
#[derive(Debug, Clone)]
pub(crate) struct Reducible {
    parent: Vec<u32>,
    subtree_end: Vec<u32>,
    ohm: Vec<f64>,
    loads: StageLoads,
    source: Source,
    voltage_v: Vec<f64>,
    cut_off_v: Vec<f64>,
    /// What the segment that leads to a node draws, of the voltage before it.
    through: Vec<Drawn>,
    /// The same as a load.
    through_load: Vec<Load>,
    /// What all segments that leave a node draw, of its voltage.
    beyond: Vec<Drawn>,
    children: Vec<u32>,
    /// Nodes with a limit, in amperes.
    limits_a: Vec<(usize, f64)>,
    converters_w: Vec<f64>,
    /// The highest cut-off voltage of its devices.
    highest_cut_off_v: f64,
}

/// What of a stage is solved for one fault.
pub(super) struct Reduced {
    pub draft: Draft,
    /// Place in the draft of every node that is in it.
    pub place: Vec<Option<usize>>,
}

impl Reducible {
    /// Of a stage that was solved without a fault; `None` where it is too small, or does not settle.
    pub fn new(plant: &Plant<'_>, index: usize, sound: &StageSolved, converters_w: &[f64]) -> Option<Self> {
        let laid = &plant.layout.stages[index];
        let count = laid.parent.len();
        if count < LEAST_NODES || sound.is_dead || sound.is_unsettled {
            return None;
        }
        let Problem { tree, source, loads, voltage_v, .. } = sound.problem.as_ref()?;
        let (parent, ohm) = (tree.parents().to_vec(), tree.resistances_ohm().to_vec());
        if parent.len() != count {
            return None;
        }
        let mut through = vec![Drawn::default(); count];
        let mut beyond = vec![Drawn::default(); count];
        let mut children = vec![0; count];
        for node in (1..count).rev() {
            let mut demand = beyond[node];
            demand.add(Drawn::of_load(loads, node, voltage_v[node]), 1.0);
            let passed = 1.0 + ohm[node] * demand.slope;
            if passed <= 0.0 {
                return None;
            }
            through[node] = Drawn {
                ampere: demand.ampere,
                slope: demand.slope / passed,
                curvature: demand.curvature / passed.powi(3),
            };
            let up = parent[node] as usize;
            beyond[up].add(through[node], 1.0);
            children[up] += 1;
        }
        let before_v = |node: usize| voltage_v[parent[node] as usize];
        let through_load = (0..count).map(|node| through[node].load(before_v(node).max(1.0))).collect();
        let cut_off_v = plant.cut_off_v[index].clone();
        let limit = |node: usize| limit_of(plant, laid, node).map(|(limit_a, _)| (node, limit_a));
        Some(Reducible {
            highest_cut_off_v: cut_off_v.iter().copied().fold(1.0, f64::max),
            parent,
            subtree_end: laid.subtree_end.clone(),
            ohm,
            loads: loads.clone(),
            source: *source,
            voltage_v: voltage_v.clone(),
            cut_off_v,
            through,
            through_load,
            beyond,
            children,
            limits_a: (1..count).filter_map(limit).collect(),
            converters_w: converters_w.to_vec(),
        })
    }

    /// The stage reduced to what these effects change; `None` where that is most of it, or its source.
    pub(super) fn reduced(
        &self,
        plant: &Plant<'_>,
        index: usize,
        effects: &[Effect],
        converters_w: &[f64],
    ) -> Option<Reduced> {
        let count = self.parent.len();
        let mut is_active = vec![false; count];
        let mut touch = |node: usize| {
            is_active[node..self.subtree_end[node] as usize].fill(true);
            let mut up = node;
            while up > 0 {
                up = self.parent[up] as usize;
                is_active[up] = true;
            }
        };
        for effect in effects.iter().filter(|effect| effect.touches(index, &plant.run_stage)) {
            match *effect {
                Effect::Series { at, .. }
                | Effect::Open { at }
                | Effect::Across { at, .. }
                | Effect::Extra { at, .. }
                | Effect::NoLoad { at }
                | Effect::Longer { at, .. }
                | Effect::Reversed { at } => touch(at.node),
                Effect::Conductors { run, .. } => {
                    plant.section[run].iter().flatten().for_each(|at| touch(at.node));
                }
                Effect::SourceVoltage { .. } | Effect::SourceResistance { .. } | Effect::Dead { .. } => {
                    return None;
                }
                Effect::Capacitance { .. } | Effect::Earth { .. } => {}
            }
        }
        let converters = &plant.layout.stages[index].converters;
        for ((converter, now_w), sound_w) in converters.iter().zip(converters_w).zip(&self.converters_w) {
            if now_w != sound_w {
                touch(converter.node);
            }
        }
        let active = is_active.iter().filter(|one| **one).count();
        if active as f64 > MOST_ACTIVE * count as f64 {
            return None;
        }
        Some(self.draft(plant, index, &is_active, active, converters_w))
    }

    fn draft(
        &self,
        plant: &Plant<'_>,
        index: usize,
        is_active: &[bool],
        active: usize,
        converters_w: &[f64],
    ) -> Reduced {
        let count = self.parent.len();
        let mut place: Vec<Option<usize>> = vec![None; count];
        let mut draft = Draft::with_room(2 * active);
        let nodes: Vec<usize> = (0..count).filter(|node| is_active[*node]).collect();
        // What leaves every one of them and is no part of the draft; until the draft has places, a node's is its rank.
        nodes.iter().enumerate().for_each(|(rank, node)| place[*node] = Some(rank));
        let mut rest: Vec<(Drawn, i64)> = vec![(Drawn::default(), 0); nodes.len()];
        for (rank, &node) in nodes.iter().enumerate().rev() {
            rest[rank].0.add(self.beyond[node], 1.0);
            rest[rank].1 += i64::from(self.children[node]);
            if let Some(above) = place[self.parent[node] as usize].filter(|_| node > 0) {
                rest[above].0.add(self.through[node], -1.0);
                rest[above].1 -= 1;
            }
        }
        for (&node, (part, segments)) in nodes.iter().zip(rest) {
            let here = draft.parent.len();
            place[node] = Some(here);
            let above = place[self.parent[node] as usize].unwrap_or(0);
            let load = [
                self.loads.power_w[node],
                self.loads.current_a[node],
                self.loads.conductance_s[node],
                self.loads.drop_v[node],
            ];
            draft.push(above as u32, self.ohm[node], load, self.cut_off_v[node], Some(node));
            if segments > 0 {
                let part = part.load(self.voltage_v[node]);
                let at_cut_off_s = (part.ampere(self.highest_cut_off_v) / self.highest_cut_off_v).max(0.0);
                draft.parts.push(Part { node: draft.parent.len(), at_cut_off_s });
                let load = [part.power_w, part.current_a, part.conductance_s, 0.0];
                draft.push(here as u32, 0.0, load, 0.0, None);
            }
        }
        let converters = &plant.layout.stages[index].converters;
        for ((converter, now_w), sound_w) in converters.iter().zip(converters_w).zip(&self.converters_w) {
            if let Some(at) = place[converter.node].filter(|_| now_w != sound_w) {
                draft.loads.power_w[at] = (draft.loads.power_w[at] + now_w - sound_w).max(0.0);
            }
        }
        Reduced { draft, place }
    }

    /// The source of the stage without a fault.
    pub fn source(&self) -> Source {
        self.source
    }

    /// Fills in what is not in the draft; `None` where a part moved too far, or something in it would go off or over its limit.
    pub(super) fn fill(&self, place: &[Option<usize>], solved: &mut StageSolved) -> Option<()> {
        let is_any_limited = solved.limited.contains(&true);
        let farthest_v = FARTHEST * self.source.voltage_v;
        let spread = 12.0_f64.sqrt();
        for (node, _) in place.iter().enumerate().skip(1).filter(|(_, place)| place.is_none()) {
            let up = self.parent[node] as usize;
            let (above_v, range_v) = (solved.voltage_v[up], solved.range_v[up]);
            let change_v = above_v - self.voltage_v[up];
            if change_v.abs() + range_v > farthest_v {
                return None;
            }
            let current_a = self.through_load[node].ampere(above_v);
            let voltage_v = above_v - self.ohm[node] * current_a;
            let draws = self.loads.power_w[node] > 0.0 || self.loads.current_a[node] > 0.0;
            let slope = self.through[node].slope;
            let own_range_v = (1.0 - self.ohm[node] * slope).abs() * range_v;
            if draws && voltage_v - own_range_v < self.cut_off_v[node] {
                return None;
            }
            solved.voltage_v[node] = voltage_v;
            solved.current_a[node] = current_a;
            solved.range_v[node] = own_range_v;
            solved.own_v[node] = own_range_v / spread;
            solved.own_a[node] = slope.abs() * range_v / spread;
            solved.cut[node] = false;
            if is_any_limited {
                solved.own_v[node] = solved.own_v[node].hypot(0.01 * self.source.voltage_v);
                solved.own_a[node] = solved.own_a[node].hypot(0.1 * current_a.abs() + 0.02);
            }
        }
        let is_over = |(node, limit_a): &(usize, f64)| {
            place[*node].is_none() && solved.current_a[*node] > 1.05 * limit_a
        };
        (!self.limits_a.iter().any(is_over)).then_some(())
    }
}
