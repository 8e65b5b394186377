//! Conditions that can be written down, beside the simulation.

use super::{Converter, PortLimit, System};
use crate::flow::{Loads, Options, Outcome, Source, Tree, Workspace, branch_currents, solve};

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

/// Whether what boots together, when every converter starts after its own delay, can be fed in a steady state at all: at the
/// time at which most power is taken, by what boots and what is up already, there is an operating point, and no
/// limit is exceeded there, be it the supply's or that of a port that holds its current.
///
/// Delays alone set converters apart here: charging takes no time. So it is a condition for boots that last,
/// and capacitors may carry one that is short. What could not be decided counts as fitting.
pub fn boots_together_fit(system: &System) -> bool {
    let power_w = |c: &Converter, at_s: f64| {
        if at_s < c.delay_s {
            0.0
        } else if at_s < c.delay_s + c.boot_time_s {
            c.boot_power_w
        } else {
            c.running_power_w
        }
    };
    let converters =
        || system.devices.iter().filter_map(|device| device.converter.as_ref().map(|one| (device, one)));
    let all_w = |at_s: f64| -> f64 { converters().map(|(_, converter)| power_w(converter, at_s)).sum() };
    // Power rises only where one starts, or where one needs more when it is up than to get there.
    let mut changes: Vec<f64> =
        converters().flat_map(|(_, c)| [c.delay_s, c.delay_s + c.boot_time_s]).collect();
    changes.sort_by(f64::total_cmp);
    changes.dedup();
    let Some(worst_s) = changes.into_iter().max_by(|a, b| all_w(*a).total_cmp(&all_w(*b))) else {
        return true;
    };
    let n = system.nodes();
    let zeros = || vec![0.0_f64; n];
    let (mut power, mut current, mut conductance, mut drop) = (zeros(), zeros(), zeros(), zeros());
    for (device, converter) in converters() {
        power[device.node] += power_w(converter, worst_s);
        // Several bridges at one node: the least drop asks for least.
        drop[device.node] = if drop[device.node] > 0.0 {
            drop[device.node].min(device.bridge_drop_v)
        } else {
            device.bridge_drop_v
        };
    }
    for load in &system.bus_loads {
        current[load.node] += load.current_a;
        conductance[load.node] += load.conductance_s;
    }
    fits(system, &power, &current, &conductance, &drop)
}

/// Whether these loads have an operating point within the limits of the supply and of the ports that hold their current. With less
/// voltage constant powers take more current, so what exceeds a limit without the limiter exceeds it with it.
fn fits(system: &System, power_w: &[f64], current_a: &[f64], conductance_s: &[f64], drop_v: &[f64]) -> bool {
    let Ok(tree) = Tree::new(system.parent.clone(), system.loop_resistance_ohm.clone()) else { return true };
    let source =
        Source { voltage_v: system.supply.voltage_v, resistance_ohm: system.supply.resistance_ohm.max(0.0) };
    let loads = Loads { power_w, current_a, conductance_s, drop_v };
    let mut workspace = Workspace::new();
    match solve(&tree, &source, &loads, &mut workspace, &Options::default()) {
        Ok(Outcome::Solved(_)) => {}
        Ok(Outcome::NoSolution(_)) => return false,
        Ok(Outcome::Undecided(_)) | Err(_) => return true,
    }
    let flows = branch_currents(&tree, &source, &loads, workspace.voltages_v());
    let holds = system.ports.iter().all(|port| match port.limit {
        PortLimit::ConstantCurrent { current_a } => flows.branch_a[port.node] <= current_a,
        PortLimit::None | PortLimit::Trip { .. } => true,
    });
    holds && flows.branch_a[0] <= system.supply.limit.largest_current_a()
}
