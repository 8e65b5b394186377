//! A stage while it is being put together and solved.

use super::{Problem, StageSolved};
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

/// A stage while it is being put together.
pub(super) struct Draft {
    pub parent: Vec<u32>,
    pub ohm: Vec<f64>,
    pub loads: StageLoads,
    pub cut_off_v: Vec<f64>,
    /// Node of the layout, for nodes that have one.
    pub of: Vec<Option<usize>>,
    pub cut: Vec<bool>,
    pub off: Vec<bool>,
    /// Nodes whose source is at its limit, with the current and the kind of the limit.
    pub limited: Vec<(usize, f64, LimitKind)>,
    /// What the devices would draw if all were on.
    pub wanted: StageLoads,
}

/// Voltage and current of every node of the draft.
struct Values {
    voltage_v: Vec<f64>,
    current_a: Vec<f64>,
}

impl Draft {
    /// Puts a conductance on the segment that leads to a node, with a node of its own unless it is at an end.
    pub fn bridge(&mut self, node: usize, position: f64, siemens: f64) {
        if position >= 1.0 || node == 0 {
            self.loads.conductance_s[node] += siemens;
            return;
        }
        if position <= 0.0 {
            self.loads.conductance_s[self.parent[node] as usize] += siemens;
            return;
        }
        let above = self.parent[node];
        for parent in &mut self.parent {
            if *parent as usize >= node {
                *parent += 1;
            }
        }
        let whole = self.ohm[node];
        self.parent.insert(node, above);
        self.parent[node + 1] = node as u32;
        self.ohm.insert(node, position * whole);
        self.ohm[node + 1] = (1.0 - position) * whole;
        self.loads.power_w.insert(node, 0.0);
        self.loads.current_a.insert(node, 0.0);
        self.loads.conductance_s.insert(node, siemens);
        self.loads.drop_v.insert(node, 0.0);
        self.wanted.power_w.insert(node, 0.0);
        self.wanted.current_a.insert(node, 0.0);
        self.wanted.conductance_s.insert(node, siemens);
        self.wanted.drop_v.insert(node, 0.0);
        self.cut_off_v.insert(node, 0.0);
        self.of.insert(node, None);
        let cut = self.cut[above as usize];
        self.cut.insert(node, cut);
        self.off.insert(node, false);
    }

    fn switch_off(&mut self, node: usize) {
        self.off[node] = true;
        self.loads.power_w[node] = 0.0;
        self.loads.current_a[node] = 0.0;
    }

    fn switch_off_below(&mut self, root: usize) {
        let mut inside = vec![false; self.parent.len()];
        inside[root] = true;
        self.switch_off(root);
        for node in root + 1..self.parent.len() {
            inside[node] = inside[self.parent[node] as usize];
            if inside[node] {
                self.switch_off(node);
            }
        }
    }

    /// Solves, switching off what cannot be on and limiting what is over its limit.
    pub fn settle(
        mut self,
        plant: &Plant<'_>,
        index: usize,
        source: Source,
        workspace: &mut Workspace,
    ) -> StageSolved {
        let count = self.parent.len();
        for node in 0..count {
            if self.cut[node] {
                self.loads.power_w[node] = 0.0;
                self.loads.current_a[node] = 0.0;
                self.loads.conductance_s[node] = 0.0;
            }
        }
        let Ok(tree) = Tree::new(self.parent.clone(), self.ohm.clone()) else {
            return StageSolved::dead(plant.layout.stages[index].parent.len());
        };
        let mut voltage_v = vec![0.0; count];
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
            let start_v = (fallen == Fallen::Near).then_some(&voltage_v[..]);
            if !is_solved_from(start_v, &tree, &source, &loads, workspace) {
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
            voltage_v.copy_from_slice(workspace.voltages_v());
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
        let off = Values { current_a: self.currents(&self.loads, &voltage_v), voltage_v };
        let hanging = self.hanging(&tree, &source, &off, workspace);
        self.finish(plant, index, tree, source, &off, hanging.as_ref())
    }

    /// Iterates voltages from the open-circuit voltage down. Loads that draw more at less voltage make every iterate an upper bound; what
    /// resistances draw is small here, and where it is not nothing is said.
    fn fall(&self, source: &Source, loads: &StageLoads, voltage_v: &mut [f64]) -> Fallen {
        if self.of.contains(&None) || loads.conductance_s.iter().any(|siemens| *siemens > MOST_SIEMENS) {
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

    /// Switches off the lower half of the devices below their cut-off voltage, the lowest first: with these off, others may hold.
    /// `false` if there is none.
    fn switch_off_lowest(&mut self, voltage_v: &[f64]) -> bool {
        let share = |node: usize| voltage_v[node] / self.cut_off_v[node];
        let mut low: Vec<usize> = (0..voltage_v.len())
            .filter(|node| !self.off[*node] && !self.cut[*node] && self.draws(*node))
            .filter(|node| voltage_v[*node] < self.cut_off_v[*node])
            .collect();
        low.sort_by(|a, b| share(*a).total_cmp(&share(*b)));
        low.truncate(low.len().div_ceil(2));
        low.iter().for_each(|node| self.switch_off(*node));
        !low.is_empty()
    }

    /// Conductance that draws at the cut-off voltage what a device would.
    fn conductance_at_cut_off(&self, node: usize) -> f64 {
        let (wanted, cut_off_v) = (&self.wanted, self.cut_off_v[node]);
        let behind_v = cut_off_v - wanted.drop_v[node];
        if behind_v <= 0.0 {
            return 0.0;
        }
        (wanted.power_w[node] / behind_v + wanted.current_a[node]) / cut_off_v
    }

    /// Voltages with resistances in place of the devices that are on.
    fn voltage_by_resistances(&self, source: &Source, voltage_v: &mut [f64]) {
        let mut below = self.loads.conductance_s.clone();
        for (node, sum) in below.iter_mut().enumerate() {
            if !self.off[node] && !self.cut[node] {
                *sum += self.conductance_at_cut_off(node);
            }
        }
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
        if !is_solved(tree, source, &outer, workspace) {
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
            if !is_solved(tree, source, &outer, workspace) {
                return None;
            }
        }
        let mut voltage_v = workspace.voltages_v().to_vec();
        for (node, value) in voltage_v.iter_mut().enumerate().filter(|(node, _)| is_limited[*node]) {
            *value = off.voltage_v[node];
        }
        Some(Values { current_a: self.currents(&loads, &voltage_v), voltage_v })
    }

    fn draws(&self, node: usize) -> bool {
        self.loads.power_w[node] > 0.0 || self.loads.current_a[node] > 0.0
    }

    /// What hangs beyond a bridge is the first that a fault puts out. `false` if there is no bridge.
    fn switch_off_beyond_bridges(&mut self) -> bool {
        let bridges: Vec<usize> = (0..self.of.len()).filter(|node| self.of[*node].is_none()).collect();
        for node in &bridges {
            self.switch_off_below(*node);
        }
        !bridges.is_empty()
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

    fn currents(&self, loads: &StageLoads, voltage_v: &[f64]) -> Vec<f64> {
        let loads = loads.as_loads();
        let mut current: Vec<f64> = (0..voltage_v.len())
            .map(|node| if self.cut[node] { 0.0 } else { loads.current_at(node, voltage_v[node], 1.0) })
            .collect();
        for &(node, limit_a, _) in &self.limited {
            current[node..].iter_mut().zip(node..).for_each(|(value, inside)| {
                if is_below(&self.parent, node, inside) {
                    *value = 0.0;
                }
            });
            current[node] = limit_a;
        }
        for node in (1..current.len()).rev() {
            let up = self.parent[node] as usize;
            current[up] += current[node];
        }
        current
    }

    fn finish(
        self,
        plant: &Plant<'_>,
        index: usize,
        tree: Tree,
        source: Source,
        off: &Values,
        hanging: Option<&Values>,
    ) -> StageSolved {
        let nodes = plant.layout.stages[index].parent.len();
        let mut limit: Vec<Option<LimitKind>> = vec![None; self.of.len()];
        for &(node, _, kind) in &self.limited {
            limit[node] = Some(kind);
        }
        for node in 1..limit.len() {
            limit[node] = limit[node].or(limit[self.parent[node] as usize]);
        }
        let mut node_of = vec![0; nodes];
        for (place, of) in self.of.iter().enumerate() {
            if let Some(of) = of {
                node_of[*of] = place;
            }
        }
        let mut first = node_of.clone();
        for (of, place) in node_of.iter().enumerate().skip(1) {
            let mut up = *place;
            while up > 0 && self.of[self.parent[up] as usize].is_none() {
                up = self.parent[up] as usize;
            }
            first[of] = up;
        }
        let hanging = hanging.unwrap_or(off);
        let is_any_limited = !self.limited.is_empty();
        let mut solved = StageSolved::dead(nodes);
        for of in 0..nodes {
            let place = node_of[of];
            solved.cut[of] = self.cut[place];
            solved.off[of] = self.off[place];
            solved.limited[of] = limit[place].is_some();
            // A meter shows something between the device being off and its trying to start.
            let (high_v, low_v) = (off.voltage_v[place], hanging.voltage_v[place]);
            let (high_a, low_a) = (hanging.current_a[first[of]], off.current_a[first[of]]);
            let (middle_v, middle_a) = (0.5 * (high_v + low_v), 0.5 * (high_a + low_a));
            solved.range_v[of] = (high_v - low_v).abs();
            let mut own_v = solved.range_v[of] / 12.0_f64.sqrt();
            let mut own_a = (high_a - low_a).abs() / 12.0_f64.sqrt();
            match limit[place] {
                Some(kind) => {
                    let (share, floor) = roughness(kind);
                    own_v = own_v.hypot(share * middle_v + floor * source.voltage_v);
                    own_a = own_a.hypot(0.3 * middle_a.abs() + 0.1);
                }
                None if is_any_limited => {
                    own_v = own_v.hypot(0.01 * source.voltage_v);
                    own_a = own_a.hypot(0.1 * middle_a.abs() + 0.02);
                }
                None => {}
            }
            if !self.cut[place] {
                solved.voltage_v[of] = middle_v;
                solved.own_v[of] = own_v;
            }
            solved.current_a[of] = middle_a;
            solved.own_a[of] = own_a;
        }
        let any_off = self.off.iter().zip(&self.cut).any(|(off, cut)| *off && !cut);
        solved.is_unsettled = any_off || is_any_limited;
        solved.is_dead = false;
        let voltage_v = off.voltage_v.clone();
        solved.problem = Some(Problem { tree, source, loads: self.loads, voltage_v, node: node_of, first });
        solved
    }
}

/// How far what is predicted behind a source at its limit may be wrong: as a share of the voltage there, and of the source's (assumed).
fn roughness(kind: LimitKind) -> (f64, f64) {
    match kind {
        LimitKind::Trip => (0.0, 0.01),
        LimitKind::ConstantCurrent => (0.3, 0.02),
        // The meter shows the pulses' mean, if any.
        LimitKind::Foldback | LimitKind::Hiccup => (0.5, 0.06),
    }
}

fn is_solved(tree: &Tree, source: &Source, loads: &StageLoads, workspace: &mut Workspace) -> bool {
    is_solved_from(None, tree, source, loads, workspace)
}

fn is_solved_from(
    start_v: Option<&[f64]>,
    tree: &Tree,
    source: &Source,
    loads: &StageLoads,
    workspace: &mut Workspace,
) -> bool {
    let options = Options { tolerance_v: 1e-6, start_v, ..Options::default() };
    matches!(solve(tree, source, &loads.as_loads(), workspace, &options), Ok(Outcome::Solved(_)))
}

fn is_below(parent: &[u32], root: usize, mut node: usize) -> bool {
    while node > root {
        node = parent[node] as usize;
    }
    node == root
}

fn clear_below(parent: &[u32], loads: &mut StageLoads, root: usize) {
    for node in root..parent.len() {
        if is_below(parent, root, node) {
            loads.power_w[node] = 0.0;
            loads.current_a[node] = 0.0;
            loads.conductance_s[node] = 0.0;
        }
    }
}

/// The current limit of what a node is: a supply's output or a limited port.
fn limit_of(plant: &Plant<'_>, laid: &latchline_network::Stage, node: usize) -> Option<(f64, LimitKind)> {
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
