//! What is refused before the simulation starts.

use std::fmt;

/// A start-up case that cannot be simulated. Messages name the value and the limit.
#[derive(Debug, Clone, PartialEq)]
pub enum StartupError {
    /// The arrays that describe the tree do not fit together.
    Tree {
        /// Node at which the description fails.
        node: usize,
        /// What is wrong.
        reason: &'static str,
    },
    /// A number is not finite, or outside its range.
    Value {
        /// Where it stands: `supply`, `port 3`, `device 12`.
        place: String,
        /// Name of the quantity with its unit.
        quantity: &'static str,
        /// The value given.
        value: f64,
        /// The condition that it breaks.
        limit: &'static str,
    },
    /// A device, port, load or capacitor names a node that does not exist.
    UnknownNode {
        /// What names it.
        place: String,
        /// The node named.
        node: usize,
        /// Number of nodes.
        nodes: usize,
    },
    /// Start and stop threshold coincide and no delay keeps the converter from switching
    /// infinitely often.
    NoHysteresis {
        /// Index of the device.
        device: usize,
        /// Start threshold, V.
        turn_on_v: f64,
        /// Stop threshold, V.
        turn_off_v: f64,
    },
    /// Foldback without output capacitance: the bus voltage would not be determined.
    FoldbackWithoutCapacitor,
    /// Two ports in one segment.
    DuplicatePort {
        /// Node whose segment has two ports.
        node: usize,
    },
}

impl fmt::Display for StartupError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Tree { node, reason } => write!(f, "node {node}: {reason}"),
            Self::Value { place, quantity, value, limit } => {
                write!(f, "{place}: {quantity} is {value}, must be {limit}")
            }
            Self::UnknownNode { place, node, nodes } => {
                write!(f, "{place}: node {node} does not exist, there are {nodes} nodes")
            }
            Self::NoHysteresis { device, turn_on_v, turn_off_v } => write!(
                f,
                "device {device}: starts at {turn_on_v} V and stops at {turn_off_v} V without a \
                 delay; the thresholds must differ by 0.001 V or more, or the delay be above 0 s"
            ),
            Self::FoldbackWithoutCapacitor => write!(
                f,
                "supply: foldback needs an output capacitance above 0 F, otherwise its voltage is \
                 not determined"
            ),
            Self::DuplicatePort { node } => {
                write!(f, "node {node}: its segment has two ports, only one can limit it")
            }
        }
    }
}

impl std::error::Error for StartupError {}
