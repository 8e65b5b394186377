//! Recognising rest, and putting the result together.

use super::super::discrete::{Phase, PortPhase, SupplyPhase};
use super::super::{
    DeviceResult, DeviceStatus, Energy, Limiter, Outcome, StartUp, boot_condition, start_conditions,
};
use super::{Memory, REST_V, Run};

impl Run<'_> {
    /// Whether nothing moves any more and no timer runs.
    pub(super) fn at_rest(&self) -> bool {
        if self.since_restart < 4 || !self.integrator.slope_known {
            return false;
        }
        let horizon_s = (self.options.end_s - self.time_s).max(0.1 * self.options.end_s);
        let fastest = self.integrator.start_slope.iter().fold(0.0, |m: f64, k| m.max(k.abs()));
        fastest * horizon_s < REST_V
            && matches!(self.discrete.supply, SupplyPhase::On { .. })
            && self.discrete.next_timer_s(self.time_s).is_infinite()
    }

    pub(super) fn rest(&self) -> Outcome {
        let all_up = self.discrete.devices.iter().all(|p| matches!(p, Phase::Running | Phase::Absent));
        if all_up {
            return Outcome::OperatingPoint {
                time_s: self.last_up_s,
                lowest_voltage_v: self.lowest.map(|(v, _)| v),
                lowest_device: self.lowest.map(|(_, i)| i),
            };
        }
        let stage = &self.integrator.stage;
        let mut limited_by = Vec::new();
        if stage.beyond_limit_v(self.discrete.open_v(self.time_s)) >= 0.0 {
            limited_by.push(Limiter::Supply);
        }
        limited_by.extend((0..stage.ports.len()).filter(|&i| stage.port_limiting(i)).map(Limiter::Port));
        let open_ports = (0..self.discrete.ports.len())
            .filter(|&i| matches!(self.discrete.ports[i], PortPhase::Open { .. }))
            .collect();
        Outcome::BrownOut { limited_by, open_ports }
    }

    pub(super) fn report(self, outcome: Outcome) -> StartUp {
        let cycling_since_s = match outcome {
            Outcome::Hiccups { period_s, cause } => {
                let length = period_s.unwrap_or_else(|| self.cycles.last_interval_s(cause));
                Some(self.time_s - 1.5 * length)
            }
            _ => None,
        };
        let devices = self
            .memory
            .iter()
            .enumerate()
            .map(|(i, m)| DeviceResult {
                status: status(self.discrete.devices[i], m, cycling_since_s),
                first_start_s: m.first_start_s,
                first_up_s: m.first_up_s,
                dropouts: m.dropouts,
                lowest_bus_v: m.up_since_s.map(|_| self.lowest_bus_v[i]).filter(|lowest| lowest.is_finite()),
                capacitor_v: self.integrator.start_v[i],
            })
            .collect();
        let stored_j = self.integrator.stored_j() - self.initial_stored_j;
        StartUp {
            outcome,
            devices,
            end_s: self.time_s,
            bus_voltage_v: self.integrator.stage.voltage_v.clone(),
            supply_current_a: self.integrator.stage.supply_current_a,
            supply_trips_s: self.supply_trips_s,
            port_trips: self.port_trips,
            waveforms: self.recorder.finish(),
            energy: self.energy.map(|energy| Energy { stored_j, ..energy }),
            boot_condition: boot_condition(self.system),
            start_conditions: start_conditions(self.system),
            steps: self.steps,
            discarded_steps: self.discarded,
            events: self.events,
        }
    }
}

fn status(phase: Phase, memory: &Memory, cycling_since_s: Option<f64>) -> DeviceStatus {
    if phase == Phase::Absent {
        return DeviceStatus::NoConverter;
    }
    if memory.dropouts >= 2 && cycling_since_s.is_some_and(|since| memory.last_dropout_s >= since) {
        return DeviceStatus::Cycles;
    }
    match (memory.up_since_s, memory.first_up_s) {
        (Some(since_s), _) => DeviceStatus::Up { since_s },
        (None, Some(_)) => DeviceStatus::Dropped,
        (None, None) => DeviceStatus::NeverUp,
    }
}
