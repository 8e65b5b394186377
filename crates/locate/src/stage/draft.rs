//! A stage while it is being put together and solved.

use super::{Problem, StageSolved};
use crate::plant::Plant;
use latchline_circuit::flow::{Options, Outcome, Source, Tree, Workspace, solve};
use latchline_network::phase::StageLoads;
use latchline_network::{StageSource, Terminal};
use latchline_site::catalogue::{BoxKind, LimitKind};

/// Rounds of switching devices off before all are.
const MOST_ROUNDS: usize = 12;

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
    /// Nodes whose source is at its limit, with the current.
    pub limited: Vec<(usize, f64)>,
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
            for &(node, limit_a) in &self.limited {
                clear_below(&self.parent, &mut loads, node);
                if node > 0 {
                    loads.current_a[node] = limit_a;
                }
            }
            let options = Options { tolerance_v: 1e-6, ..Options::default() };
            if !matches!(
                solve(&tree, &source, &loads.as_loads(), workspace, &options),
                Ok(Outcome::Solved(_))
            ) {
                if round == 0 && self.switch_off_beyond_bridges() {
                    continue;
                }
                self.switch_off_below(0);
                if round == MOST_ROUNDS {
                    break;
                }
                continue;
            }
            voltage_v.copy_from_slice(workspace.voltages_v());
            for place in 0..self.limited.len() {
                let (node, limit_a) = self.limited[place];
                self.fill_limited(node, limit_a, source.voltage_v, &mut voltage_v);
            }
            if self.limit(plant, index, &voltage_v) {
                continue;
            }
            let lowest = (0..count)
                .filter(|node| !self.off[*node] && !self.cut[*node] && self.draws(*node))
                .filter(|node| voltage_v[*node] < self.cut_off_v[*node])
                .min_by(|a, b| voltage_v[*a].total_cmp(&voltage_v[*b]));
            match lowest {
                Some(_) if round + 2 >= MOST_ROUNDS => {
                    let is_low = |node: &usize| voltage_v[*node] < self.cut_off_v[*node];
                    let low: Vec<usize> = (0..count).filter(is_low).collect();
                    low.into_iter().for_each(|node| self.switch_off(node));
                    if round == MOST_ROUNDS {
                        break;
                    }
                }
                Some(node) => self.switch_off(node),
                None => break,
            }
        }
        self.finish(plant, index, tree, source, voltage_v)
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
        let current = self.currents(voltage_v);
        let laid = &plant.layout.stages[index];
        for node in (0..self.of.len()).rev() {
            if self.limited.iter().any(|(known, _)| *known == node) {
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
                self.limited.push((node, holds_a));
                return true;
            }
        }
        false
    }

    fn currents(&self, voltage_v: &[f64]) -> Vec<f64> {
        let loads = self.loads.as_loads();
        let mut current: Vec<f64> = (0..voltage_v.len())
            .map(|node| if self.cut[node] { 0.0 } else { loads.current_at(node, voltage_v[node], 1.0) })
            .collect();
        for &(node, limit_a) in &self.limited {
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
        voltage_v: Vec<f64>,
    ) -> StageSolved {
        let nodes = plant.layout.stages[index].parent.len();
        let current = self.currents(&voltage_v);
        let mut limited = vec![false; self.of.len()];
        for &(node, _) in &self.limited {
            limited[node] = true;
        }
        let any_off = self.off.iter().any(|off| *off);
        for node in 1..limited.len() {
            limited[node] |= limited[self.parent[node] as usize];
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
        let pick =
            |values: &[f64], map: &[usize]| -> Vec<f64> { map.iter().map(|place| values[*place]).collect() };
        let cut: Vec<bool> = node_of.iter().map(|place| self.cut[*place]).collect();
        let mut shown_v = pick(&voltage_v, &node_of);
        shown_v.iter_mut().zip(&cut).filter(|(_, cut)| **cut).for_each(|(value, _)| *value = 0.0);
        let unsettled: Vec<bool> = node_of.iter().map(|place| any_off || limited[*place]).collect();
        StageSolved {
            voltage_v: shown_v,
            current_a: pick(&current, &first),
            cut,
            is_unsettled: any_off || !self.limited.is_empty(),
            unsettled,
            is_dead: false,
            copper_times: Vec::new(),
            extra_w: Vec::new(),
            problem: Some(Problem { tree, source, loads: self.loads, voltage_v, node: node_of, first }),
        }
    }
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
        Terminal::Source => {
            let StageSource::Supply(supply) = laid.source else { return None };
            let model = site.supply_model(&site.supplies[supply]);
            let limit = model.limit_current.as_ref().unwrap_or(&model.rated_current);
            Some((limit.value.as_amps(), model.limit_kind.value))
        }
        Terminal::Port { box_index, .. } => {
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
