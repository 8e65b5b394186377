//! Finding what is on and what is limited on a stage with a fault, by solving again and again.

use super::draft::{Draft, Values, clear_below};
use super::newton::{Found, Scratch, greatest};
use super::solved::StageSolved;
use crate::plant::Plant;
use latchline_circuit::flow::{Options, Outcome, Source, Tree, Workspace, solve};
use latchline_network::phase::StageLoads;
use latchline_network::{StageNode, StageSource};
use latchline_site::catalogue::{BoxKind, LimitKind};

/// Rounds of switching devices off before all are.
const MOST_ROUNDS: usize = 12;

/// Sweeps of an iteration from above, and the change in volts at which it is near enough.
const MOST_SWEEPS: usize = 12;
const NEAR_V: f64 = 1e-3;

/// A conductance above this is a fault of which an iteration would swing.
const MOST_SIEMENS: f64 = 0.02;

/// Where an iteration from above ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fallen {
    /// Near the solution, or on the way to it.
    Near,
    /// A device that is on is below its cut-off voltage.
    Below,
    /// It says nothing.
    Unknown,
}

impl Draft {
    /// Solves, switching off what cannot be on and limiting what is over its limit; `None` where that concerns parts of the stage that are not
    /// in the draft.
    pub fn settle(
        mut self,
        plant: &Plant<'_>,
        index: usize,
        source: Source,
        workspace: &mut Workspace,
    ) -> Option<StageSolved> {
        let count = self.parent.len();
        for node in 0..count {
            if self.cut[node] {
                self.loads.power_w[node] = 0.0;
                self.loads.current_a[node] = 0.0;
                self.loads.conductance_s[node] = 0.0;
            }
        }
        let Ok(tree) = Tree::new(self.parent.clone(), self.ohm.clone()) else {
            return Some(StageSolved::dead(plant.layout.stages[index].parent.len()));
        };
        let mut voltage_v = vec![0.0; count];
        let mut scratch = Scratch::default();
        for round in 0..=MOST_ROUNDS {
            let mut loads = self.loads.clone();
            for &(node, limit_a, _) in &self.limited {
                clear_below(&self.parent, &mut loads, node);
                if node > 0 {
                    loads.current_a[node] = limit_a;
                }
            }
            // What is below its cut-off in an iterate from above is so in the solution, if there is any: Newton is spared for networks that
            // have none, and begins near by for those that have one.
            let fallen = self.fall(&source, &loads, &mut voltage_v);
            if fallen == Fallen::Below && round < MOST_ROUNDS {
                if !self.limit(plant, index, &voltage_v) {
                    self.switch_off_lowest(&voltage_v);
                }
                continue;
            }
            if fallen != Fallen::Near {
                voltage_v.fill(source.voltage_v);
            }
            if !is_solved(&tree, &source, &loads, &mut voltage_v, &mut scratch, workspace) {
                if round == 0 && self.switch_off_beyond_bridges() {
                    continue;
                }
                // Which cannot be on: where resistances that draw at its cut-off voltage what each device would, leave less than that. All
                // above it would be a solution, since above it a resistance draws more than the device.
                self.voltage_by_resistances(&source, &mut voltage_v);
                if round + 1 >= MOST_ROUNDS || !self.switch_off_lowest(&voltage_v) {
                    self.switch_off_below(0);
                }
                if round == MOST_ROUNDS {
                    break;
                }
                continue;
            }
            for place in 0..self.limited.len() {
                let (node, limit_a, _) = self.limited[place];
                self.fill_limited(node, limit_a, source.voltage_v, &mut voltage_v);
            }
            if self.limit(plant, index, &voltage_v) {
                continue;
            }
            if round == MOST_ROUNDS || !self.switch_off_lowest(&voltage_v) {
                break;
            }
        }
        if self.is_any_part_off() {
            return None;
        }
        let off = Values { current_a: self.currents(&self.loads, &voltage_v), voltage_v };
        let hanging = self.hanging(&tree, &source, &off, &mut scratch, workspace);
        Some(self.finish(plant, index, tree, source, &off, hanging.as_ref()))
    }

    /// Iterates voltages from the open-circuit voltage down. Loads that draw more at less voltage make every iterate an upper bound; what
    /// resistances draw is small here, and where it is not nothing is said.
    fn fall(&self, source: &Source, loads: &StageLoads, voltage_v: &mut [f64]) -> Fallen {
        if self.has_bridge() || loads.conductance_s.iter().any(|siemens| *siemens > MOST_SIEMENS) {
            return Fallen::Unknown;
        }
        let count = voltage_v.len();
        let mut current = vec![0.0; count];
        voltage_v.fill(source.voltage_v);
        for _ in 0..MOST_SWEEPS {
            for node in 0..count {
                let above_v = voltage_v[node] - loads.drop_v[node];
                let power_a = if loads.power_w[node] > 0.0 { loads.power_w[node] / above_v } else { 0.0 };
                current[node] = power_a + loads.current_a[node] + loads.conductance_s[node] * voltage_v[node];
            }
            for node in (1..count).rev() {
                current[self.parent[node] as usize] += current[node];
            }
            let mut change_v = 0.0_f64;
            let (mut is_below, mut is_lost) = (false, false);
            for node in 0..count {
                let new_v = match node {
                    0 => source.voltage_v - source.resistance_ohm * current[0],
                    _ => voltage_v[self.parent[node] as usize] - self.ohm[node] * current[node],
                };
                change_v = change_v.max((new_v - voltage_v[node]).abs());
                voltage_v[node] = new_v;
                if loads.power_w[node] > 0.0 || loads.current_a[node] > 0.0 {
                    is_below |= new_v < self.cut_off_v[node] && !self.off[node];
                    is_lost |= new_v - loads.drop_v[node] < 0.05 * source.voltage_v;
                }
            }
            if is_below {
                return Fallen::Below;
            }
            if is_lost {
                return Fallen::Unknown;
            }
            if change_v < NEAR_V {
                return Fallen::Near;
            }
        }
        Fallen::Near
    }

    /// Voltages with resistances in place of the devices that are on.
    fn voltage_by_resistances(&self, source: &Source, voltage_v: &mut [f64]) {
        let mut below = self.loads.conductance_s.clone();
        for (node, sum) in below.iter_mut().enumerate() {
            if !self.off[node] && !self.cut[node] {
                *sum += self.conductance_at_cut_off(node);
            }
        }
        self.parts.iter().for_each(|part| below[part.node] = part.at_cut_off_s);
        for node in (1..below.len()).rev() {
            if !self.cut[node] {
                below[self.parent[node] as usize] += below[node] / (1.0 + self.ohm[node] * below[node]);
            }
        }
        voltage_v[0] = source.voltage_v / (1.0 + source.resistance_ohm * below[0]);
        for node in 1..below.len() {
            voltage_v[node] = voltage_v[self.parent[node] as usize] / (1.0 + self.ohm[node] * below[node]);
        }
    }

    /// What there is while the devices that are off try to start: each draws what it would at its cut-off voltage. `None` where none is
    /// off but by a limit.
    fn hanging(
        &self,
        tree: &Tree,
        source: &Source,
        off: &Values,
        scratch: &mut Scratch,
        workspace: &mut Workspace,
    ) -> Option<Values> {
        let mut is_limited = vec![false; self.parent.len()];
        for node in 0..is_limited.len() {
            is_limited[node] = self.limited.iter().any(|(root, ..)| *root == node)
                || (node > 0 && is_limited[self.parent[node] as usize]);
        }
        let mut loads = self.loads.clone();
        let mut is_any = false;
        for (node, is_limited) in is_limited.iter().enumerate() {
            if self.off[node] && !self.cut[node] && !is_limited {
                let conductance_s = self.conductance_at_cut_off(node);
                is_any |= conductance_s > 0.0;
                loads.conductance_s[node] += conductance_s;
            }
        }
        if !is_any {
            return None;
        }
        let mut outer = loads.clone();
        for &(node, limit_a, _) in &self.limited {
            clear_below(&self.parent, &mut outer, node);
            if node > 0 {
                outer.current_a[node] = limit_a;
            }
        }
        let mut voltage_v = vec![source.voltage_v; self.parent.len()];
        if !is_solved(tree, source, &outer, &mut voltage_v, scratch, workspace) {
            // With these the others would go out too: resistances instead.
            for load in [&mut loads, &mut outer] {
                for (node, above_v) in off.voltage_v.iter().enumerate().filter(|(_, above_v)| **above_v > 0.0)
                {
                    let behind_v = above_v - load.drop_v[node];
                    if load.power_w[node] > 0.0 && behind_v > 0.0 {
                        load.conductance_s[node] += load.power_w[node] / (behind_v * above_v);
                    }
                    load.power_w[node] = 0.0;
                }
            }
            voltage_v.fill(source.voltage_v);
            if !is_solved(tree, source, &outer, &mut voltage_v, scratch, workspace) {
                return None;
            }
        }
        for (node, value) in voltage_v.iter_mut().enumerate().filter(|(node, _)| is_limited[*node]) {
            *value = off.voltage_v[node];
        }
        Some(Values { current_a: self.currents(&loads, &voltage_v), voltage_v })
    }

    /// Puts the first source or port that is over its limit to its limit; whether there was one.
    fn limit(&mut self, plant: &Plant<'_>, index: usize, voltage_v: &[f64]) -> bool {
        let current = self.currents(&self.loads, voltage_v);
        let laid = &plant.layout.stages[index];
        for node in (0..self.of.len()).rev() {
            if self.limited.iter().any(|(known, ..)| *known == node) {
                continue;
            }
            let Some(place) = self.of[node] else { continue };
            let Some((limit_a, kind)) = limit_of(plant, laid, place) else { continue };
            // A limit acts somewhat above what is stated.
            if current[node] > 1.05 * limit_a {
                let holds_a = match kind {
                    LimitKind::ConstantCurrent => limit_a,
                    LimitKind::Foldback => 0.5 * limit_a,
                    LimitKind::Hiccup | LimitKind::Trip => 0.0,
                };
                self.switch_off_below(node);
                self.limited.push((node, holds_a, kind));
                return true;
            }
        }
        false
    }

    /// The voltages behind a source at its limit.
    fn fill_limited(&self, root: usize, limit_a: f64, open_v: f64, voltage_v: &mut [f64]) {
        let below = self.conductance_below(root);
        let at_root = if below[root] > 0.0 { limit_a / below[root] } else { open_v };
        voltage_v[root] = at_root.min(open_v);
        let mut inside = vec![false; self.parent.len()];
        inside[root] = true;
        for node in root + 1..self.parent.len() {
            let above = self.parent[node] as usize;
            inside[node] = inside[above];
            if inside[node] {
                voltage_v[node] = voltage_v[above] / (1.0 + self.ohm[node] * below[node]);
            }
        }
    }

    /// Resistive conductance of a node with all that hangs on it.
    fn conductance_below(&self, root: usize) -> Vec<f64> {
        let mut sum = self.loads.conductance_s.clone();
        for node in (root + 1..self.parent.len()).rev() {
            let passed = sum[node] / (1.0 + self.ohm[node] * sum[node]);
            sum[self.parent[node] as usize] += passed;
        }
        sum
    }
}

/// Whether there are voltages with these loads; they are written over the start, an upper bound of them or near them.
fn is_solved(
    tree: &Tree,
    source: &Source,
    loads: &StageLoads,
    voltage_v: &mut [f64],
    scratch: &mut Scratch,
    workspace: &mut Workspace,
) -> bool {
    let (parent, ohm) = (tree.parents(), tree.resistances_ohm());
    if greatest(parent, ohm, source, loads, voltage_v, scratch) == Found::Solution {
        return true;
    }
    voltage_v.fill(source.voltage_v);
    match greatest(parent, ohm, source, loads, voltage_v, scratch) {
        Found::Solution => true,
        Found::Nothing => false,
        Found::Unclear => {
            let options = Options { tolerance_v: 1e-6, ..Options::default() };
            let solved = solve(tree, source, &loads.as_loads(), workspace, &options);
            let is_solved = matches!(solved, Ok(Outcome::Solved(_)));
            if is_solved {
                voltage_v.copy_from_slice(workspace.voltages_v());
            }
            is_solved
        }
    }
}

/// The current limit of what a node is: a supply's output or a limited port.
pub(super) fn limit_of(
    plant: &Plant<'_>,
    laid: &latchline_network::Stage,
    node: usize,
) -> Option<(f64, LimitKind)> {
    let site = plant.site;
    match laid.terminal[node] {
        StageNode::Source => {
            let StageSource::Supply(supply) = laid.source else { return None };
            let model = site.supply_model(&site.supplies[supply]);
            let limit = model.limit_current.as_ref().unwrap_or(&model.rated_current);
            Some((limit.value.as_amps(), model.limit_kind.value))
        }
        StageNode::Port { box_index, .. } => {
            let model = site.box_model(&site.boxes[box_index]);
            if model.kind.value == BoxKind::Transparent {
                return None;
            }
            let limit = model.port_current_limit.as_ref()?.value.as_amps();
            Some((
                limit,
                model.port_limit_kind.as_ref().map_or(LimitKind::ConstantCurrent, |kind| kind.value),
            ))
        }
        _ => None,
    }
}
