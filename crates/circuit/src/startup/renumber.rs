//! Nodes ordered by depth, which lets the elimination overlap the work of neighbouring nodes: in
//! a chain numbered along its length every division waits for the one before it.

use super::{Options, StartUp, System};

/// A case with its nodes ordered by depth.
pub(super) struct Renumbered {
    pub system: System,
    pub options: Options,
    /// New number of every old node.
    position: Vec<usize>,
}

impl Renumbered {
    /// Renumbers a validated case.
    pub fn new(system: &System, options: &Options) -> Self {
        let n = system.nodes();
        let mut depth = vec![0usize; n];
        for k in 1..n {
            depth[k] = depth[system.parent[k] as usize] + 1;
        }
        let mut order: Vec<usize> = (0..n).collect();
        order.sort_by_key(|&k| depth[k]);
        let mut position = vec![0; n];
        for (new, &old) in order.iter().enumerate() {
            position[old] = new;
        }
        let mut system = system.clone();
        system.loop_resistance_ohm = order.iter().map(|&old| system.loop_resistance_ohm[old]).collect();
        system.parent = order
            .iter()
            .map(|&old| if old == 0 { 0 } else { position[system.parent[old] as usize] as u32 })
            .collect();
        for node in system
            .devices
            .iter_mut()
            .map(|d| &mut d.node)
            .chain(system.ports.iter_mut().map(|p| &mut p.node))
            .chain(system.bus_loads.iter_mut().map(|l| &mut l.node))
            .chain(system.bus_capacitors.iter_mut().map(|c| &mut c.node))
        {
            *node = position[*node];
        }
        let mut options = options.clone();
        for node in &mut options.record_nodes {
            *node = position[*node];
        }
        Self { system, options, position }
    }

    /// Gives a result the caller's node numbers again.
    pub fn restore(&self, mut result: StartUp, original: &Options) -> StartUp {
        result.bus_voltage_v = self.position.iter().map(|&p| result.bus_voltage_v[p]).collect();
        for (waveform, &node) in result.waveforms.iter_mut().zip(&original.record_nodes) {
            waveform.node = node;
        }
        result
    }
}
