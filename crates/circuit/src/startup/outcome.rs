//! What a start-up simulation found.

use super::{BootCondition, StartCondition, Waveform};

/// A limiter that is holding its limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limiter {
    /// The supply.
    Supply,
    /// The port at this index.
    Port(usize),
}

/// What keeps switching.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum HiccupCause {
    /// The supply trips and returns.
    Supply,
    /// The port at this index trips and returns.
    Port(usize),
    /// Converters start, pull the bus down and drop out; the first to do so twice.
    Converter(usize),
}

/// Why a run ended without an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StopReason {
    /// More switchings than allowed in all.
    TooManyEvents,
    /// One converter dropped out more often than allowed.
    TooManyDropouts,
    /// Switchings without end at one instant (Zeno behaviour).
    EventsWithoutTime,
    /// More steps than allowed.
    TooManySteps,
    /// More passes over all nodes than allowed.
    TooManyPasses,
    /// It was no longer wanted.
    GivenUp,
    /// No step length solves the stage equations.
    StepTooSmall,
}

/// What the system does.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// Every converter runs and nothing moves any more.
    OperatingPoint {
        /// When the last converter finished boot, s.
        time_s: f64,
        /// Lowest bus voltage at a device after that, V; `None` without devices.
        lowest_voltage_v: Option<f64>,
        /// Index of the device where it was.
        lowest_device: Option<usize>,
    },
    /// It starts and drops out again and again.
    Hiccups {
        /// What keeps switching.
        cause: HiccupCause,
        /// Time from one trip or dropout to the next, once the complete state repeats, s; `None`
        /// if it had not settled to a period by the end.
        period_s: Option<f64>,
    },
    /// Nothing moves any more, and some converter does not run.
    BrownOut {
        /// Limiters that hold; empty if the voltage is simply too low, or a port has latched open.
        limited_by: Vec<Limiter>,
        /// Ports that have tripped and stay open.
        open_ports: Vec<usize>,
    },
    /// Still moving at the end time, without a repeated trip or dropout.
    Undecided,
    /// The simulation was stopped by a guard.
    Stopped {
        /// Which guard.
        reason: StopReason,
    },
}

/// What one device does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DeviceStatus {
    /// Running at the end, since this time, s.
    Up {
        /// End of the boot after which it stayed up.
        since_s: f64,
    },
    /// It has never finished boot and is not cycling.
    NeverUp,
    /// It starts and drops out repeatedly: it dropped out twice or more and was down at some time
    /// in the last cycle.
    Cycles,
    /// It had come up and is down at the end.
    Dropped,
    /// It has no converter.
    NoConverter,
}

/// Figures of one device.
#[derive(Debug, Clone, PartialEq)]
pub struct DeviceResult {
    /// What it does.
    pub status: DeviceStatus,
    /// When its converter first started, s.
    pub first_start_s: Option<f64>,
    /// When it first finished boot, s.
    pub first_up_s: Option<f64>,
    /// How often its converter dropped out.
    pub dropouts: usize,
    /// Lowest bus voltage at the device since it last came up, V.
    pub lowest_bus_v: Option<f64>,
    /// Capacitor voltage at the end, V.
    pub capacitor_v: f64,
}

/// Where the energy went, J; by the quadrature of the integration method, which is of order 2.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Energy {
    /// Delivered at the supply's terminals.
    pub supplied_j: f64,
    /// Lost in cables and in limiting ports.
    pub cables_j: f64,
    /// Lost in bridges and inrush limiters.
    pub bridges_j: f64,
    /// Taken by converters and discharge resistors.
    pub devices_j: f64,
    /// Taken by loads on the bus.
    pub bus_loads_j: f64,
    /// Rise of the energy stored in all capacitors.
    pub stored_j: f64,
}

/// Result of a start-up simulation.
#[derive(Debug, Clone, PartialEq)]
pub struct StartUp {
    /// What the system does.
    pub outcome: Outcome,
    /// Every device, in the order given.
    pub devices: Vec<DeviceResult>,
    /// Time at which the run ended, s; before the end time if the outcome was clear.
    pub end_s: f64,
    /// Bus voltage of every node then, V.
    pub bus_voltage_v: Vec<f64>,
    /// Supply current then, A.
    pub supply_current_a: f64,
    /// Times at which the supply tripped, s.
    pub supply_trips_s: Vec<f64>,
    /// Trips of every port.
    pub port_trips: Vec<usize>,
    /// Voltages over time of the nodes asked for.
    pub waveforms: Vec<Waveform>,
    /// Energy balance, if asked for.
    pub energy: Option<Energy>,
    /// Condition for all devices to boot at once.
    pub boot_condition: BootCondition,
    /// Condition for each converter to start alone.
    pub start_conditions: Vec<StartCondition>,
    /// Steps taken.
    pub steps: usize,
    /// Steps computed and discarded (error control and location of events).
    pub discarded_steps: usize,
    /// Switchings.
    pub events: usize,
}
