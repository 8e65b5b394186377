//! What switches, and what the integrator must know of it.

use super::super::HiccupCause;
use super::super::discrete::{SAME_INSTANT_S, Switching};
use super::Run;

impl Run<'_> {
    /// Lets everything switch that is due, and tells the integrator.
    pub(super) fn switch(&mut self) {
        self.switched.clear();
        let integrator = &self.integrator;
        let reached_s = if self.since_restart <= 1 { self.restart_s } else { self.time_s };
        self.discrete.switch(
            &integrator.stage,
            &integrator.start_v,
            self.time_s,
            reached_s,
            &mut self.switched,
        );
        if self.switched.is_empty() {
            return;
        }
        self.events += self.switched.len();
        if self.time_s > self.instant_s + SAME_INSTANT_S {
            self.events_at_instant = 0;
            self.instant_s = self.time_s;
        }
        self.events_at_instant += self.switched.len();
        let switched = std::mem::take(&mut self.switched);
        let mut restart = false;
        for &switching in &switched {
            restart |= self.apply(switching);
        }
        // Snapshots when all machines have moved, so that the order in the list cannot matter.
        for &switching in &switched {
            let cause = match switching {
                Switching::SupplyTripped => HiccupCause::Supply,
                Switching::PortTripped(i) => HiccupCause::Port(i),
                Switching::DroppedOut(i) => HiccupCause::Converter(i),
                _ => continue,
            };
            self.cycles.mark(
                cause,
                self.time_s,
                &self.integrator.start_v,
                &self.discrete,
                self.options.tolerance_v,
            );
        }
        self.switched_now = true;
        if restart {
            self.switched_now = false;
            self.integrator.slope_known = false;
            self.step_s = self.restart_step_s;
            self.since_restart = 0;
            self.restart_s = self.time_s;
        }
        self.switched = switched;
    }

    /// Applies one switching; true if bus currents jump.
    fn apply(&mut self, switching: Switching) -> bool {
        let now = self.time_s;
        match switching {
            Switching::Started(i) => {
                self.memory[i].first_start_s.get_or_insert(now);
                self.set_device(i)
            }
            Switching::CameUp(i) => {
                let memory = &mut self.memory[i];
                memory.first_up_s.get_or_insert(now);
                memory.up_since_s = Some(now);
                self.lowest_bus_v[i] = f64::INFINITY;
                self.last_up_s = now;
                self.lowest = None;
                // At once: if nothing moves from here on, no further step is taken.
                self.note_lowest();
                self.set_device(i)
            }
            Switching::DroppedOut(i) => {
                let memory = &mut self.memory[i];
                memory.up_since_s = None;
                memory.dropouts += 1;
                memory.last_dropout_s = now;
                self.dropouts = self.dropouts.max(memory.dropouts);
                self.set_device(i)
            }
            Switching::SupplyTripped => {
                self.supply_trips_s.push(now);
                self.integrator.stage.supply_on = false;
                true
            }
            Switching::SupplyReturned => {
                self.integrator.stage.supply_on = true;
                true
            }
            Switching::PortTripped(i) => {
                self.port_trips[i] += 1;
                self.integrator.stage.ports[i].closed = false;
                true
            }
            Switching::PortClosed(i) => {
                self.integrator.stage.ports[i].closed = true;
                true
            }
        }
    }

    /// Gives the stage a device's new power and limit. The slope of its capacitor jumps by what
    /// the converter takes; the bus does not, unless an inrush limiter changes.
    fn set_device(&mut self, i: usize) -> bool {
        let power_w = self.discrete.power_w(i);
        let limit_a = self.discrete.bridge_limit_a(i);
        let d = &mut self.integrator.stage.devices[i];
        let u = self.integrator.start_v[i].max(1e-3);
        self.integrator.start_slope[i] += (d.power_w - power_w) / (u * d.capacitance_f);
        d.power_w = power_w;
        let changed = limit_a != d.limit_a;
        d.limit_a = limit_a;
        changed
    }
}
