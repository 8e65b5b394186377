//! What is simulated: tree, supply, ports, devices, loads on the bus.

/// The current limit of a supply.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SupplyLimit {
    /// No limit.
    None,
    /// Output current held at the limit, whatever the voltage.
    ConstantCurrent {
        /// Limit, A, above 0.
        current_a: f64,
    },
    /// The limit falls with the output voltage: `max_current_a` at and above the knee, falling
    /// linearly to `short_current_a` at 0 V. Needs an output capacitance.
    Foldback {
        /// Limit at and above the knee, A.
        max_current_a: f64,
        /// Output voltage at which the limit starts to fall, V, above 0.
        knee_voltage_v: f64,
        /// Limit at 0 V, A, from 0 to `max_current_a`.
        short_current_a: f64,
    },
    /// Constant current for the trip time, then off for the off time, then a new start.
    Hiccup {
        /// Limit, A, above 0.
        current_a: f64,
        /// Uninterrupted time in limit before the supply switches off, s, above 0.
        trip_time_s: f64,
        /// Time off, s, above 0.
        off_time_s: f64,
    },
}

impl SupplyLimit {
    /// The largest current the limiter lets through at any voltage, A (infinite without one).
    pub fn largest_current_a(&self) -> f64 {
        match *self {
            Self::None => f64::INFINITY,
            Self::ConstantCurrent { current_a } | Self::Hiccup { current_a, .. } => current_a,
            Self::Foldback { max_current_a, .. } => max_current_a,
        }
    }

    /// The limit at output voltage `voltage_v`, A, and its slope, A/V.
    pub fn at(&self, voltage_v: f64) -> (f64, f64) {
        match *self {
            Self::None => (f64::INFINITY, 0.0),
            Self::ConstantCurrent { current_a } | Self::Hiccup { current_a, .. } => (current_a, 0.0),
            Self::Foldback { max_current_a, knee_voltage_v, short_current_a } => {
                let slope = (max_current_a - short_current_a) / knee_voltage_v;
                if voltage_v >= knee_voltage_v {
                    (max_current_a, 0.0)
                } else if voltage_v <= 0.0 {
                    (short_current_a, 0.0)
                } else {
                    (short_current_a + slope * voltage_v, slope)
                }
            }
        }
    }
}

/// The supply at node 0.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// Open-circuit voltage, V.
    pub voltage_v: f64,
    /// Source resistance, ohm; values below 0.1 milliohm count as that.
    pub resistance_ohm: f64,
    /// Current limit.
    pub limit: SupplyLimit,
    /// Output capacitance on the bus, F; 0 for none (not with foldback).
    pub output_capacitance_f: f64,
    /// Voltage of that capacitance at time 0, V.
    pub initial_voltage_v: f64,
    /// Soft start: time in which the open-circuit voltage rises linearly from 0, s; 0 for none.
    pub ramp_time_s: f64,
}

/// A limiter in the segment from its parent to `node`.
#[derive(Debug, Clone, PartialEq)]
pub struct Port {
    /// The node at the far end of the limited segment, not 0.
    pub node: usize,
    /// What it does when the current is too high.
    pub limit: PortLimit,
    /// Time at which the port is switched on, s; 0 for on from the start.
    pub closes_at_s: f64,
}

/// What a port does when the current is too high.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PortLimit {
    /// Nothing: a switch only.
    None,
    /// Holds the current at the limit.
    ConstantCurrent {
        /// Limit, A, above 0.
        current_a: f64,
    },
    /// Passes what flows; opens when the current has exceeded the limit for the trip time.
    Trip {
        /// Trip current, A, above 0.
        current_a: f64,
        /// Uninterrupted time above the trip current before it opens, s, above 0.
        trip_time_s: f64,
        /// Time until it closes again, s, above 0; `None` stays open.
        retry_time_s: Option<f64>,
    },
}

/// A capacitor behind a bridge, and the converter that it feeds.
#[derive(Debug, Clone, PartialEq)]
pub struct BusDevice {
    /// Node at which the bridge is connected.
    pub node: usize,
    /// Input capacitance behind the bridge, F, above 0.
    pub capacitance_f: f64,
    /// Drop of the bridge, V, 0 or more.
    pub bridge_drop_v: f64,
    /// Voltage of the capacitor at time 0, V.
    pub initial_voltage_v: f64,
    /// Discharge resistor across the capacitor, as a conductance, S.
    pub discharge_s: f64,
    /// Limit of the bridge current until the converter starts, A, above 0.
    pub inrush_limit_a: Option<f64>,
    /// The converter; `None` leaves a capacitor that is charged and does nothing.
    pub converter: Option<Converter>,
}

/// A constant-power converter with under-voltage lockout. Both thresholds hold at the capacitor,
/// behind the bridge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Converter {
    /// Capacitor voltage at which it starts, V.
    pub turn_on_v: f64,
    /// Capacitor voltage at which it stops, V, above 0 and at most `turn_on_v`.
    pub turn_off_v: f64,
    /// Time from reaching the start threshold to the start, s.
    pub delay_s: f64,
    /// Power during boot, W.
    pub boot_power_w: f64,
    /// Duration of boot, s; 0 for none.
    pub boot_time_s: f64,
    /// Power after boot, W.
    pub running_power_w: f64,
}

/// A load directly on the bus, without a bridge or a threshold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BusLoad {
    /// Node.
    pub node: usize,
    /// Constant current, A; falls off linearly below 1 V.
    pub current_a: f64,
    /// Conductance, S.
    pub conductance_s: f64,
}

/// A capacitor directly on the bus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BusCapacitor {
    /// Node.
    pub node: usize,
    /// Capacitance, F, above 0.
    pub capacitance_f: f64,
    /// Voltage at time 0, V.
    pub initial_voltage_v: f64,
}

/// A complete start-up case.
#[derive(Debug, Clone, PartialEq)]
pub struct System {
    /// Parent of every node; `parent[k] < k`. Entry 0 is not read.
    pub parent: Vec<u32>,
    /// Loop resistance from the parent to the node, ohm, 0 or more. Entry 0 is not read.
    pub loop_resistance_ohm: Vec<f64>,
    /// The supply, at node 0.
    pub supply: Supply,
    /// Limiters in segments, at most one a segment.
    pub ports: Vec<Port>,
    /// Devices, any number at a node.
    pub devices: Vec<BusDevice>,
    /// Loads on the bus, any number at a node.
    pub bus_loads: Vec<BusLoad>,
    /// Capacitors on the bus. Capacitors that meet without resistance must start at one voltage.
    pub bus_capacitors: Vec<BusCapacitor>,
}

impl System {
    /// Number of nodes.
    pub fn nodes(&self) -> usize {
        self.parent.len()
    }
}
