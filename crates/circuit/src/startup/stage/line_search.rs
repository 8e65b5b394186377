//! The way out when full Newton steps go round in circles.

use super::elements::{bridge, bus_current};
use super::equations::Stage;
use super::way::Way;

impl Stage {
    /// Shortens the step from `voltage_v` to `next_v` to near the minimum of the co-content along
    /// it: until the derivative is a tenth of that at the start (regula falsi with the Illinois
    /// weight; the derivative rises along the step, since the co-content is convex).
    pub(super) fn line_search(&mut self, rate: f64, history_v: &[f64], open_v: f64) {
        let mut way = std::mem::take(&mut self.way);
        self.lay_out(&mut way);
        if let Some(taken) = self.shortened(&way, rate, history_v, open_v) {
            for (next, &old) in self.next_v.iter_mut().zip(&self.voltage_v) {
                *next = old + taken * (*next - old);
            }
        }
        self.way = way;
    }

    /// The part of the step to take; `None` for all of it.
    fn shortened(&self, way: &Way, rate: f64, history_v: &[f64], open_v: f64) -> Option<f64> {
        let mut at_high = self.descent(way, 1.0, rate, history_v, open_v);
        if at_high <= 0.0 {
            return None;
        }
        let mut at_low = self.descent(way, 0.0, rate, history_v, open_v);
        let enough = 0.1 * at_low.abs();
        let (mut low, mut high) = (0.0, 1.0);
        let mut taken = 1.0;
        for round in 0..50 {
            let share = if round % 3 == 2 { 0.5 } else { at_low / (at_low - at_high) };
            taken = low + share.clamp(0.001, 0.999) * (high - low);
            let here = self.descent(way, taken, rate, history_v, open_v);
            if here.abs() <= enough {
                break;
            }
            if here > 0.0 {
                high = taken;
                at_high = here;
                at_low *= 0.5;
            } else {
                low = taken;
                at_low = here;
                at_high *= 0.5;
            }
        }
        Some(taken)
    }

    fn lay_out(&self, way: &mut Way) {
        let change = |k: usize| self.next_v[k] - self.voltage_v[k];
        let (mut start, mut rise) = (0.0, 0.0);
        for k in 0..self.parent.len() {
            let (v, d) = (self.voltage_v[k], change(k));
            start += (self.base_s[k] * v + self.base_b[k]) * d;
            rise += self.base_s[k] * d * d;
            // 0 where there is no resistance or a port.
            let g = self.cable_s[k];
            let p = self.parent[k] as usize;
            let across = change(p) - d;
            start += g * (self.voltage_v[p] - v) * across;
            rise += g * across * across;
        }
        way.linear_w = (start, rise);
        way.devices.clear();
        way.devices
            .extend(self.devices.iter().map(|device| (self.voltage_v[device.node], change(device.node))));
    }

    /// Derivative of the co-content along the step at fraction `fraction`, W.
    fn descent(&self, way: &Way, fraction: f64, rate: f64, history_v: &[f64], open_v: f64) -> f64 {
        let at = |k: usize| {
            let d = self.next_v[k] - self.voltage_v[k];
            (self.voltage_v[k] + fraction * d, d)
        };
        let (v0, d0) = at(0);
        let mut sum = way.linear_w.0 + fraction * way.linear_w.1 - self.supply(open_v, v0).0 * d0;
        for port in self.ports.iter().filter(|port| port.closed) {
            let ((v, d), (vp, dp)) = (at(port.node), at(self.parent[port.node] as usize));
            sum += ((vp - v) / self.resistance_ohm[port.node]).min(port.limit_a) * (dp - d);
        }
        for ((device, &h), &(v, d)) in self.devices.iter().zip(history_v).zip(&way.devices) {
            sum += bridge(device, device.capacitance_f * rate, h, v + fraction * d).0 * d;
        }
        for &(node, current_a, _, _) in &self.bus_currents {
            let (v, d) = at(node);
            sum += bus_current(current_a, v).0 * d;
        }
        sum
    }
}
