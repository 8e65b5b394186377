//! What else goes dark while a fault stands, before or without a trip.

use super::network::{
    Limited, Path, Protector, ShortCircuitError, ShortCircuitNetwork, beyond, check, limited, ports_by_node,
};

/// A load that keeps drawing its current until its voltage is too low.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FaultLoad {
    /// Node.
    pub node: usize,
    /// Current while on, A.
    pub current_a: f64,
    /// It goes dark below this bus voltage, V.
    pub hold_up_v: f64,
}

/// The network while the fault stands.
#[derive(Debug, Clone, PartialEq)]
pub struct StandingFault {
    /// Current through the fault, A.
    pub fault_a: f64,
    /// Current of the supply, A.
    pub supply_a: f64,
    /// Who holds a limit.
    pub limited_by: Option<Protector>,
    /// Voltage of every node, V.
    pub voltage_v: Vec<f64>,
    /// Whether each load, in the order given, has gone dark.
    pub dark: Vec<bool>,
}

/// Solves the network with a fault of `fault_ohm` at `node` standing and no trip acting.
///
/// Loads are constant currents that switch off below their hold-up voltage. Starting with all on,
/// those found below are switched off and the network is solved again until none is: at most one
/// pass a load. Loads that are off are not switched on again when the voltage recovers (a station
/// that has gone dark restarts, it does not carry on), so `dark` lists every load that the passes
/// have interrupted.
///
/// # Errors
/// [`ShortCircuitError`] for arrays that do not fit and values without meaning.
pub fn standing_fault(
    network: &ShortCircuitNetwork<'_>,
    node: usize,
    fault_ohm: f64,
    loads: &[FaultLoad],
) -> Result<StandingFault, ShortCircuitError> {
    let n = network.parent.len();
    for (index, load) in loads.iter().enumerate() {
        if load.node >= n {
            return Err(ShortCircuitError::Node { node: load.node, nodes: n });
        }
        if !(load.hold_up_v.is_finite() && load.hold_up_v >= 0.0) {
            let quantity = "hold-up voltage in V of load";
            return Err(ShortCircuitError::Value { quantity, index, value: load.hold_up_v });
        }
        if !(load.current_a.is_finite() && load.current_a >= 0.0) {
            let quantity = "current in A of load";
            return Err(ShortCircuitError::Value { quantity, index, value: load.current_a });
        }
    }
    check(network, fault_ohm, None)?;
    if node >= n {
        return Err(ShortCircuitError::Node { node, nodes: n });
    }
    let mut dark = vec![false; loads.len()];
    loop {
        let mut load_a = vec![0.0; n];
        for (load, _) in loads.iter().zip(&dark).filter(|(_, dark)| !**dark) {
            load_a[load.node] += load.current_a;
        }
        let solved = solve(network, node, fault_ohm, &beyond(network.parent, &load_a));
        let mut changed = false;
        for (load, dark) in loads.iter().zip(&mut dark) {
            if !*dark && solved.voltage_v[load.node] < load.hold_up_v {
                *dark = true;
                changed = true;
            }
        }
        if !changed {
            return Ok(StandingFault { dark, ..solved });
        }
    }
}

/// One pass with the given load currents beyond every segment.
fn solve(network: &ShortCircuitNetwork<'_>, node: usize, fault_ohm: f64, beyond_a: &[f64]) -> StandingFault {
    let n = network.parent.len();
    let ports = ports_by_node(network, n);
    let mut route = vec![node];
    let mut on_route = vec![false; n];
    on_route[node] = true;
    let mut k = node;
    while k != 0 {
        k = network.parent[k] as usize;
        on_route[k] = true;
        route.push(k);
    }
    let mut path = Path::root(network, beyond_a[0]);
    for &k in route.iter().rev().skip(1) {
        path = path.extended(network.loop_resistance_ohm[k], beyond_a[k], ports[k]);
    }
    let Limited { fault_a, by, .. } = limited(network, &path, beyond_a[0], fault_ohm);
    // Voltages along the route counted up from the fault: what a limiter leaves beyond itself.
    let mut from_fault_v = vec![0.0; n];
    from_fault_v[node] = fault_a * fault_ohm;
    for pair in route.windows(2) {
        let (child, parent) = (pair[0], pair[1]);
        from_fault_v[parent] =
            from_fault_v[child] + network.loop_resistance_ohm[child] * (beyond_a[child] + fault_a);
    }
    // With no current left for the fault, the loads alone hold the limiter: beyond it all is dark.
    let held_v = |k: usize| if fault_a > 0.0 { from_fault_v[k] } else { 0.0 };
    let supply_a = match by {
        Some(Protector::Supply) => (fault_a + beyond_a[0]).min(network.limit.largest_current_a()),
        _ => fault_a + beyond_a[0],
    };
    let mut voltage_v = vec![0.0; n];
    voltage_v[0] = match by {
        Some(Protector::Supply) => held_v(0),
        _ => (network.voltage_v - network.source_ohm * supply_a).max(0.0),
    };
    for k in 1..n {
        let limiting =
            on_route[k] && matches!((by, ports[k]), (Some(Protector::Port(a)), Some((b, _))) if a == b);
        voltage_v[k] = if limiting {
            held_v(k)
        } else {
            let current_a = beyond_a[k] + if on_route[k] { fault_a } else { 0.0 };
            let above_v = voltage_v[network.parent[k] as usize];
            (above_v - network.loop_resistance_ohm[k] * current_a).max(0.0)
        };
    }
    // A bolted fault holds its node at nothing, not at what rounding leaves.
    voltage_v[node] = fault_a * fault_ohm;
    StandingFault { fault_a, supply_a, limited_by: by, voltage_v, dark: Vec::new() }
}
