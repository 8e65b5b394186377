//! The equations of a stage: what every element takes at the voltages held, as a line.

use super::super::{LEAKAGE_S, PortLimit, SMALLEST_LIMITER_RESISTANCE_OHM, SupplyLimit, System};
use super::device::{Region, StageDevice};
use super::elements::{bridge, bus_current, conducting};
use super::way::Way;

/// Largest allowed difference between a true current and its line, A.
const CURRENT_TOLERANCE_A: f64 = 1e-7;

/// A limited segment as the stage sees it.
#[derive(Debug, Clone)]
pub(in crate::startup) struct StagePort {
    pub node: usize,
    pub closed: bool,
    /// Current limit, A; infinite for a trip or a plain switch.
    pub limit_a: f64,
    /// Current through it, A.
    pub current_a: f64,
    pub(super) limiting: bool,
}

/// Scratch and layout of the stage equations.
pub(in crate::startup) struct Stage {
    pub(super) parent: Vec<u32>,
    pub(super) resistance_ohm: Vec<f64>,
    /// Conductance of the segment to each node, S; 0 where it has no resistance, or a port.
    pub(super) cable_s: Vec<f64>,
    pub(super) way: Way,
    pub devices: Vec<StageDevice>,
    pub ports: Vec<StagePort>,
    /// Index into `ports` + 1 for every node, 0 for none; empty without ports.
    pub(super) port_of: Vec<u32>,
    /// Bus capacitors: node and capacitance. The supply's output capacitor is first, if any.
    pub capacitors: Vec<(usize, f64)>,
    /// Constant-current bus loads: node, current, line.
    pub(super) bus_currents: Vec<(usize, f64, f64, f64)>,
    pub(super) limit: SupplyLimit,
    pub(super) source_ohm: f64,
    pub supply_on: bool,
    pub(super) supply_line: (f64, f64),
    /// Supply current, A.
    pub supply_current_a: f64,
    /// Passes over all nodes so far.
    pub passes: u64,
    pub(super) highest_v: f64,
    /// Bus voltages, V.
    pub voltage_v: Vec<f64>,
    pub(super) next_v: Vec<f64>,
    pub(super) conductance_s: Vec<f64>,
    pub(super) base_s: Vec<f64>,
    pub(super) base_b: Vec<f64>,
    pub(super) s: Vec<f64>,
    pub(super) b: Vec<f64>,
    pub(super) inverse: Vec<f64>,
    /// Capacitor voltages: devices, then bus capacitors, V.
    pub state_v: Vec<f64>,
    pub(super) tolerance_v: f64,
}

impl Stage {
    pub fn new(system: &System, initial_state_v: &[f64], tolerance_v: f64) -> Self {
        let n = system.nodes();
        let mut resistance_ohm = system.loop_resistance_ohm.clone();
        resistance_ohm[0] = 0.0;
        let mut port_of = if system.ports.is_empty() { Vec::new() } else { vec![0; n] };
        let mut ports = Vec::with_capacity(system.ports.len());
        for port in &system.ports {
            let r = &mut resistance_ohm[port.node];
            *r = r.max(SMALLEST_LIMITER_RESISTANCE_OHM);
            ports.push(StagePort {
                node: port.node,
                closed: port.closes_at_s <= 0.0,
                limit_a: match port.limit {
                    PortLimit::ConstantCurrent { current_a } => current_a,
                    PortLimit::None | PortLimit::Trip { .. } => f64::INFINITY,
                },
                current_a: 0.0,
                limiting: false,
            });
            port_of[port.node] = ports.len() as u32;
        }
        let devices: Vec<StageDevice> = system
            .devices
            .iter()
            .map(|d| StageDevice {
                node: d.node,
                capacitance_f: d.capacitance_f,
                drop_v: d.bridge_drop_v,
                discharge_s: d.discharge_s,
                power_w: 0.0,
                limit_a: d.inrush_limit_a.unwrap_or(f64::INFINITY),
                floor_v: 0.0,
                current_a: 0.0,
                region: Region::Blocked,
                line_s: 0.0,
                line_b: 0.0,
            })
            .collect();
        let mut conductance_s = vec![LEAKAGE_S; n];
        let mut bus_currents = Vec::new();
        for load in &system.bus_loads {
            conductance_s[load.node] += load.conductance_s;
            if load.current_a > 0.0 {
                bus_currents.push((load.node, load.current_a, 0.0, 0.0));
            }
        }
        let mut capacitors = Vec::new();
        if system.supply.output_capacitance_f > 0.0 {
            capacitors.push((0, system.supply.output_capacitance_f));
        }
        capacitors.extend(system.bus_capacitors.iter().map(|c| (c.node, c.capacitance_f)));
        let highest_drop = devices.iter().map(|d| d.drop_v).fold(0.0, f64::max);
        let highest_v =
            initial_state_v.iter().copied().fold(system.supply.voltage_v, f64::max) + highest_drop + 1.0;
        let mut cable_s: Vec<f64> =
            resistance_ohm.iter().map(|&ohm| if ohm > 0.0 { 1.0 / ohm } else { 0.0 }).collect();
        for port in &ports {
            cable_s[port.node] = 0.0;
        }
        Self {
            parent: system.parent.clone(),
            resistance_ohm,
            cable_s,
            way: Way::default(),
            devices,
            ports,
            port_of,
            capacitors,
            bus_currents,
            limit: system.supply.limit,
            source_ohm: system.supply.resistance_ohm.max(SMALLEST_LIMITER_RESISTANCE_OHM),
            supply_on: true,
            supply_line: (0.0, 0.0),
            supply_current_a: 0.0,
            passes: 0,
            highest_v,
            voltage_v: vec![0.0; n],
            next_v: vec![0.0; n],
            conductance_s,
            base_s: vec![0.0; n],
            base_b: vec![0.0; n],
            s: vec![0.0; n],
            b: vec![0.0; n],
            inverse: vec![1.0; n],
            state_v: initial_state_v.to_vec(),
            tolerance_v,
        }
    }

    /// Sets up the lines of all elements at the voltages held.
    pub(super) fn prepare(&mut self, gamma_h_s: f64, history_v: &[f64], open_v: f64) {
        let rate = 1.0 / gamma_h_s;
        self.base_s.copy_from_slice(&self.conductance_s);
        self.base_b.fill(0.0);
        let device_count = self.devices.len();
        for (&(node, capacitance_f), &h) in self.capacitors.iter().zip(&history_v[device_count..]) {
            let a = capacitance_f * rate;
            self.base_s[node] += a;
            self.base_b[node] -= a * h;
        }
        self.evaluate(rate, history_v, open_v);
        self.assemble();
    }

    /// The lines of all elements, added up in `s` and `b`.
    pub(super) fn assemble(&mut self) {
        self.s.copy_from_slice(&self.base_s);
        self.b.copy_from_slice(&self.base_b);
        for d in &self.devices {
            self.s[d.node] += d.line_s;
            self.b[d.node] += d.line_b;
        }
        for &(node, _, line_s, line_b) in &self.bus_currents {
            self.s[node] += line_s;
            self.b[node] += line_b;
        }
    }

    /// Currents and lines of all elements at `voltage_v`. True when every element agrees with its previous line.
    pub(super) fn evaluate(&mut self, rate: f64, history_v: &[f64], open_v: f64) -> bool {
        let mut agrees = true;
        for (d, &h) in self.devices.iter_mut().zip(history_v) {
            let v = self.voltage_v[d.node];
            let a = d.capacitance_f * rate;
            let (current, slope, region) = bridge(d, a, h, v);
            let tolerance = (1e-3 * self.tolerance_v * a).min(1e-4) + 1e-13 * a * v.abs() + 1e-12;
            agrees &= (current - (d.line_s * v + d.line_b)).abs() <= tolerance;
            d.current_a = current;
            // From blocked to its limit and back it passes through conducting. Where a supply holds its current, what conducts in
            // between is all that sets the voltage: left out, everything would go to one side and back.
            let skips = (d.region == Region::Blocked && region == Region::Limited)
                || (d.region == Region::Limited && region == Region::Blocked);
            let (current, slope) = if skips { conducting(d, a, h, v) } else { (current, slope) };
            d.region = if skips { Region::Conducting } else { region };
            d.line_s = slope;
            d.line_b = current - slope * v;
        }
        for (node, current_a, line_s, line_b) in &mut self.bus_currents {
            let v = self.voltage_v[*node];
            let (current, slope) = bus_current(*current_a, v);
            agrees &= (current - (*line_s * v + *line_b)).abs() <= CURRENT_TOLERANCE_A;
            *line_s = slope;
            *line_b = current - slope * v;
        }
        for port in &mut self.ports {
            let k = port.node;
            let v = self.voltage_v[self.parent[k] as usize] - self.voltage_v[k];
            let free = v / self.resistance_ohm[k];
            let limiting = port.closed && free > port.limit_a;
            let current = if !port.closed { 0.0 } else { free.min(port.limit_a) };
            let before = if port.limiting { port.limit_a } else { free };
            agrees &= !port.closed || (current - before).abs() <= CURRENT_TOLERANCE_A;
            port.limiting = limiting;
            port.current_a = current;
        }
        let v = self.voltage_v[0];
        let (current, slope) = self.supply(open_v, v);
        let (line_s, line_b) = self.supply_line;
        agrees &=
            (current - (line_s * v + line_b)).abs() <= CURRENT_TOLERANCE_A + 1e-13 * line_s.abs() * v.abs();
        self.supply_line = (slope, current - slope * v);
        self.supply_current_a = current;
        agrees
    }

    /// Supply current at output voltage `v`, and its slope.
    pub(super) fn supply(&self, open_v: f64, v: f64) -> (f64, f64) {
        let free = (open_v - v) / self.source_ohm;
        if !self.supply_on || free <= 0.0 {
            return (0.0, 0.0);
        }
        let (limit, slope) = self.limit.at(v);
        if free >= limit { (limit, slope) } else { (free, -1.0 / self.source_ohm) }
    }

    /// How far the supply is beyond the point where its limiter starts, V; negative below.
    pub fn beyond_limit_v(&self, open_v: f64) -> f64 {
        let v = self.voltage_v[0];
        let (limit, _) = self.limit.at(v);
        if self.supply_on && limit.is_finite() {
            open_v - v - self.source_ohm * limit
        } else {
            f64::NEG_INFINITY
        }
    }

    /// Source resistance in use, ohm.
    pub fn source_ohm(&self) -> f64 {
        self.source_ohm
    }

    /// Whether the given port holds its limit.
    pub fn port_limiting(&self, index: usize) -> bool {
        self.ports[index].limiting
    }

    /// Longest diagonal step for which every stage load rises with voltage, s.
    pub fn longest_gamma_h_s(&self) -> f64 {
        let mut inverse: f64 = 0.0;
        for d in self.devices.iter().filter(|d| d.power_w > 0.0) {
            // The floor is half the voltage at the start of the step.
            let twice_energy_j = 4.0 * d.capacitance_f * d.floor_v * d.floor_v;
            // Few are the largest yet, and only those are divided.
            if d.power_w > inverse * twice_energy_j {
                inverse = d.power_w / twice_energy_j;
            }
        }
        let mut longest = 0.2 / inverse;
        if let SupplyLimit::Foldback { max_current_a, knee_voltage_v, short_current_a } = self.limit {
            let slope = (max_current_a - short_current_a) / knee_voltage_v;
            // With foldback the output capacitor comes first.
            longest = longest.min(0.5 * self.capacitors[0].1 / slope);
        }
        longest
    }
}
