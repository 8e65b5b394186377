//! Values whose unit says what they are.

use latchline_finding::quantity::{Area, Current, Power, Resistance, ResistancePerLength};

/// A load as a datasheet gives it: which of the three, the unit says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LoadValue {
    /// Draws this power whatever its voltage ("4.5 W").
    Power(Power),
    /// Draws this current whatever its voltage ("85 mA").
    Current(Current),
    /// A resistance across the bus ("470 ohm").
    Resistance(Resistance),
}

/// How the size of a conductor is given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Gauge {
    /// A nominal cross-section of IEC 60228, with its class (1, 2 or 5).
    CrossSection {
        /// Nominal cross-section.
        area: Area,
        /// 1 solid, 2 stranded, 5 flexible.
        class: u8,
    },
    /// An American wire gauge.
    Awg(u8),
    /// The diameter of a solid wire in millimetres.
    DiameterMm(f64),
    /// A stated resistance per metre of one conductor at 20 °C.
    Resistance(ResistancePerLength),
}

impl Gauge {
    /// As a file writes it: "1.5 mm²", "24 AWG", "0.8 mm", "84.2 ohm/km".
    pub fn written(self) -> String {
        match self {
            Gauge::CrossSection { area, .. } => {
                format!("{} mm²", to_a_millionth(area.as_square_millimetres()))
            }
            Gauge::Awg(gauge) => format!("{gauge} AWG"),
            Gauge::DiameterMm(diameter_mm) => format!("{} mm", to_a_millionth(diameter_mm)),
            Gauge::Resistance(value) => format!("{} ohm/km", to_a_millionth(value.as_ohms_per_metre() * 1e3)),
        }
    }
}

/// Without the last digits that converting a unit leaves.
fn to_a_millionth(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
