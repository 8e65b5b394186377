//! Numbers with units.

/// Units in which figures are given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// V
    Volt,
    /// A
    Ampere,
    /// W
    Watt,
    /// ohm
    Ohm,
    /// m
    Metre,
    /// s
    Second,
    /// h
    Hour,
    /// F
    Farad,
    /// Ah
    AmpereHour,
    /// Hz
    Hertz,
    /// dB
    Decibel,
    /// degrees Celsius
    Celsius,
    /// a pure ratio, shown as such
    Ratio,
    /// a ratio, shown in per cent
    Percent,
    /// a number of stations, dwellings, boxes, ...
    Count,
}

impl Unit {
    /// The symbol as written after a figure; empty for counts and ratios.
    pub fn symbol(self) -> &'static str {
        match self {
            Unit::Volt => "V",
            Unit::Ampere => "A",
            Unit::Watt => "W",
            Unit::Ohm => "ohm",
            Unit::Metre => "m",
            Unit::Second => "s",
            Unit::Hour => "h",
            Unit::Farad => "F",
            Unit::AmpereHour => "Ah",
            Unit::Hertz => "Hz",
            Unit::Decibel => "dB",
            Unit::Celsius => "°C",
            Unit::Percent => "%",
            Unit::Ratio | Unit::Count => "",
        }
    }
}

/// A number with its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// The number, in the base unit that `unit` names (per cent as 0.05, not 5).
    pub value: f64,
    /// Its unit.
    pub unit: Unit,
}

impl Figure {
    /// A number with its unit.
    pub fn new(value: f64, unit: Unit) -> Self {
        Self { value, unit }
    }

    /// A count.
    pub fn count(value: usize) -> Self {
        Self { value: value as f64, unit: Unit::Count }
    }
}
