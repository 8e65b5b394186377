//! How a family numbers its devices, and how each number is set.

use latchline_finding::Sourced;

/// The fields of the addresses of a family, class by class.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct AddressScheme {
    /// Fields of an indoor station.
    pub indoor: Vec<AddressField>,
    /// Fields of a door station.
    pub door: Vec<AddressField>,
    /// Fields of a management station.
    pub management: Vec<AddressField>,
    /// Whether extensions of a dwelling share one address on purpose.
    pub extensions_share_address: bool,
    /// Whether a changed setting is read only at power-up.
    pub latched_at_power_up: bool,
}

/// What a field numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FieldKind {
    /// The building, in the order of the site file unless it states a number.
    Building,
    /// The entrance.
    Entrance,
    /// The dwelling, unique in its building if the scheme has a building field, else on the site.
    Dwelling,
    /// The station within its dwelling: the main one and its extensions.
    Extension,
    /// The management station.
    Management,
}

impl FieldKind {
    /// The word used in files and output.
    pub fn word(self) -> &'static str {
        match self {
            FieldKind::Building => "building",
            FieldKind::Entrance => "entrance",
            FieldKind::Dwelling => "dwelling",
            FieldKind::Extension => "extension",
            FieldKind::Management => "management",
        }
    }
}

/// One number of an address.
#[derive(Debug, Clone, PartialEq)]
pub struct AddressField {
    /// What it numbers.
    pub kind: FieldKind,
    /// Lowest number.
    pub first: Sourced<u32>,
    /// Highest number.
    pub last: Sourced<u32>,
    /// Numbers within the range that the system keeps for itself.
    pub reserved: Vec<u32>,
    /// The number that means the main one (main entrance, main station), if one does.
    pub main: Option<u32>,
    /// How the number is set on the device.
    pub setter: Setter,
    /// The label printed beside the switch.
    pub label: String,
}

/// Which switch of a bank carries the least significant bit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SwitchOrder {
    /// The first switch (1) is the least significant.
    LeastFirst,
    /// The first switch (1) is the most significant.
    MostFirst,
}

/// How a number is set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Setter {
    /// Rotary switches, most significant first: each has `positions` (10 or 16) positions.
    Rotary {
        /// How many switches.
        switches: u32,
        /// Positions of each.
        positions: u32,
        /// The switches show the number minus this.
        offset: u32,
    },
    /// A bank of on/off switches.
    Dip {
        /// How many switches.
        switches: u32,
        /// Where the least significant bit is.
        order: SwitchOrder,
        /// Whether ON stands for 1 (else for 0).
        on_is_one: bool,
        /// Number printed on the bank's first switch that belongs to this field.
        first_switch: u32,
        /// The switches show the number minus this.
        offset: u32,
    },
    /// Jumpers, fitted for 1, least significant first.
    Jumpers {
        /// How many.
        jumpers: u32,
        /// The jumpers show the number minus this.
        offset: u32,
    },
    /// Keyed in on the device or from a door station.
    Keyed {
        /// Number of digits.
        digits: u32,
    },
}
