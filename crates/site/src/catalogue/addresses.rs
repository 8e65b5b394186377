//! How a family numbers its devices, and how each number is set.

use crate::keys::bounds::*;
use crate::keys::{Kind, choices, keys};
use latchline_finding::Sourced;

const FIELDS: Kind = Kind::List(&Kind::Table(&ADDRESS_FIELD));

keys! {
    /// The fields of the addresses of each class of device, in the order they are set.
    pub struct AddressScheme = ADDRESSES AddressScheme;
    read(record, provenance, indoor: Vec<AddressField>, door: Vec<AddressField>, management: Vec<AddressField>);

    /// Fields of an indoor station.
    indoor: Vec<AddressField> = list(FIELDS), by indoor;
    /// Fields of a door station.
    door: Vec<AddressField> = list(FIELDS), by door;
    /// Fields of a management station.
    management: Vec<AddressField> = list(FIELDS), by management;
    /// Whether all stations of a dwelling have one address on purpose. Without it false.
    extensions_share_address: bool = or(BOOLEAN, false);
    /// Whether a changed setting is read only at power-up. Without it false.
    latched_at_power_up: bool = or(BOOLEAN, false);
}

choices! {
    /// What a field numbers.
    pub enum FieldKind {
        /// The building, in the order of the site file unless it states a number.
        Building = "building",
        /// The entrance.
        Entrance = "entrance",
        /// The dwelling, unique in its building if the scheme has a building field, else on the site.
        Dwelling = "dwelling",
        /// The station within its dwelling: the main one and its extensions.
        Extension = "extension",
        /// The management station.
        Management = "management",
    }
}

keys! {
    /// One number of an address and how it is set.
    pub struct AddressField = ADDRESS_FIELD AddressField;
    try read(record, provenance, setter: Setter);

    /// What it numbers.
    kind as "field": FieldKind = must(Kind::Words(FieldKind::WORDS));
    /// Lowest number.
    first: Sourced<u32> = must(NUMBER);
    /// Highest number.
    last: Sourced<u32> = must(NUMBER);
    /// Numbers within the range that the system keeps for itself.
    reserved: Vec<u32> = or(Kind::List(&NUMBER), Vec::new());
    /// The number that means the main one, if one does.
    main: Option<u32> = may(NUMBER);
    /// How it is set: rotary switches, a bank of on/off switches, jumpers, or keyed in.
    key set_by = must(Kind::Words(&["rotary", "dip", "jumpers", "keyed"]));
    /// The label printed beside the switch.
    label: String = must(TEXT);
    /// How many rotary or on/off switches, or jumpers.
    key switches = may(Kind::Integer(1, 16));
    /// Positions of each rotary switch. Without it 10.
    key positions = may(Kind::Integer(2, 16));
    /// Digits to key in.
    key digits = may(Kind::Integer(1, 6));
    /// Whether switch 1 of the bank is the least or the most significant. Without it least-first.
    key order = may(Kind::Words(SwitchOrder::WORDS));
    /// Whether ON stands for 1 or 0. Without it 1.
    key on = may(Kind::Integer(0, 1));
    /// Number printed on the first switch of the bank that belongs to this field. Without it 1.
    key first_switch = may(Kind::Integer(1, 16));
    /// The switches show the number minus this. Without it 0.
    key offset = may(NUMBER);
    /// How the number is set on the device.
    field setter: Setter = setter;
}

choices! {
    /// Which switch of a bank carries the least significant bit.
    pub enum SwitchOrder {
        /// The first switch (1) is the least significant.
        LeastFirst = "least-first",
        /// The first switch (1) is the most significant.
        MostFirst = "most-first",
    }
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
