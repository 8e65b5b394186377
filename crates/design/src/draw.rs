//! What a catalogue value draws.

use crate::electric::Draw;
use latchline_site::catalogue::LoadValue;

/// The least that a load draws in the adverse corner while its voltage is at least `least_v`.
pub(crate) fn draw(value: LoadValue, factor: f64, least_v: f64) -> Draw {
    match value {
        LoadValue::Power(power) => Draw { power_w: power.as_watts() * factor, current_a: 0.0 },
        LoadValue::Current(current) => Draw { power_w: 0.0, current_a: current.as_amps() * factor },
        LoadValue::Resistance(ohm) => {
            Draw { power_w: 0.0, current_a: least_v / ohm.as_ohms().max(1e-3) * factor }
        }
    }
}

pub(crate) fn plus(a: Draw, b: Draw) -> Draw {
    Draw { power_w: a.power_w + b.power_w, current_a: a.current_a + b.current_a }
}
