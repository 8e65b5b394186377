//! Where the power goes.

use super::Stage;
use super::elements::bus_current;

/// Rates at which energy goes where, W.
#[derive(Debug, Clone, Copy, Default)]
pub(in crate::startup) struct Power {
    pub supplied_w: f64,
    pub cables_w: f64,
    pub bridges_w: f64,
    pub devices_w: f64,
    pub bus_loads_w: f64,
}

impl Stage {
    /// Where the power goes at the solved voltages.
    pub fn power(&self) -> Power {
        let v = &self.voltage_v;
        let mut power = Power { supplied_w: v[0] * self.supply_current_a, ..Power::default() };
        for k in 1..self.parent.len() {
            let across = v[self.parent[k] as usize] - v[k];
            let current = match self.port_of.get(k) {
                Some(&index) if index > 0 => self.ports[index as usize - 1].current_a,
                _ if self.resistance_ohm[k] > 0.0 => across / self.resistance_ohm[k],
                _ => 0.0,
            };
            power.cables_w += across * current;
        }
        for (d, &u) in self.devices.iter().zip(&self.state_v) {
            power.bridges_w += d.current_a * (v[d.node] - u).max(0.0);
            power.devices_w += d.power_w + d.discharge_s * u * u;
        }
        for (&g, &x) in self.conductance_s.iter().zip(v) {
            power.bus_loads_w += g * x * x;
        }
        for &(node, current_a, _, _) in &self.bus_currents {
            power.bus_loads_w += bus_current(current_a, v[node]).0 * v[node];
        }
        power
    }
}
