//! One implicit stage: bus voltages and capacitor voltages at one instant.
//!
//! Each capacitor obeys `a (u - h) + g u + P/u = i`, with `a = C/(gamma h_step)`, `h` the stage's
//! history value and `i` the current into it. Unknown are the bus voltages `v` (and with them `u`):
//! the currents that leave every node balance. Newton: every element is the line `i = s v + b` at
//! the last voltages; eliminate from the leaves, `s' = s/(1 + r s)`, `b' = b/(1 + r s)`; solve the
//! root against the supply's line; go back down with `v_k = (v_parent - r b)/(1 + r s)`. It has
//! settled when every element's true current at the new voltages is that of its line.

mod elements;
mod line_search;
mod power;
mod tree;

use self::elements::{Region, bridge, bus_current, charged, conducting};
use self::line_search::Way;
pub(super) use self::power::Power;
use super::{LEAKAGE_S, PortLimit, SMALLEST_LIMITER_RESISTANCE_OHM, SupplyLimit, System};

/// Full Newton steps before the line search is used.
const FULL_STEPS: usize = 4;
/// Newton steps of a first attempt, and of a stage in the detour.
const FEW_STEPS: usize = 14;
/// What a line search counts for, in passes over all nodes.
const LINE_SEARCH_PASSES: u64 = 4;
/// Newton steps before the step is given up.
const MOST_STEPS: usize = 1000;
/// The detour starts with a step this much longer, and shortens it by `DETOUR_FACTOR` each time.
const DETOUR_START: f64 = 1024.0;
const DETOUR_FACTOR: f64 = 0.25;
/// Largest allowed difference between a true current and its line, A.
const CURRENT_TOLERANCE_A: f64 = 1e-7;

/// The stage equations were not solved: the step must be made shorter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct StageFailure;

/// A device as the stage sees it. Powers and limits are set by the discrete state.
#[derive(Debug, Clone)]
pub(super) struct StageDevice {
    pub node: usize,
    pub capacitance_f: f64,
    pub drop_v: f64,
    pub discharge_s: f64,
    /// Present converter power, W.
    pub power_w: f64,
    /// Present limit of the bridge current, A.
    pub limit_a: f64,
    /// The converter power is taken as constant current below this capacitor voltage, V. Half the
    /// voltage at the start of the step; a step that ends below is refused.
    pub floor_v: f64,
    /// Bridge current, A.
    pub current_a: f64,
    /// What the line is of.
    region: Region,
    line_s: f64,
    line_b: f64,
}

/// A limited segment as the stage sees it.
#[derive(Debug, Clone)]
pub(super) struct StagePort {
    pub node: usize,
    pub closed: bool,
    /// Current limit, A; infinite for a trip or a plain switch.
    pub limit_a: f64,
    /// Current through it, A.
    pub current_a: f64,
    limiting: bool,
}

/// Scratch and layout of the stage equations.
pub(super) struct Stage {
    parent: Vec<u32>,
    resistance_ohm: Vec<f64>,
    /// Conductance of the segment to each node, S; 0 where it has no resistance, or a port.
    cable_s: Vec<f64>,
    way: Way,
    pub devices: Vec<StageDevice>,
    pub ports: Vec<StagePort>,
    /// Index into `ports` + 1 for every node, 0 for none; empty without ports.
    port_of: Vec<u32>,
    /// Bus capacitors: node and capacitance. The supply's output capacitor is first, if any.
    pub capacitors: Vec<(usize, f64)>,
    /// Constant-current bus loads: node, current, line.
    bus_currents: Vec<(usize, f64, f64, f64)>,
    limit: SupplyLimit,
    source_ohm: f64,
    pub supply_on: bool,
    supply_line: (f64, f64),
    /// Supply current, A.
    pub supply_current_a: f64,
    /// Passes over all nodes so far.
    pub passes: u64,
    highest_v: f64,
    /// Bus voltages, V.
    pub voltage_v: Vec<f64>,
    next_v: Vec<f64>,
    conductance_s: Vec<f64>,
    base_s: Vec<f64>,
    base_b: Vec<f64>,
    s: Vec<f64>,
    b: Vec<f64>,
    inverse: Vec<f64>,
    /// Capacitor voltages: devices, then bus capacitors, V.
    pub state_v: Vec<f64>,
    tolerance_v: f64,
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

    /// Solves for the voltages with `gamma_h_s` the diagonal step and `history_v` the history
    /// values; the supply's open-circuit voltage is `open_v`. Starts from the voltages held.
    pub fn solve(&mut self, gamma_h_s: f64, history_v: &[f64], open_v: f64) -> Result<(), StageFailure> {
        self.prepare(gamma_h_s, history_v, open_v);
        match self.settle(1.0 / gamma_h_s, history_v, open_v, FEW_STEPS) {
            Ok(()) => Ok(()),
            Err(StageFailure) => self.detour(gamma_h_s, history_v, open_v),
        }
    }

    /// Solves by way of longer steps. In a short step an inrush limiter goes from blocked to limit
    /// within millivolts of bus voltage, so that hundreds of them must be put on the right side of
    /// their bend; in a long step the range is wide, few Newton steps find it, and its solution is
    /// the start for a shorter one.
    fn detour(&mut self, gamma_h_s: f64, history_v: &[f64], open_v: f64) -> Result<(), StageFailure> {
        let mut factor = DETOUR_START;
        while factor > 1.0 {
            let longer_s = (gamma_h_s * factor).min(self.longest_gamma_h_s().max(gamma_h_s));
            self.prepare(longer_s, history_v, open_v);
            // Wherever this ends is the start of the next: only the last must have settled.
            let _ = self.settle(1.0 / longer_s, history_v, open_v, FEW_STEPS);
            factor *= DETOUR_FACTOR;
        }
        self.prepare(gamma_h_s, history_v, open_v);
        self.settle(1.0 / gamma_h_s, history_v, open_v, MOST_STEPS)
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

    /// Sets up the lines of all elements at the voltages held.
    fn prepare(&mut self, gamma_h_s: f64, history_v: &[f64], open_v: f64) {
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

    /// Solves again with other history values and supply voltage, the rest being as in the last
    /// `solve`. The lines of the last solution are shifted, not computed anew.
    pub fn solve_next(
        &mut self,
        gamma_h_s: f64,
        old_history_v: &[f64],
        history_v: &[f64],
        open_v: f64,
    ) -> Result<(), StageFailure> {
        let rate = 1.0 / gamma_h_s;
        let device_count = self.devices.len();
        for (i, &(node, capacitance_f)) in self.capacitors.iter().enumerate() {
            let change_v = history_v[device_count + i] - old_history_v[device_count + i];
            self.base_b[node] -= capacitance_f * rate * change_v;
        }
        for ((d, &h), &old) in self.devices.iter_mut().zip(history_v).zip(old_history_v) {
            if d.line_s != 0.0 {
                d.line_b -= d.capacitance_f * rate * (h - old);
            }
        }
        self.assemble();
        let (current, slope) = self.supply(open_v, self.voltage_v[0]);
        self.supply_line = (slope, current - slope * self.voltage_v[0]);
        match self.settle(rate, history_v, open_v, FEW_STEPS) {
            Ok(()) => Ok(()),
            Err(StageFailure) => self.detour(gamma_h_s, history_v, open_v),
        }
    }

    /// At most `steps` Newton steps from the lines in `s` and `b`.
    fn settle(
        &mut self,
        rate: f64,
        history_v: &[f64],
        open_v: f64,
        steps: usize,
    ) -> Result<(), StageFailure> {
        for step in 0..steps {
            self.passes += 1;
            self.eliminate();
            let full = step < FULL_STEPS;
            let inside = self.back_substitute(full);
            std::mem::swap(&mut self.voltage_v, &mut self.next_v);
            if self.evaluate(rate, history_v, open_v) && inside {
                return self.finish(rate, history_v);
            }
            if !full {
                // The whole step did not do: go back and take the best part of it.
                std::mem::swap(&mut self.voltage_v, &mut self.next_v);
                self.line_search(rate, history_v, open_v);
                self.passes += LINE_SEARCH_PASSES;
                std::mem::swap(&mut self.voltage_v, &mut self.next_v);
                self.evaluate(rate, history_v, open_v);
            }
            self.assemble();
        }
        Err(StageFailure)
    }

    /// Takes over the capacitor voltages and refuses a converter far below its starting voltage.
    fn finish(&mut self, rate: f64, history_v: &[f64]) -> Result<(), StageFailure> {
        debug_assert_eq!(history_v.len(), self.state_v.len());
        let device_count = self.devices.len();
        for ((d, &h), u) in self.devices.iter().zip(history_v).zip(&mut self.state_v) {
            *u = charged(d, d.capacitance_f * rate, h, self.voltage_v[d.node]);
        }
        for (&(node, _), u) in self.capacitors.iter().zip(&mut self.state_v[device_count..]) {
            *u = self.voltage_v[node];
        }
        let sunk = self
            .devices
            .iter()
            .zip(&self.state_v)
            .any(|(d, &u)| d.power_w > 0.0 && (u < d.floor_v || u.is_nan()));
        if sunk { Err(StageFailure) } else { Ok(()) }
    }

    /// The lines of all elements, added up in `s` and `b`.
    fn assemble(&mut self) {
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
    fn evaluate(&mut self, rate: f64, history_v: &[f64], open_v: f64) -> bool {
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
    fn supply(&self, open_v: f64, v: f64) -> (f64, f64) {
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
}
