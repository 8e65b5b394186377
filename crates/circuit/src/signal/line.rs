//! A uniform line: its constants per metre over frequency, propagation constant and characteristic
//! impedance.

use std::f64::consts::TAU;

use super::complex::Complex;
use super::value::{ValueError, not_negative, positive};

/// Decibel per neper, `20 log10(e)`.
pub const DB_PER_NEPER: f64 = 8.685889638065037;

/// Line constants at one frequency, per metre of pair (both conductors together).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PerMetre {
    /// Loop resistance, ohm per metre.
    pub r_ohm_per_m: f64,
    /// Loop inductance, henry per metre.
    pub l_h_per_m: f64,
    /// Capacitance between the conductors, farad per metre.
    pub c_f_per_m: f64,
    /// Leakage between the conductors, siemens per metre.
    pub g_s_per_m: f64,
}

/// Constant L and C, R with a skin corner, G constant or in proportion to frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlainLine {
    /// Loop resistance at low frequency, ohm per metre.
    pub r_ohm_per_m: f64,
    /// Loop inductance, henry per metre.
    pub l_h_per_m: f64,
    /// Capacitance, farad per metre.
    pub c_f_per_m: f64,
    /// Leakage that does not depend on frequency, siemens per metre.
    pub g_s_per_m: f64,
    /// Corner `fc` of `R(f) = R (1 + (f/fc)^2)^(1/4)`; `None` keeps R constant.
    pub skin_corner_hz: Option<f64>,
    /// Loss tangent of the insulation: adds `w C tan(delta)` to the leakage.
    pub loss_tangent: f64,
}

/// The form used for reference models of telephone cables (ITU-T G.996.1, ETSI TM6, ANSI T1.417; from
/// memory), per kilometre and with the frequency in hertz:
///
/// ```text
/// R = (r0^4 + a f^2)^(1/4)      L = (l0 + linf (f/fm)^b) / (1 + (f/fm)^b)
/// G = g0 f^ge                   C = cinf + c0 f^-ce
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CableModel {
    /// `r0`, ohm per kilometre of loop.
    pub r0_ohm_per_km: f64,
    /// `a`, ohm^4 / (km^4 Hz^2).
    pub a: f64,
    /// `l0`, henry per kilometre.
    pub l0_h_per_km: f64,
    /// `linf`, henry per kilometre.
    pub l_infinite_h_per_km: f64,
    /// Exponent `b`.
    pub b: f64,
    /// `fm`, hertz.
    pub fm_hz: f64,
    /// `cinf`, farad per kilometre.
    pub c_infinite_f_per_km: f64,
    /// `c0`, farad per kilometre (with f in hertz).
    pub c0_f_per_km: f64,
    /// Exponent `ce`.
    pub ce: f64,
    /// `g0`, siemens per kilometre (with f in hertz).
    pub g0_s_per_km: f64,
    /// Exponent `ge`.
    pub ge: f64,
}

/// How the constants of a pair depend on frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LineLaw {
    /// Constant L and C with a skin corner.
    Plain(PlainLine),
    /// The telephone-cable reference form.
    Model(CableModel),
}

impl LineLaw {
    /// The constants of one pair at 20 degrees Celsius.
    pub fn at(&self, frequency_hz: f64) -> PerMetre {
        match self {
            Self::Plain(line) => PerMetre {
                r_ohm_per_m: match line.skin_corner_hz {
                    Some(corner_hz) => line.r_ohm_per_m * skin_factor(frequency_hz / corner_hz),
                    None => line.r_ohm_per_m,
                },
                l_h_per_m: line.l_h_per_m,
                c_f_per_m: line.c_f_per_m,
                g_s_per_m: line.g_s_per_m + TAU * frequency_hz * line.c_f_per_m * line.loss_tangent,
            },
            Self::Model(model) => {
                let rise = libm::pow(frequency_hz / model.fm_hz, model.b);
                let r4 = model.r0_ohm_per_km.powi(2).powi(2) + model.a * frequency_hz * frequency_hz;
                // Divided through by the rise where that is large, so that it cannot become inf/inf.
                let l = if rise > 1.0 {
                    (model.l0_h_per_km / rise + model.l_infinite_h_per_km) / (1.0 / rise + 1.0)
                } else {
                    (model.l0_h_per_km + model.l_infinite_h_per_km * rise) / (1.0 + rise)
                };
                let c = model.c_infinite_f_per_km + model.c0_f_per_km * libm::pow(frequency_hz, -model.ce);
                let g = model.g0_s_per_km * libm::pow(frequency_hz, model.ge);
                PerMetre {
                    r_ohm_per_m: r4.sqrt().sqrt() * 1e-3,
                    l_h_per_m: l * 1e-3,
                    c_f_per_m: c * 1e-3,
                    g_s_per_m: g * 1e-3,
                }
            }
        }
    }

    fn check(&self) -> Result<(), ValueError> {
        match self {
            Self::Plain(line) => {
                not_negative("r_ohm_per_m", line.r_ohm_per_m)?;
                not_negative("l_h_per_m", line.l_h_per_m)?;
                positive("c_f_per_m", line.c_f_per_m)?;
                not_negative("g_s_per_m", line.g_s_per_m)?;
                not_negative("loss_tangent", line.loss_tangent)?;
                if let Some(corner_hz) = line.skin_corner_hz {
                    super::value::check_frequency_hz(corner_hz)
                        .map_err(|error| ValueError { quantity: "skin_corner_hz", ..error })?;
                }
                if line.r_ohm_per_m == 0.0 {
                    positive("l_h_per_m", line.l_h_per_m).map_err(|error| ValueError {
                        limit: "above 0 (1e-24 to 1e12) where r_ohm_per_m is 0",
                        ..error
                    })?;
                }
                Ok(())
            }
            Self::Model(model) => {
                positive("r0_ohm_per_km", model.r0_ohm_per_km)?;
                not_negative("a", model.a)?;
                not_negative("l0_h_per_km", model.l0_h_per_km)?;
                not_negative("l_infinite_h_per_km", model.l_infinite_h_per_km)?;
                positive("fm_hz", model.fm_hz)?;
                positive("c_infinite_f_per_km", model.c_infinite_f_per_km)?;
                not_negative("c0_f_per_km", model.c0_f_per_km)?;
                not_negative("g0_s_per_km", model.g0_s_per_km)?;
                for (quantity, value) in [("b", model.b), ("ce", model.ce), ("ge", model.ge)] {
                    // No published model comes near 4; far above it powers of the frequency overflow.
                    if !(0.0..=4.0).contains(&value) {
                        return Err(ValueError { quantity, value, limit: "between 0 and 4" });
                    }
                }
                Ok(())
            }
        }
    }
}

/// `(1 + x^2)^(1/4)`: 1 at low frequency, `sqrt(x)` far above the corner.
pub(super) fn skin_factor(x: f64) -> f64 {
    (1.0 + x * x).sqrt().sqrt()
}

/// A cable as laid: the law of its pair, how warm it is and how many pairs share the current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    law: LineLaw,
    resistance_factor: f64,
    pairs: u32,
}

impl Line {
    /// One pair at 20 degrees Celsius. Errors if a constant is outside its limits; capacitance must be
    /// above zero, and so must at least one of resistance and inductance.
    pub fn new(law: LineLaw) -> Result<Self, ValueError> {
        law.check()?;
        Ok(Self { law, resistance_factor: 1.0, pairs: 1 })
    }

    /// The same line with its resistance multiplied by `factor` (1 at 20 degrees Celsius, above 0).
    ///
    /// The factor is applied at all frequencies. Metal alone would follow its square root far above the
    /// skin corner; with insulation losses the loss of data cable grows by about 0.4 % per kelvin
    /// (TIA-568), which is what the full factor gives.
    pub fn with_resistance_factor(self, factor: f64) -> Result<Self, ValueError> {
        positive("resistance_factor", factor)?;
        Ok(Self { resistance_factor: factor, ..self })
    }

    /// The same line with `pairs` equal pairs in parallel (at least 1): resistance and inductance are
    /// divided by their number, capacitance and leakage multiplied, so Z0 is divided and the propagation
    /// constant stays. Coupling between the pairs is left out.
    pub fn with_pairs(self, pairs: u32) -> Result<Self, ValueError> {
        if pairs == 0 || pairs > 10_000 {
            return Err(ValueError { quantity: "pairs", value: f64::from(pairs), limit: "1 to 10000" });
        }
        Ok(Self { pairs, ..self })
    }

    /// How many pairs share the current.
    pub fn pairs(&self) -> u32 {
        self.pairs
    }

    /// By what the resistance is multiplied.
    pub fn resistance_factor(&self) -> f64 {
        self.resistance_factor
    }

    /// The law of one pair.
    pub fn law(&self) -> &LineLaw {
        &self.law
    }

    /// The constants at `frequency_hz` (above 0), temperature and parallel pairs included.
    pub fn at(&self, frequency_hz: f64) -> PerMetre {
        let one = self.law.at(frequency_hz);
        let pairs = f64::from(self.pairs);
        PerMetre {
            r_ohm_per_m: one.r_ohm_per_m * self.resistance_factor / pairs,
            l_h_per_m: one.l_h_per_m / pairs,
            c_f_per_m: one.c_f_per_m * pairs,
            g_s_per_m: one.g_s_per_m * pairs,
        }
    }

    /// Propagation constant per metre at `frequency_hz`: attenuation in neper (real part) and phase in
    /// radians (imaginary part). `sqrt((R + jwL)(G + jwC))`.
    pub fn propagation_per_m(&self, frequency_hz: f64) -> Complex {
        self.at(frequency_hz).propagation_per_m(frequency_hz)
    }

    /// Characteristic impedance in ohm at `frequency_hz`: `sqrt((R + jwL) / (G + jwC))`.
    pub fn characteristic_impedance_ohm(&self, frequency_hz: f64) -> Complex {
        self.at(frequency_hz).characteristic_impedance_ohm(frequency_hz)
    }

    /// Attenuation of the matched line, decibel per metre.
    pub fn attenuation_db_per_m(&self, frequency_hz: f64) -> f64 {
        self.propagation_per_m(frequency_hz).re * DB_PER_NEPER
    }

    /// Delay `sqrt(LC)` in seconds per metre at `frequency_hz`: what spaces notches and ripples far above
    /// the frequency where R equals wL.
    pub fn delay_s_per_m(&self, frequency_hz: f64) -> f64 {
        let constants = self.at(frequency_hz);
        (constants.l_h_per_m * constants.c_f_per_m).sqrt()
    }
}

impl PerMetre {
    /// Series impedance, ohm per metre.
    pub fn series(&self, frequency_hz: f64) -> Complex {
        Complex::new(self.r_ohm_per_m, TAU * frequency_hz * self.l_h_per_m)
    }

    /// Shunt admittance, siemens per metre.
    pub fn shunt(&self, frequency_hz: f64) -> Complex {
        Complex::new(self.g_s_per_m, TAU * frequency_hz * self.c_f_per_m)
    }

    /// See [`Line::propagation_per_m`].
    pub fn propagation_per_m(&self, frequency_hz: f64) -> Complex {
        root_of_product(self.series(frequency_hz), self.shunt(frequency_hz))
    }

    /// See [`Line::characteristic_impedance_ohm`].
    pub fn characteristic_impedance_ohm(&self, frequency_hz: f64) -> Complex {
        self.propagation_per_m(frequency_hz) / self.shunt(frequency_hz)
    }
}

/// `sqrt(z y)` of two numbers in the first quadrant; the root is in the first quadrant as well.
///
/// The smaller part of the root comes from a division, not from a difference, so the small attenuation
/// of an almost lossless line keeps its figures. `Re z Re y - Im z Im y` may cancel, but then
/// `Im(z y) >= 2 sqrt(Re z Re y Im z Im y)` is at least twice either term and decides the root.
pub(super) fn root_of_product(z: Complex, y: Complex) -> Complex {
    let product = z * y;
    let norm = (product.re * product.re + product.im * product.im).sqrt();
    let large = (0.5 * (norm + product.re.abs())).sqrt();
    let small = product.im / (2.0 * large);
    if product.re > 0.0 { Complex::new(large, small) } else { Complex::new(small, large) }
}
