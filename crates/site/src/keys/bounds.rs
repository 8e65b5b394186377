//! Kinds of values that many keys have, and the accepted ranges of quantities: wide enough for anything real, narrow enough to catch a slip
//! of the unit or of the decimal point. Common practice, no source.

use super::{Bounds, Dimension, Kind};

macro_rules! bounds {
    ($($name:ident: $dimension:ident, $low:expr, $high:expr, $low_text:literal, $high_text:literal, $example:literal;)*) => {$(
        pub(crate) const $name: Kind = Kind::Quantity(&Bounds {
            dimension: Dimension::$dimension,
            low: $low,
            high: $high,
            low_text: $low_text,
            high_text: $high_text,
            example: $example,
        });
    )*};
}

bounds! {
    SECTION_LENGTH: Length, 0.01, 20e3, "0.01 m", "20 km", "14 m";
    END_ALLOWANCE: Length, 0.0, 10.0, "0 m", "10 m", "0.3 m";
    HEIGHT: Length, 0.1, 20.0, "0.1 m", "20 m", "1.1 m";
    VOLTAGE: Voltage, 0.5, 500.0, "0.5 V", "500 V", "48 V";
    SMALL_VOLTAGE: Voltage, 0.0, 10.0, "0 V", "10 V", "1.2 V";
    CURRENT: Current, 1e-6, 100.0, "1 uA", "100 A", "0.5 A";
    POWER: Power, 1e-3, 5e3, "1 mW", "5 kW", "60 W";
    RESISTANCE_OR_NONE: Resistance, 0.0, 1e3, "0 ohm", "1 kohm", "0.2 ohm";
    RESISTANCE: Resistance, 1e-3, 1e8, "1 mohm", "100 Mohm", "100 ohm";
    INSULATION: Resistance, 1.0, 1e12, "1 ohm", "1000000 Mohm", "20 Mohm";
    TIME: Duration, 1e-6, 86_400.0, "0.001 ms", "24 h", "5 s";
    CAPACITANCE: Capacitance, 1e-12, 1.0, "1 pF", "1 F", "220 uF";
    CAPACITANCE_PER_LENGTH: CapacitancePerLength, 1e-12, 1e-8, "1 nF/km", "10 uF/km", "50 nF/km";
    INDUCTANCE_OR_NONE: Inductance, 0.0, 100.0, "0 mH", "100 H", "4.7 mH";
    INDUCTANCE: Inductance, 1e-9, 100.0, "0.001 uH", "100 H", "4.7 mH";
    INDUCTANCE_PER_LENGTH: InductancePerLength, 1e-8, 1e-4, "10 uH/km", "100 mH/km", "0.65 mH/km";
    FREQUENCY: Frequency, 1.0, 1e9, "1 Hz", "1000 MHz", "80 kHz";
    LEVEL: Level, 0.0, 120.0, "0 dB", "120 dB", "3 dB";
    CHARGE: Charge, 0.01, 1e4, "0.01 Ah", "10000 Ah", "7 Ah";
    TEMPERATURE: Temperature, -60.0, 150.0, "-60 °C", "150 °C", "20 °C";
    TOLERANCE: Ratio, 0.0, 0.9, "0 %", "90 %", "5 %";
    EFFICIENCY: Ratio, 0.05, 1.0, "5 %", "100 %", "85 %";
}

/// Text.
pub(crate) const TEXT: Kind = Kind::Text;
/// True or false.
pub(crate) const BOOLEAN: Kind = Kind::Boolean;
/// Whether something is so, with the word that says that nobody knows.
pub(crate) const BOOLEAN_OR_NOT_KNOWN: Kind = Kind::BooleanOr("not known");
/// One or many names.
pub(crate) const NAMES: Kind = Kind::OneOrMany(&Kind::Text);
/// A count in a catalogue.
pub(crate) const COUNT: Kind = Kind::Integer(0, 100_000);
/// A count that is not nought, in a catalogue.
pub(crate) const ONE_OR_MORE: Kind = Kind::Integer(1, 100_000);
/// A count on a site.
pub(crate) const SITE_COUNT: Kind = Kind::Integer(0, 10_000);
/// A number in addresses.
pub(crate) const NUMBER: Kind = Kind::Integer(0, 999_999);
