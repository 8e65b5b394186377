//! The way out when full Newton steps go round in circles.

use super::Stage;
use super::elements::{bridge, bus_current};

impl Stage {
    /// Shortens the step from `voltage_v` to `next_v` to near the minimum of the co-content along
    /// it: until the derivative is a tenth of that at the start (regula falsi with the Illinois
    /// weight; the derivative rises along the step, since the co-content is convex).
    pub(super) fn line_search(&mut self, rate: f64, history_v: &[f64], open_v: f64) {
        let mut at_high = self.descent(1.0, rate, history_v, open_v);
        if at_high <= 0.0 {
            return;
        }
        let mut at_low = self.descent(0.0, rate, history_v, open_v);
        let enough = 0.1 * at_low.abs();
        let (mut low, mut high) = (0.0, 1.0);
        let mut taken = 1.0;
        for round in 0..50 {
            let share = if round % 3 == 2 { 0.5 } else { at_low / (at_low - at_high) };
            taken = low + share.clamp(0.001, 0.999) * (high - low);
            let here = self.descent(taken, rate, history_v, open_v);
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
        for (next, &old) in self.next_v.iter_mut().zip(&self.voltage_v) {
            *next = old + taken * (*next - old);
        }
    }

    /// Derivative of the co-content along the step at fraction `fraction`, W.
    fn descent(&self, fraction: f64, rate: f64, history_v: &[f64], open_v: f64) -> f64 {
        let at = |k: usize| {
            let d = self.next_v[k] - self.voltage_v[k];
            (self.voltage_v[k] + fraction * d, d)
        };
        let (v0, d0) = at(0);
        let mut sum = -self.supply(open_v, v0).0 * d0;
        for k in 0..self.parent.len() {
            let (v, d) = at(k);
            sum += (self.base_s[k] * v + self.base_b[k]) * d;
            if k == 0 || self.resistance_ohm[k] == 0.0 {
                continue;
            }
            let (vp, dp) = at(self.parent[k] as usize);
            let mut current = (vp - v) / self.resistance_ohm[k];
            if let Some(index) = self.port_of.get(k).filter(|&&i| i > 0) {
                let port = &self.ports[*index as usize - 1];
                current = if port.closed { current.min(port.limit_a) } else { 0.0 };
            }
            sum += current * (dp - d);
        }
        for (device, &h) in self.devices.iter().zip(history_v) {
            let (v, d) = at(device.node);
            sum += bridge(device, device.capacitance_f * rate, h, v).0 * d;
        }
        for &(node, current_a, _, _) in &self.bus_currents {
            let (v, d) = at(node);
            sum += bus_current(current_a, v).0 * d;
        }
        sum
    }
}
