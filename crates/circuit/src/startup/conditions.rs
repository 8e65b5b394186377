//! Conditions that can be written down, beside the simulation.

use super::System;

/// Whether the limit could carry every device booting at once, for as long as boot lasts.
///
/// `I_lim > sum P_boot/V_on`: with every capacitor at its start threshold the converters take
/// `sum P_boot/V_on`; a supply that gives less lets all of them run down. It is necessary for
/// *sustained* boot of all at once and neglects the drop in the cables, so it can hold where the
/// simulation fails; where it fails, capacitors may still carry a short boot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BootCondition {
    /// `sum P_boot/V_on` over all converters, A.
    pub required_a: f64,
    /// Largest current of the supply, A; infinite without a limiter.
    pub available_a: f64,
    /// Whether `available_a > required_a`.
    pub holds: bool,
}

/// Computes the boot condition.
pub fn boot_condition(system: &System) -> BootCondition {
    let required_a = system
        .devices
        .iter()
        .filter_map(|d| d.converter)
        .map(|c| c.boot_power_w.max(0.0) / c.turn_on_v)
        .sum();
    let available_a = system.supply.limit.largest_current_a();
    BootCondition { required_a, available_a, holds: available_a > required_a }
}

/// Whether one converter alone on its cable gains or loses voltage at the moment it starts.
///
/// It gains if `(V_s - V_d - V_on)/R >= P/V_on`, that is, if `V_on` lies between the two roots of
/// `u^2 - (V_s - V_d) u + P R = 0`. Above the upper root it sinks to that root and still runs if
/// `V_off` is below it; at or below the lower root it cannot start, however large its hysteresis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StartCondition {
    /// Index of the device.
    pub device: usize,
    /// Resistance from the source to the device, ohm, source resistance included.
    pub resistance_ohm: f64,
    /// The two roots, V, lower first; `None` if the power cannot be carried at all.
    pub roots_v: Option<(f64, f64)>,
    /// Whether the converter starts and stays, alone on the cable, with no limiter in the way.
    pub holds: bool,
}

/// Computes the start condition of every converter, with the larger of boot and running power.
pub fn start_conditions(system: &System) -> Vec<StartCondition> {
    let n = system.nodes();
    let mut path_ohm = vec![system.supply.resistance_ohm; n];
    for k in 1..n.min(system.loop_resistance_ohm.len()) {
        let p = system.parent[k] as usize;
        if p < k {
            path_ohm[k] = path_ohm[p] + system.loop_resistance_ohm[k];
        }
    }
    let mut conditions = Vec::new();
    for (device, d) in system.devices.iter().enumerate() {
        let (Some(c), Some(&r)) = (d.converter, path_ohm.get(d.node)) else { continue };
        let open_v = system.supply.voltage_v - d.bridge_drop_v;
        let power_w = c.boot_power_w.max(c.running_power_w);
        let discriminant = open_v * open_v - 4.0 * r * power_w;
        let roots_v = (open_v > 0.0 && discriminant >= 0.0).then(|| {
            let upper = 0.5 * (open_v + discriminant.sqrt());
            (if upper > 0.0 { r * power_w / upper } else { 0.0 }, upper)
        });
        let holds = roots_v.is_some_and(|(lower, upper)| {
            c.turn_on_v <= open_v && c.turn_on_v > lower && c.turn_off_v < upper
        });
        conditions.push(StartCondition { device, resistance_ohm: r, roots_v, holds });
    }
    conditions
}
