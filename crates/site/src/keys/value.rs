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
