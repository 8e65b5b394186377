//! How warm a conductor gets when nothing acts.

use std::fmt;

/// An input outside the range of the formula.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatError {
    /// Name of the quantity with its unit.
    pub quantity: &'static str,
    /// The value.
    pub value: f64,
}

impl fmt::Display for HeatError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} is {}, must be finite and above 0", self.quantity, self.value)
    }
}

impl std::error::Error for HeatError {}

fn positive(quantity: &'static str, value: f64) -> Result<(), HeatError> {
    if value.is_finite() && value > 0.0 { Ok(()) } else { Err(HeatError { quantity, value }) }
}

/// Heat of a pair per metre of cable, W/m: `2 I^2 R`, with `R` that of one conductor per metre at
/// its present temperature.
fn heat_per_metre_w(current_a: f64, conductor_ohm_per_m: f64) -> f64 {
    2.0 * current_a * current_a * conductor_ohm_per_m
}

/// Steady conductor temperature of a pair, °C; `None` if the heat grows faster with temperature
/// than it is carried off, so that there is none.
///
/// `T = T_a + W 2 I^2 R20 (1 + alpha (T - 20))`, `alpha` the metal's at 20 °C in 1/K, solved for `T`. *Assumes* one thermal
/// resistance from the conductors to the air, in K m/W, the same at every temperature, both
/// conductors equally warm, and no neighbour cables; the caller states it (about 5 to 10 K m/W for
/// a thin pair in free air and more in insulation: common practice, no source).
///
/// # Errors
/// [`HeatError`] for a resistance, coefficient, current or thermal resistance that is not above 0.
pub fn steady_temperature_c(
    current_a: f64,
    conductor_ohm_per_m_at_20_c: f64,
    per_k: f64,
    thermal_k_m_per_w: f64,
    ambient_c: f64,
) -> Result<Option<f64>, HeatError> {
    positive("current in A", current_a)?;
    positive("resistance in ohm/m", conductor_ohm_per_m_at_20_c)?;
    positive("temperature coefficient in 1/K", per_k)?;
    positive("thermal resistance in K m/W", thermal_k_m_per_w)?;
    if !ambient_c.is_finite() {
        return Err(HeatError { quantity: "ambient temperature in °C", value: ambient_c });
    }
    let rise_k = thermal_k_m_per_w * heat_per_metre_w(current_a, conductor_ohm_per_m_at_20_c);
    let feedback = rise_k * per_k;
    Ok((feedback < 1.0).then(|| (ambient_c + rise_k * (1.0 - 20.0 * per_k)) / (1.0 - feedback)))
}
