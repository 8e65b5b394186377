//! Refusal of cases that have no meaning, before anything is allocated.

use super::{PortLimit, SMALLEST_HYSTERESIS_V, StartupError, SupplyLimit, System};

/// Largest number accepted for any quantity: keeps products of quantities finite.
const LARGEST: f64 = 1e12;

/// Which range a number must lie in.
#[derive(Clone, Copy)]
enum Range {
    /// 0 or more.
    FromZero,
    /// Above 0.
    AboveZero,
}

fn check(
    place: impl Fn() -> String,
    quantity: &'static str,
    value: f64,
    range: Range,
) -> Result<(), StartupError> {
    let (holds, limit) = match range {
        Range::FromZero => ((0.0..=LARGEST).contains(&value), "from 0 to 1e12"),
        Range::AboveZero => ((1e-15..=LARGEST).contains(&value), "from 1e-15 to 1e12"),
    };
    if holds { Ok(()) } else { Err(StartupError::Value { place: place(), quantity, value, limit }) }
}

/// Checks every number of the case.
///
/// # Errors
/// The first thing that is wrong, in the order tree, supply, ports, devices, bus.
pub(super) fn validate(system: &System) -> Result<(), StartupError> {
    tree(system)?;
    supply(system)?;
    ports(system)?;
    devices(system)?;
    bus(system)
}

fn tree(system: &System) -> Result<(), StartupError> {
    let n = system.nodes();
    if n == 0 {
        return Err(StartupError::Tree { node: 0, reason: "the tree has no nodes" });
    }
    if u32::try_from(n).is_err() {
        return Err(StartupError::Tree { node: n, reason: "more nodes than can be numbered" });
    }
    if system.loop_resistance_ohm.len() != n {
        return Err(StartupError::Tree {
            node: system.loop_resistance_ohm.len().min(n),
            reason: "parent and loop resistance differ in length",
        });
    }
    for k in 1..n {
        if system.parent[k] as usize >= k {
            return Err(StartupError::Tree { node: k, reason: "its parent does not come before it" });
        }
        let r = system.loop_resistance_ohm[k];
        check(|| format!("node {k}"), "loop resistance in ohm", r, Range::FromZero)?;
    }
    Ok(())
}

fn supply(system: &System) -> Result<(), StartupError> {
    use Range::{AboveZero, FromZero};
    let s = &system.supply;
    let place = || "supply".to_string();
    check(place, "voltage in V", s.voltage_v, FromZero)?;
    check(place, "source resistance in ohm", s.resistance_ohm, FromZero)?;
    check(place, "output capacitance in F", s.output_capacitance_f, FromZero)?;
    check(place, "initial voltage in V", s.initial_voltage_v, FromZero)?;
    check(place, "ramp time in s", s.ramp_time_s, FromZero)?;
    match s.limit {
        SupplyLimit::None => {}
        SupplyLimit::ConstantCurrent { current_a } => {
            check(place, "limit in A", current_a, AboveZero)?;
        }
        SupplyLimit::Foldback { max_current_a, knee_voltage_v, short_current_a } => {
            check(place, "limit in A", max_current_a, AboveZero)?;
            check(place, "knee voltage in V", knee_voltage_v, AboveZero)?;
            check(place, "short-circuit limit in A", short_current_a, FromZero)?;
            if short_current_a > max_current_a {
                return Err(StartupError::Value {
                    place: place(),
                    quantity: "short-circuit limit in A",
                    value: short_current_a,
                    limit: "at most the limit at the knee",
                });
            }
            if s.output_capacitance_f < 1e-15 {
                return Err(StartupError::FoldbackWithoutCapacitor);
            }
        }
        SupplyLimit::Hiccup { current_a, trip_time_s, off_time_s } => {
            check(place, "limit in A", current_a, AboveZero)?;
            check(place, "trip time in s", trip_time_s, AboveZero)?;
            check(place, "off time in s", off_time_s, AboveZero)?;
        }
    }
    Ok(())
}

fn ports(system: &System) -> Result<(), StartupError> {
    use Range::{AboveZero, FromZero};
    let n = system.nodes();
    let mut seen = vec![false; n];
    for (index, port) in system.ports.iter().enumerate() {
        let place = || format!("port {index}");
        node_exists(place, port.node, n)?;
        if port.node == 0 {
            return Err(StartupError::Tree { node: 0, reason: "the supply's node has no segment" });
        }
        if std::mem::replace(&mut seen[port.node], true) {
            return Err(StartupError::DuplicatePort { node: port.node });
        }
        check(place, "switch-on time in s", port.closes_at_s, FromZero)?;
        match port.limit {
            PortLimit::None => {}
            PortLimit::ConstantCurrent { current_a } => {
                check(place, "limit in A", current_a, AboveZero)?;
            }
            PortLimit::Trip { current_a, trip_time_s, retry_time_s } => {
                check(place, "trip current in A", current_a, AboveZero)?;
                check(place, "trip time in s", trip_time_s, AboveZero)?;
                if let Some(retry) = retry_time_s {
                    check(place, "retry time in s", retry, AboveZero)?;
                }
            }
        }
    }
    Ok(())
}

fn devices(system: &System) -> Result<(), StartupError> {
    use Range::{AboveZero, FromZero};
    for (index, device) in system.devices.iter().enumerate() {
        let place = || format!("device {index}");
        node_exists(place, device.node, system.nodes())?;
        check(place, "capacitance in F", device.capacitance_f, AboveZero)?;
        check(place, "bridge drop in V", device.bridge_drop_v, FromZero)?;
        check(place, "initial voltage in V", device.initial_voltage_v, FromZero)?;
        check(place, "discharge conductance in S", device.discharge_s, FromZero)?;
        if let Some(limit) = device.inrush_limit_a {
            check(place, "inrush limit in A", limit, AboveZero)?;
        }
        let Some(c) = device.converter else { continue };
        check(place, "start threshold in V", c.turn_on_v, AboveZero)?;
        check(place, "stop threshold in V", c.turn_off_v, AboveZero)?;
        check(place, "delay in s", c.delay_s, FromZero)?;
        check(place, "boot power in W", c.boot_power_w, FromZero)?;
        check(place, "boot time in s", c.boot_time_s, FromZero)?;
        check(place, "running power in W", c.running_power_w, FromZero)?;
        if c.turn_off_v > c.turn_on_v {
            return Err(StartupError::Value {
                place: place(),
                quantity: "stop threshold in V",
                value: c.turn_off_v,
                limit: "at most the start threshold",
            });
        }
        if c.turn_on_v - c.turn_off_v < SMALLEST_HYSTERESIS_V && c.delay_s < 1e-6 {
            return Err(StartupError::NoHysteresis {
                device: index,
                turn_on_v: c.turn_on_v,
                turn_off_v: c.turn_off_v,
            });
        }
    }
    Ok(())
}

fn bus(system: &System) -> Result<(), StartupError> {
    use Range::{AboveZero, FromZero};
    for (index, load) in system.bus_loads.iter().enumerate() {
        let place = || format!("bus load {index}");
        node_exists(place, load.node, system.nodes())?;
        check(place, "current in A", load.current_a, FromZero)?;
        check(place, "conductance in S", load.conductance_s, FromZero)?;
    }
    for (index, capacitor) in system.bus_capacitors.iter().enumerate() {
        let place = || format!("bus capacitor {index}");
        node_exists(place, capacitor.node, system.nodes())?;
        check(place, "capacitance in F", capacitor.capacitance_f, AboveZero)?;
        check(place, "initial voltage in V", capacitor.initial_voltage_v, FromZero)?;
    }
    Ok(())
}

fn node_exists(place: impl Fn() -> String, node: usize, nodes: usize) -> Result<(), StartupError> {
    if node < nodes { Ok(()) } else { Err(StartupError::UnknownNode { place: place(), node, nodes }) }
}
