//! Prospective fault current at every node, and what acts on it.

use std::fmt;

use crate::startup::SupplyLimit;

/// The band in which a trip's current lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TripBand {
    /// It does not trip below this, A.
    pub smallest_a: f64,
    /// It trips for certain from this upwards, A.
    pub largest_a: f64,
}

/// What a port does about too much current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Protection {
    /// Holds the current at this limit, A.
    Limit(f64),
    /// Opens.
    Trip(TripBand),
}

/// A protected segment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PortProtection {
    /// Node at the far end of the segment, not 0.
    pub node: usize,
    /// What it does.
    pub protection: Protection,
}

/// Network with its protection.
#[derive(Debug, Clone, Copy)]
pub struct ShortCircuitNetwork<'a> {
    /// Parent of every node, `parent[k] < k`; entry 0 is not read.
    pub parent: &'a [u32],
    /// Hot loop resistance from the parent, ohm; entry 0 is not read.
    pub loop_resistance_ohm: &'a [f64],
    /// Open-circuit voltage of the supply at node 0, V.
    pub voltage_v: f64,
    /// Source resistance, ohm.
    pub source_ohm: f64,
    /// The supply's limiter. Hiccup limits and, when it lasts, trips.
    pub limit: SupplyLimit,
    /// A trip of the supply, beside its limiter.
    pub trip: Option<TripBand>,
    /// Protected segments, at most one a node.
    pub ports: &'a [PortProtection],
}

/// Something that protects.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Protector {
    /// The supply.
    Supply,
    /// The port at this index.
    Port(usize),
}

/// What a fault meets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Acts {
    /// This one trips: of those that do, the one with most in hand, the farther out if equal.
    Trips(Protector),
    /// Nothing trips; this one holds its limit and the voltage collapses.
    Limits(Protector),
    /// Nothing acts: the fault current flows on.
    Undetected,
}

/// The fault at one node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prospective {
    /// Current through the fault without any limiter, A; infinite without any resistance.
    pub unlimited_a: f64,
    /// Current through the fault with limiters, A.
    pub fault_a: f64,
    /// What acts.
    pub acts: Acts,
    /// Fault current less what the most sensitive trip in the path needs, A; negative if it is not
    /// reached; `None` without a trip in the path.
    pub trip_reserve_a: Option<f64>,
}

/// The judgement of [`prospective_worst`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Verdict {
    /// The worse of the two figures.
    pub worst: Prospective,
    /// Whether that is the one with the loads kept.
    pub loads_kept: bool,
}

/// Input without meaning.
#[derive(Debug, Clone, PartialEq)]
pub enum ShortCircuitError {
    /// Arrays of different lengths, or empty.
    Length {
        /// Which array.
        array: &'static str,
        /// Its length.
        length: usize,
        /// Number of nodes.
        nodes: usize,
    },
    /// A parent that does not come before its node.
    Parent {
        /// The node.
        node: usize,
    },
    /// A value that is not finite or negative.
    Value {
        /// Which quantity, with its unit.
        quantity: &'static str,
        /// Node or port index.
        index: usize,
        /// The value.
        value: f64,
    },
    /// A node that does not exist, or node 0 where a segment is meant.
    Node {
        /// The node.
        node: usize,
        /// Number of nodes.
        nodes: usize,
    },
}

impl fmt::Display for ShortCircuitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length { array, length, nodes } => {
                write!(f, "{array} has {length} entries, must be {nodes} and at least 1")
            }
            Self::Parent { node } => write!(f, "node {node}: its parent does not come before it"),
            Self::Value { quantity, index, value } => {
                write!(f, "{quantity} {index} is {value}, must be finite and not negative")
            }
            Self::Node { node, nodes } => {
                write!(f, "node {node} is not a segment's end, there are {nodes} nodes")
            }
        }
    }
}

impl std::error::Error for ShortCircuitError {}

/// Number of nodes after checking everything that the caller can get wrong.
pub(super) fn check(
    network: &ShortCircuitNetwork<'_>,
    fault_ohm: f64,
    load_a: Option<&[f64]>,
) -> Result<usize, ShortCircuitError> {
    let n = network.parent.len();
    let length = |array, length| {
        if length == n && n > 0 { Ok(()) } else { Err(ShortCircuitError::Length { array, length, nodes: n }) }
    };
    length("parent", n)?;
    length("loop resistance", network.loop_resistance_ohm.len())?;
    let value = |quantity, index, value: f64| {
        if value.is_finite() && value >= 0.0 {
            Ok(())
        } else {
            Err(ShortCircuitError::Value { quantity, index, value })
        }
    };
    for k in 1..n {
        if network.parent[k] as usize >= k {
            return Err(ShortCircuitError::Parent { node: k });
        }
        value("loop resistance in ohm of node", k, network.loop_resistance_ohm[k])?;
    }
    value("supply voltage in V, supply", 0, network.voltage_v)?;
    value("source resistance in ohm, supply", 0, network.source_ohm)?;
    value("fault resistance in ohm, fault", 0, fault_ohm)?;
    match network.limit {
        SupplyLimit::None => {}
        SupplyLimit::ConstantCurrent { current_a } | SupplyLimit::Hiccup { current_a, .. } => {
            value("limit in A, supply", 0, current_a)?;
        }
        SupplyLimit::Foldback { max_current_a, knee_voltage_v, short_current_a } => {
            value("limit in A, supply", 0, max_current_a)?;
            value("knee voltage in V, supply", 0, knee_voltage_v)?;
            value("limit at 0 V in A, supply", 0, short_current_a)?;
            value("fall of the limit in A, supply", 0, max_current_a - short_current_a)?;
        }
    }
    if let Some(band) = network.trip {
        value("trip current in A, supply", 0, band.smallest_a)?;
        value("trip current in A, supply", 0, band.largest_a)?;
    }
    for (i, port) in network.ports.iter().enumerate() {
        if port.node == 0 || port.node >= n {
            return Err(ShortCircuitError::Node { node: port.node, nodes: n });
        }
        match port.protection {
            Protection::Limit(current_a) => value("limit in A of port", i, current_a)?,
            Protection::Trip(band) => {
                value("trip current in A of port", i, band.smallest_a)?;
                value("trip current in A of port", i, band.largest_a)?;
            }
        }
    }
    if let Some(load_a) = load_a {
        length("load current", load_a.len())?;
        for (k, &current_a) in load_a.iter().enumerate() {
            value("load current in A of node", k, current_a)?;
        }
    }
    Ok(n)
}

/// Sums of load currents beyond every segment, A; entry 0 is the total.
pub(super) fn beyond(parent: &[u32], load_a: &[f64]) -> Vec<f64> {
    let mut sum = load_a.to_vec();
    for k in (1..parent.len()).rev() {
        sum[parent[k] as usize] += sum[k];
    }
    sum
}

/// What a fault sees of the path from the supply's terminals.
#[derive(Debug, Clone, Copy)]
pub(super) struct Path {
    /// Resistance, the supply's not included, ohm.
    pub ohm: f64,
    /// Drop of the loads in it, V.
    pub drop_v: f64,
    /// Smallest current that a port limiter leaves for the fault, A, and the limiter.
    pub cap: Option<(f64, usize)>,
    /// Smallest fault current that a trip needs, A, and the trip.
    pub trip: Option<(f64, Protector)>,
}

impl Path {
    /// The path to node 0.
    pub fn root(network: &ShortCircuitNetwork<'_>, total_a: f64) -> Self {
        let mut trip = network.trip.map(|band| (band.largest_a - total_a, Protector::Supply));
        if let SupplyLimit::Hiccup { current_a, .. } = network.limit {
            let needs = current_a - total_a;
            if trip.is_none_or(|(other, _)| needs < other) {
                trip = Some((needs, Protector::Supply));
            }
        }
        Self { ohm: 0.0, drop_v: 0.0, cap: None, trip }
    }

    /// The path one segment further.
    pub fn extended(&self, ohm: f64, beyond_a: f64, port: Option<(usize, Protection)>) -> Self {
        let mut path = Self { ohm: self.ohm + ohm, drop_v: self.drop_v + ohm * beyond_a, ..*self };
        match port {
            Some((i, Protection::Limit(limit_a))) => {
                let left_a = (limit_a - beyond_a).max(0.0);
                if path.cap.is_none_or(|(other, _)| left_a <= other) {
                    path.cap = Some((left_a, i));
                }
            }
            Some((i, Protection::Trip(band))) => {
                let needs_a = band.largest_a - beyond_a;
                if path.trip.is_none_or(|(other, _)| needs_a <= other) {
                    path.trip = Some((needs_a, Protector::Port(i)));
                }
            }
            None => {}
        }
        path
    }
}

/// Current through the fault and who limits it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limited {
    pub unlimited_a: f64,
    pub fault_a: f64,
    pub by: Option<Protector>,
}

/// Solves the fault at the end of `path` with `total_a` of other loads on the supply.
pub(super) fn limited(
    network: &ShortCircuitNetwork<'_>,
    path: &Path,
    total_a: f64,
    fault_ohm: f64,
) -> Limited {
    let open_v = (network.voltage_v - network.source_ohm * total_a - path.drop_v).max(0.0);
    let loop_ohm = path.ohm + fault_ohm;
    let whole_ohm = network.source_ohm + loop_ohm;
    let unlimited_a = if open_v == 0.0 { 0.0 } else { open_v / whole_ohm };
    let (cap_a, capped_by) = path.cap.map_or((f64::INFINITY, None), |(a, i)| (a, Some(i)));
    let free_a = unlimited_a.min(cap_a);
    let port = |fault_a: f64| {
        let by = if cap_a <= fault_a { capped_by.map(Protector::Port) } else { None };
        Limited { unlimited_a, fault_a, by }
    };
    let output_v = (network.voltage_v - network.source_ohm * (free_a + total_a)).max(0.0);
    if free_a + total_a <= network.limit.at(output_v).0 {
        return if cap_a < unlimited_a { port(free_a) } else { port(free_a.min(unlimited_a)) };
    }
    let supplied_a = under_supply_limit(&network.limit, path.drop_v, loop_ohm, total_a);
    if cap_a < supplied_a {
        return port(cap_a);
    }
    Limited { unlimited_a, fault_a: supplied_a, by: Some(Protector::Supply) }
}

/// Fault current while the supply holds its limit: `v = drop + R I_f`, `I_f + L = limit(v)`.
fn under_supply_limit(limit: &SupplyLimit, drop_v: f64, loop_ohm: f64, total_a: f64) -> f64 {
    let SupplyLimit::Foldback { max_current_a, knee_voltage_v, short_current_a } = *limit else {
        return (limit.largest_current_a() - total_a).max(0.0);
    };
    let slope = if knee_voltage_v > 0.0 { (max_current_a - short_current_a) / knee_voltage_v } else { 0.0 };
    // I_f (1 - slope R) = I_short - L + slope drop
    let denominator = 1.0 - slope * loop_ohm;
    let right = short_current_a - total_a + slope * drop_v;
    if right <= 0.0 {
        return 0.0;
    }
    let knee_a = (max_current_a - total_a).max(0.0);
    if denominator <= 0.0 { knee_a } else { (right / denominator).min(knee_a) }
}

/// Port index and protection of every node's segment.
pub(super) fn ports_by_node(network: &ShortCircuitNetwork<'_>, n: usize) -> Vec<Option<(usize, Protection)>> {
    let mut at = vec![None; n];
    for (i, port) in network.ports.iter().enumerate() {
        at[port.node] = Some((i, port.protection));
    }
    at
}

/// The fault at every node, in O(n): `fault_ohm` is its resistance, `load_a` the constant currents
/// of the other loads by node, `None` to neglect them.
///
/// # Errors
/// [`ShortCircuitError`] for arrays that do not fit and values without meaning.
pub fn prospective(
    network: &ShortCircuitNetwork<'_>,
    fault_ohm: f64,
    load_a: Option<&[f64]>,
) -> Result<Vec<Prospective>, ShortCircuitError> {
    let n = check(network, fault_ohm, load_a)?;
    let beyond_a = load_a.map_or_else(|| vec![0.0; n], |load| beyond(network.parent, load));
    let total_a = beyond_a[0];
    let ports = ports_by_node(network, n);
    let mut paths: Vec<Path> = Vec::with_capacity(n);
    paths.push(Path::root(network, total_a));
    for k in 1..n {
        let parent = paths[network.parent[k] as usize];
        paths.push(parent.extended(network.loop_resistance_ohm[k], beyond_a[k], ports[k]));
    }
    Ok(paths
        .iter()
        .map(|path| {
            let Limited { unlimited_a, fault_a, by } = limited(network, path, total_a, fault_ohm);
            let trip_reserve_a = path.trip.map(|(needs_a, _)| fault_a - needs_a);
            let acts = match (path.trip, by) {
                // A limiter that trips when it holds is reached exactly: allow for rounding.
                (Some((needs_a, trip)), _) if fault_a >= needs_a - 1e-9 * needs_a.abs() => Acts::Trips(trip),
                (_, Some(limiter)) => Acts::Limits(limiter),
                (_, None) => Acts::Undetected,
            };
            Prospective { unlimited_a, fault_a, acts, trip_reserve_a }
        })
        .collect())
}

/// The worse of loads neglected and loads kept at every node: not tripping before tripping, then
/// the smaller reserve, then the smaller fault current.
///
/// # Errors
/// As [`prospective`].
pub fn prospective_worst(
    network: &ShortCircuitNetwork<'_>,
    fault_ohm: f64,
    load_a: &[f64],
) -> Result<Vec<Verdict>, ShortCircuitError> {
    let neglected = prospective(network, fault_ohm, None)?;
    let kept = prospective(network, fault_ohm, Some(load_a))?;
    let key = |p: &Prospective| {
        (matches!(p.acts, Acts::Trips(_)), p.trip_reserve_a.unwrap_or(f64::NEG_INFINITY), p.fault_a)
    };
    Ok(neglected
        .into_iter()
        .zip(kept)
        .map(|(neglected, kept)| {
            let loads_kept = key(&kept) < key(&neglected);
            Verdict { worst: if loads_kept { kept } else { neglected }, loads_kept }
        })
        .collect())
}
