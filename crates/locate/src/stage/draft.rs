//! A stage while it is being put together.

use latchline_network::phase::StageLoads;
use latchline_site::catalogue::LimitKind;

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
    /// Nodes that stand for a part of the stage which is not in it.
    pub parts: Vec<Part>,
}

/// A node that stands for a part of the stage which is not in the draft.
pub(super) struct Part {
    pub node: usize,
    /// What draws at the cut-off voltage of its devices what the part would, in siemens.
    pub at_cut_off_s: f64,
}

/// Voltage and current of every node of the draft.
pub(super) struct Values {
    pub voltage_v: Vec<f64>,
    pub current_a: Vec<f64>,
}

impl Draft {
    /// Of a stage as it is laid out, with these loads.
    pub fn whole(parent: Vec<u32>, ohm: Vec<f64>, loads: StageLoads, cut_off_v: Vec<f64>) -> Self {
        let count = parent.len();
        Draft {
            parent,
            ohm,
            wanted: loads.clone(),
            loads,
            cut_off_v,
            of: (0..count).map(Some).collect(),
            cut: vec![false; count],
            off: vec![false; count],
            limited: Vec::new(),
            parts: Vec::new(),
        }
    }

    /// With room for so many nodes.
    pub fn with_room(nodes: usize) -> Self {
        let room = || Vec::with_capacity(nodes);
        let loads =
            || StageLoads { power_w: room(), current_a: room(), conductance_s: room(), drop_v: room() };
        Draft {
            parent: Vec::with_capacity(nodes),
            ohm: room(),
            loads: loads(),
            cut_off_v: room(),
            of: Vec::with_capacity(nodes),
            cut: Vec::with_capacity(nodes),
            off: Vec::with_capacity(nodes),
            limited: Vec::new(),
            wanted: loads(),
            parts: Vec::new(),
        }
    }

    /// Adds a node; `load`: watts, amperes, siemens and the rectifier's drop in volts.
    pub fn push(&mut self, parent: u32, ohm: f64, load: [f64; 4], cut_off_v: f64, of: Option<usize>) {
        self.parent.push(parent);
        self.ohm.push(ohm);
        let [power_w, current_a, conductance_s, drop_v] = load;
        self.loads.power_w.push(power_w);
        self.loads.current_a.push(current_a);
        self.loads.conductance_s.push(conductance_s);
        self.loads.drop_v.push(drop_v);
        self.cut_off_v.push(cut_off_v);
        self.of.push(of);
        self.cut.push(false);
        self.off.push(false);
    }

    /// Whether a fault bridges the conductors somewhere along a segment.
    pub fn has_bridge(&self) -> bool {
        let bare = self.of.iter().filter(|of| of.is_none()).count();
        bare > self.parts.len()
    }

    /// Whether a part that is not in it would go off.
    pub fn is_any_part_off(&self) -> bool {
        self.parts.iter().any(|part| self.off[part.node])
    }

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
        self.parts.iter_mut().filter(|part| part.node >= node).for_each(|part| part.node += 1);
    }

    pub(super) fn switch_off(&mut self, node: usize) {
        self.off[node] = true;
        self.loads.power_w[node] = 0.0;
        self.loads.current_a[node] = 0.0;
    }

    pub(super) fn switch_off_below(&mut self, root: usize) {
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

    /// Switches off the lower half of the devices below their cut-off voltage, the lowest first: with these off, others may hold.
    /// `false` if there is none.
    pub(super) fn switch_off_lowest(&mut self, voltage_v: &[f64]) -> bool {
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
    pub(super) fn conductance_at_cut_off(&self, node: usize) -> f64 {
        let (wanted, cut_off_v) = (&self.wanted, self.cut_off_v[node]);
        let behind_v = cut_off_v - wanted.drop_v[node];
        if behind_v <= 0.0 {
            return 0.0;
        }
        (wanted.power_w[node] / behind_v + wanted.current_a[node]) / cut_off_v
    }

    pub(super) fn draws(&self, node: usize) -> bool {
        self.loads.power_w[node] > 0.0 || self.loads.current_a[node] > 0.0
    }

    /// What hangs beyond a bridge is the first that a fault puts out. `false` if there is no bridge.
    pub(super) fn switch_off_beyond_bridges(&mut self) -> bool {
        let is_part = |node: usize| self.parts.iter().any(|part| part.node == node);
        let is_bridge = |node: &usize| self.of[*node].is_none() && !is_part(*node);
        let bridges: Vec<usize> = (0..self.of.len()).filter(is_bridge).collect();
        for node in &bridges {
            self.switch_off_below(*node);
        }
        !bridges.is_empty()
    }

    pub(super) fn currents(&self, loads: &StageLoads, voltage_v: &[f64]) -> Vec<f64> {
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
}

fn is_below(parent: &[u32], root: usize, mut node: usize) -> bool {
    while node > root {
        node = parent[node] as usize;
    }
    node == root
}

pub(super) fn clear_below(parent: &[u32], loads: &mut StageLoads, root: usize) {
    for node in root..parent.len() {
        if is_below(parent, root, node) {
            loads.power_w[node] = 0.0;
            loads.current_a[node] = 0.0;
            loads.conductance_s[node] = 0.0;
        }
    }
}
