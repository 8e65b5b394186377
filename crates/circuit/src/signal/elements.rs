//! What hangs on the pair: shunt elements at nodes and two-ports at a node's entry.

use std::f64::consts::TAU;

use super::complex::Complex;
use super::value::{ValueError, check_frequency_hz, not_negative, positive};

/// An element between the two conductors at a node.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shunt {
    /// A bridging load or terminator: a resistance, with an optional capacitor in series that keeps the
    /// DC out, and a capacitance in parallel with both.
    Load {
        /// Resistance in ohm, above 0.
        resistance_ohm: f64,
        /// Series capacitor in farad; `None` is a plain resistance.
        series_capacitance_f: Option<f64>,
        /// Capacitance in parallel in farad; 0 for none.
        parallel_capacitance_f: f64,
    },
    /// A supply behind its choke. The supply itself is taken as a short for signals, so only the choke's
    /// inductance and winding resistance remain.
    FeedChoke {
        /// Inductance in henry, above 0.
        inductance_h: f64,
        /// Resistance of the winding in ohm.
        winding_resistance_ohm: f64,
    },
}

impl Shunt {
    /// Checks the values.
    pub fn check(&self) -> Result<(), ValueError> {
        match *self {
            Self::Load { resistance_ohm, series_capacitance_f, parallel_capacitance_f } => {
                positive("resistance_ohm", resistance_ohm)?;
                if let Some(capacitance_f) = series_capacitance_f {
                    positive("series_capacitance_f", capacitance_f)?;
                }
                not_negative("parallel_capacitance_f", parallel_capacitance_f)
            }
            Self::FeedChoke { inductance_h, winding_resistance_ohm } => {
                positive("inductance_h", inductance_h)?;
                not_negative("winding_resistance_ohm", winding_resistance_ohm)
            }
        }
    }

    /// Admittance in siemens at `frequency_hz`.
    pub fn admittance_s(&self, frequency_hz: f64) -> Complex {
        let w = TAU * frequency_hz;
        match *self {
            Self::Load { resistance_ohm, series_capacitance_f, parallel_capacitance_f } => {
                let through = match series_capacitance_f {
                    None => Complex::new(1.0 / resistance_ohm, 0.0),
                    // jwC / (1 + jwRC), written so that neither a tiny nor a huge wRC overflows
                    Some(capacitance_f) => {
                        let x = w * resistance_ohm * capacitance_f;
                        let scale = 1.0 / resistance_ohm;
                        if x > 1.0 {
                            Complex::new(scale / (1.0 + 1.0 / (x * x)), scale / (x + 1.0 / x))
                        } else {
                            Complex::new(scale * x * x / (1.0 + x * x), scale * x / (1.0 + x * x))
                        }
                    }
                };
                through + Complex::new(0.0, w * parallel_capacitance_f)
            }
            Self::FeedChoke { inductance_h, winding_resistance_ohm } => {
                Complex::new(winding_resistance_ohm, w * inductance_h).reciprocal()
            }
        }
    }
}

/// One row of a box's loss table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LossPoint {
    /// Frequency in hertz.
    pub frequency_hz: f64,
    /// Insertion loss in decibel between its reference impedances, 0 to 200.
    pub loss_db: f64,
}

/// A two-port between the end of the incoming cable and the node.
#[derive(Clone, Debug, PartialEq)]
pub enum Entry {
    /// A resistance and inductance in the loop.
    Series {
        /// Resistance in ohm, both legs together.
        resistance_ohm: f64,
        /// Inductance in henry, both legs together.
        inductance_h: f64,
    },
    /// A surge protector: decoupling resistance on the cable side, clamping capacitance on the node side.
    SurgeProtector {
        /// Series resistance in ohm, both legs together.
        series_resistance_ohm: f64,
        /// Capacitance between the conductors in farad.
        shunt_capacitance_f: f64,
    },
    /// A box of which only the loss is known: a symmetrical resistive T attenuator that has that loss
    /// between the reference impedance on both sides and is matched to it.
    Loss {
        /// Reference impedance in ohm.
        reference_ohm: f64,
        /// Loss over frequency, frequencies strictly rising; straight lines over the logarithm of
        /// frequency between, constant beyond the ends.
        table: Vec<LossPoint>,
    },
}

/// A T network from the cable side to the node: series, shunt, series.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct TeeNetwork {
    /// Series impedance on the cable side, ohm.
    pub cable_side_ohm: Complex,
    /// Shunt admittance in the middle, siemens.
    pub shunt_s: Complex,
    /// Series impedance on the node side, ohm.
    pub node_side_ohm: Complex,
}

impl Entry {
    /// Checks the values.
    pub fn check(&self) -> Result<(), ValueError> {
        match self {
            Self::Series { resistance_ohm, inductance_h } => {
                not_negative("resistance_ohm", *resistance_ohm)?;
                not_negative("inductance_h", *inductance_h)
            }
            Self::SurgeProtector { series_resistance_ohm, shunt_capacitance_f } => {
                not_negative("series_resistance_ohm", *series_resistance_ohm)?;
                not_negative("shunt_capacitance_f", *shunt_capacitance_f)
            }
            Self::Loss { reference_ohm, table } => {
                positive("reference_ohm", *reference_ohm)?;
                if table.is_empty() {
                    return Err(ValueError {
                        quantity: "rows of loss table",
                        value: 0.0,
                        limit: "at least 1",
                    });
                }
                let mut before_hz = 0.0;
                for point in table {
                    check_frequency_hz(point.frequency_hz)?;
                    if point.frequency_hz <= before_hz {
                        return Err(ValueError {
                            quantity: "frequency_hz of loss table",
                            value: point.frequency_hz,
                            limit: "above that of the row before",
                        });
                    }
                    before_hz = point.frequency_hz;
                    if !(0.0..=200.0).contains(&point.loss_db) {
                        return Err(ValueError {
                            quantity: "loss_db",
                            value: point.loss_db,
                            limit: "between 0 and 200",
                        });
                    }
                }
                Ok(())
            }
        }
    }

    /// Whether it is the same at every frequency.
    pub(super) fn is_flat(&self) -> bool {
        match self {
            Self::Series { inductance_h, .. } => *inductance_h == 0.0,
            Self::SurgeProtector { shunt_capacitance_f, .. } => *shunt_capacitance_f == 0.0,
            Self::Loss { table, .. } => table.len() == 1,
        }
    }

    /// The network at `frequency_hz`.
    pub(super) fn at(&self, frequency_hz: f64) -> TeeNetwork {
        let w = TAU * frequency_hz;
        match self {
            Self::Series { resistance_ohm, inductance_h } => TeeNetwork {
                cable_side_ohm: Complex::new(*resistance_ohm, w * inductance_h),
                ..TeeNetwork::default()
            },
            Self::SurgeProtector { series_resistance_ohm, shunt_capacitance_f } => TeeNetwork {
                cable_side_ohm: Complex::new(*series_resistance_ohm, 0.0),
                shunt_s: Complex::new(0.0, w * shunt_capacitance_f),
                ..TeeNetwork::default()
            },
            Self::Loss { reference_ohm, table } => {
                // Matched T attenuator: K = 10^(dB/20); series Z (K-1)/(K+1), shunt Z 2K/(K^2-1).
                let k_less_one = libm::expm1(loss_db(table, frequency_hz) * (std::f64::consts::LN_10 / 20.0));
                let k = k_less_one + 1.0;
                let arm = Complex::new(reference_ohm * (k_less_one / (k + 1.0)), 0.0);
                TeeNetwork {
                    cable_side_ohm: arm,
                    shunt_s: Complex::new(k_less_one * (k + 1.0) / (2.0 * k * reference_ohm), 0.0),
                    node_side_ohm: arm,
                }
            }
        }
    }
}

/// Loss at a frequency from a table that has been checked.
fn loss_db(table: &[LossPoint], frequency_hz: f64) -> f64 {
    let after = table.partition_point(|point| point.frequency_hz <= frequency_hz);
    match (after.checked_sub(1).and_then(|k| table.get(k)), table.get(after)) {
        (Some(low), Some(high)) => {
            let part =
                libm::log(frequency_hz / low.frequency_hz) / libm::log(high.frequency_hz / low.frequency_hz);
            low.loss_db + part * (high.loss_db - low.loss_db)
        }
        (Some(only), None) | (None, Some(only)) => only.loss_db,
        (None, None) => 0.0,
    }
}
