//! Direct-current resistance of conductors and cable runs.
//!
//! # Sources
//!
//! - Maximum resistance at 20 °C of plain and metal-coated copper conductors, solid (class 1), stranded
//!   (class 2) and flexible (class 5): IEC 60228:2004, Tables 1 to 3 (table numbers, and the metal-coated
//!   column of class 2, from memory).
//! - American wire gauge: diameter `0.127 mm x 92^((36 - n)/39)`, ASTM B258 (from memory).
//! - Copper resistivity 0.017241 ohm mm²/m at 20 °C: the International Annealed Copper Standard, 58 S
//!   m/mm² (IEC 60028; NBS Handbook 100). Aluminium at 61 % of it, 0.028264 ohm mm²/m (IEC 60889, from
//!   memory).
//! - Copper-clad aluminium, largest resistivity at 20 °C: 10 % copper by volume 0.02743, 15 % 0.02676 ohm
//!   mm²/m (ASTM B566, from memory).
//!
//! # Temperature
//!
//! `R(t) = R(20) (1 + a (t - 20))` with `a` = 0.00393/K for copper (IEC 60028, from memory) and
//! 0.00403/K for aluminium (IEC 60889, from memory). The list of factors printed in IEC 60228 is rounded
//! from 0.004/K: it gives 1.200 at 70 °C where this law gives 1.1965. For copper-clad aluminium, two
//! conductors in parallel, the coefficients are weighted with the conductances.

use std::fmt;

/// Resistivity of the International Annealed Copper Standard at 20 °C, ohm mm²/m (1/58 exactly).
pub const COPPER_RESISTIVITY_OHM_MM2_PER_M: f64 = 1.0 / 58.0;

/// Conductivity of electrical aluminium relative to annealed copper.
const ALUMINIUM_CONDUCTIVITY: f64 = 0.61;

/// Lowest and highest temperature accepted, °C.
pub const TEMPERATURE_RANGE_C: (f64, f64) = (-60.0, 200.0);

/// What a conductor is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Material {
    /// Annealed copper.
    Copper,
    /// Copper-clad aluminium, 10 % copper by volume.
    CopperCladAluminium10,
    /// Copper-clad aluminium, 15 % copper by volume.
    CopperCladAluminium15,
    /// Electrical aluminium.
    Aluminium,
}

impl Material {
    /// Resistivity at 20 °C, ohm mm²/m; for clad conductors the largest that the standard allows.
    #[must_use]
    pub fn resistivity_ohm_mm2_per_m(self) -> f64 {
        match self {
            Self::Copper => COPPER_RESISTIVITY_OHM_MM2_PER_M,
            Self::CopperCladAluminium10 => 0.02743,
            Self::CopperCladAluminium15 => 0.02676,
            Self::Aluminium => 0.028_264,
        }
    }

    /// Temperature coefficient of the resistance at 20 °C, 1/K.
    #[must_use]
    pub fn temperature_coefficient_per_k(self) -> f64 {
        const COPPER: f64 = 0.003_93;
        const ALUMINIUM: f64 = 0.004_03;
        let clad = |copper: f64| {
            let aluminium = (1.0 - copper) * ALUMINIUM_CONDUCTIVITY;
            (copper * COPPER + aluminium * ALUMINIUM) / (copper + aluminium)
        };
        match self {
            Self::Copper => COPPER,
            Self::CopperCladAluminium10 => clad(0.10),
            Self::CopperCladAluminium15 => clad(0.15),
            Self::Aluminium => ALUMINIUM,
        }
    }

    /// Resistance at `temperature_c` over that at 20 °C.
    ///
    /// # Errors
    /// [`ConductorError::Temperature`] outside [`TEMPERATURE_RANGE_C`].
    pub fn temperature_factor(self, temperature_c: f64) -> Result<f64, ConductorError> {
        let (least, most) = TEMPERATURE_RANGE_C;
        if !(temperature_c >= least && temperature_c <= most) {
            return Err(ConductorError::Temperature { temperature_c });
        }
        Ok(1.0 + self.temperature_coefficient_per_k() * (temperature_c - 20.0))
    }
}

/// How a conductor of IEC 60228 is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ConductorClass {
    /// Class 1, solid.
    Solid,
    /// Class 2, stranded.
    Stranded,
    /// Class 5, flexible.
    Flexible,
}

/// Surface of the wires of a copper conductor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Coating {
    /// Plain copper.
    Plain,
    /// Metal-coated (tinned).
    MetalCoated,
}

/// IEC 60228:2004: area in mm², then ohm/km at 20 °C of class 1 and 2 plain, class 5 plain, class 1 and 2
/// metal-coated, class 5 metal-coated.
const IEC_60228: [(f64, [f64; 4]); 9] = [
    (0.5, [36.0, 39.0, 36.7, 40.1]),
    (0.75, [24.5, 26.0, 24.8, 26.7]),
    (1.0, [18.1, 19.5, 18.2, 20.0]),
    (1.5, [12.1, 13.3, 12.2, 13.7]),
    (2.5, [7.41, 7.98, 7.56, 8.21]),
    (4.0, [4.61, 4.95, 4.70, 5.09]),
    (6.0, [3.08, 3.30, 3.11, 3.39]),
    (10.0, [1.83, 1.91, 1.84, 1.95]),
    (16.0, [1.15, 1.21, 1.16, 1.24]),
];

/// One conductor: its resistance per metre at 20 °C and how it changes with temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conductor {
    ohm_per_m_at_20_c: f64,
    material: Material,
}

/// A value that does not describe a conductor or run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ConductorError {
    /// The area is not one of IEC 60228 between 0.5 and 16 mm².
    NotInTable {
        /// The area, mm².
        area_mm2: f64,
    },
    /// The gauge is not between 10 and 30.
    Gauge {
        /// The gauge.
        gauge: i32,
    },
    /// A quantity is not finite or out of range.
    Quantity {
        /// Which, with its unit.
        quantity: &'static str,
        /// The value.
        value: f64,
        /// Whether zero is allowed.
        or_zero: bool,
    },
    /// The temperature is out of range.
    Temperature {
        /// The value, °C.
        temperature_c: f64,
    },
    /// No pair at all.
    Pairs {
        /// The number of pairs.
        pairs: u32,
    },
}

impl fmt::Display for ConductorError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotInTable { area_mm2 } => write!(
                f,
                "{area_mm2} mm² is not one of the areas 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10 and 16 mm² of IEC 60228"
            ),
            Self::Gauge { gauge } => write!(f, "gauge {gauge} is not between 10 and 30 AWG"),
            Self::Quantity { quantity, value, or_zero } => {
                write!(
                    f,
                    "{quantity} is {value}; it must be finite and {} 0",
                    if *or_zero { ">=" } else { ">" }
                )
            }
            Self::Temperature { temperature_c } => write!(
                f,
                "{temperature_c} °C is not between {} and {} °C",
                TEMPERATURE_RANGE_C.0, TEMPERATURE_RANGE_C.1
            ),
            Self::Pairs { pairs } => write!(f, "{pairs} pairs in parallel; at least 1 is needed"),
        }
    }
}

impl std::error::Error for ConductorError {}

fn above_zero(quantity: &'static str, value: f64) -> Result<f64, ConductorError> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(ConductorError::Quantity { quantity, value, or_zero: false })
    }
}

fn not_negative(quantity: &'static str, value: f64) -> Result<f64, ConductorError> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(ConductorError::Quantity { quantity, value, or_zero: true })
    }
}

impl Conductor {
    /// The largest resistance that IEC 60228 allows a copper conductor of nominal `area_mm2`.
    ///
    /// # Errors
    /// [`ConductorError::NotInTable`] for an area that the table (0.5 to 16 mm²) does not have.
    pub fn iec_60228(class: ConductorClass, area_mm2: f64, coating: Coating) -> Result<Self, ConductorError> {
        let row = IEC_60228.iter().find(|(area, _)| *area == area_mm2);
        let (_, ohm_per_km) = row.ok_or(ConductorError::NotInTable { area_mm2 })?;
        let column = usize::from(class == ConductorClass::Flexible)
            + if coating == Coating::MetalCoated { 2 } else { 0 };
        Ok(Self { ohm_per_m_at_20_c: ohm_per_km[column] / 1e3, material: Material::Copper })
    }

    /// A solid round wire of an American wire gauge between 10 and 30.
    ///
    /// # Errors
    /// [`ConductorError::Gauge`].
    pub fn awg(gauge: i32, material: Material) -> Result<Self, ConductorError> {
        if !(10..=30).contains(&gauge) {
            return Err(ConductorError::Gauge { gauge });
        }
        Self::solid(awg_diameter_mm(gauge), material)
    }

    /// A solid round wire of the given diameter.
    ///
    /// # Errors
    /// [`ConductorError::Quantity`] when the diameter is not above zero and finite.
    pub fn solid(diameter_mm: f64, material: Material) -> Result<Self, ConductorError> {
        let diameter_mm = above_zero("diameter in mm", diameter_mm)?;
        Self::geometric_area(std::f64::consts::FRAC_PI_4 * diameter_mm * diameter_mm, material)
    }

    /// A conductor whose metal has the cross-section `area_mm2` (not the nominal area of a standard).
    ///
    /// # Errors
    /// [`ConductorError::Quantity`] when the area is not usable.
    pub fn geometric_area(area_mm2: f64, material: Material) -> Result<Self, ConductorError> {
        let area_mm2 = above_zero("area in mm²", area_mm2)?;
        let ohm_per_m = material.resistivity_ohm_mm2_per_m() / area_mm2;
        let ohm_per_m_at_20_c = above_zero("resistance in ohm/m", ohm_per_m)?;
        Ok(Self { ohm_per_m_at_20_c, material })
    }

    /// A conductor measured (or given by a datasheet) at `ohm_per_km` for one conductor at `temperature_c`.
    ///
    /// # Errors
    /// [`ConductorError`] when the resistance or the temperature is not usable.
    pub fn measured(ohm_per_km: f64, temperature_c: f64, material: Material) -> Result<Self, ConductorError> {
        let ohm_per_km = above_zero("resistance in ohm/km", ohm_per_km)?;
        let ohm_per_m_at_20_c = ohm_per_km / 1e3 / material.temperature_factor(temperature_c)?;
        Ok(Self { ohm_per_m_at_20_c, material })
    }

    /// What it is made of.
    #[must_use]
    pub fn material(&self) -> Material {
        self.material
    }

    /// Resistance of one conductor, ohm/m, at a conductor temperature.
    ///
    /// # Errors
    /// [`ConductorError::Temperature`].
    pub fn ohm_per_m(&self, temperature_c: f64) -> Result<f64, ConductorError> {
        Ok(self.ohm_per_m_at_20_c * self.material.temperature_factor(temperature_c)?)
    }

    /// Loop resistance, ohm/m: there and back.
    ///
    /// # Errors
    /// [`ConductorError::Temperature`].
    pub fn loop_ohm_per_m(&self, temperature_c: f64) -> Result<f64, ConductorError> {
        Ok(2.0 * self.ohm_per_m(temperature_c)?)
    }
}

/// Diameter of an American wire gauge, mm: `0.127 x 92^((36 - n)/39)` (ASTM B258, from memory).
#[must_use]
pub fn awg_diameter_mm(gauge: i32) -> f64 {
    0.127 * libm::pow(92.0, f64::from(36 - gauge) / 39.0)
}

/// The American wire gauge whose number is nearest to a cross-section, by the same law.
#[must_use]
pub fn nearest_awg(area_mm2: f64) -> i32 {
    let diameter_mm = (area_mm2 / std::f64::consts::FRAC_PI_4).sqrt();
    (36.0 - 39.0 * libm::log(diameter_mm / 0.127) / libm::log(92.0)).round() as i32
}

/// A run of cable between two points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Route length, one way, m.
    pub length_m: f64,
    /// One conductor of the cable.
    pub conductor: Conductor,
    /// Pairs connected in parallel, at least 1. They lower the resistance only: the capacitance doubles
    /// and the characteristic impedance halves with two.
    pub pairs: u32,
    /// Joints and terminals in both legs together, ohm, added as they are.
    pub joints_ohm: f64,
    /// Conductor temperature, °C.
    pub temperature_c: f64,
}

impl Run {
    /// Loop resistance, ohm: both conductors, pairs in parallel, joints in series.
    ///
    /// # Errors
    /// [`ConductorError`] naming the value at fault.
    pub fn loop_resistance_ohm(&self) -> Result<f64, ConductorError> {
        let length_m = not_negative("length in m", self.length_m)?;
        let joints_ohm = not_negative("joints in ohm", self.joints_ohm)?;
        if self.pairs == 0 {
            return Err(ConductorError::Pairs { pairs: self.pairs });
        }
        let cable_ohm = self.conductor.loop_ohm_per_m(self.temperature_c)? * length_m / f64::from(self.pairs);
        not_negative("loop resistance in ohm", cable_ohm + joints_ohm)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(conductor: Conductor) -> Run {
        Run { length_m: 100.0, conductor, pairs: 1, joints_ohm: 0.0, temperature_c: 20.0 }
    }

    #[test]
    fn pairs_and_joints() {
        let conductor = Conductor::measured(50.0, 20.0, Material::Copper).unwrap();
        assert_eq!(run(conductor).loop_resistance_ohm(), Ok(10.0));
        let doubled = Run { pairs: 2, joints_ohm: 0.3, ..run(conductor) };
        assert_eq!(doubled.loop_resistance_ohm(), Ok(5.3));
    }

    #[test]
    fn a_measurement_is_brought_to_twenty_degrees() {
        let warm = Conductor::measured(50.0, 40.0, Material::Copper).unwrap();
        assert!((warm.ohm_per_m(40.0).unwrap() - 0.05).abs() < 1e-15);
        assert!((warm.ohm_per_m(20.0).unwrap() - 0.05 / 1.0786).abs() < 1e-15);
    }

    #[test]
    fn unusable_values_are_named() {
        let copper = Material::Copper;
        assert_eq!(
            Conductor::iec_60228(ConductorClass::Solid, 0.8, Coating::Plain),
            Err(ConductorError::NotInTable { area_mm2: 0.8 })
        );
        assert!(Conductor::iec_60228(ConductorClass::Solid, f64::NAN, Coating::Plain).is_err());
        assert!(Conductor::awg(9, copper).is_err() && Conductor::awg(31, copper).is_err());
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(Conductor::solid(bad, copper).is_err());
            assert!(Conductor::geometric_area(bad, copper).is_err());
            assert!(Conductor::measured(bad, 20.0, copper).is_err());
        }
        assert!(Conductor::solid(1e-200, copper).is_err());
        let conductor = Conductor::solid(0.5, copper).unwrap();
        for run in [
            Run { length_m: -1.0, ..run(conductor) },
            Run { joints_ohm: f64::NAN, ..run(conductor) },
            Run { pairs: 0, ..run(conductor) },
            Run { temperature_c: 1e9, ..run(conductor) },
            Run { length_m: f64::MAX, joints_ohm: f64::MAX, ..run(conductor) },
        ] {
            assert!(run.loop_resistance_ohm().is_err(), "{run:?}");
        }
    }
}
