//! One line of the bill.

use latchline_finding::{Both, Money};

/// What kind of thing a line of the bill is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BillKind {
    /// A supply.
    Supply,
    /// A distributor or branch box.
    Box,
    /// A door station.
    DoorStation,
    /// An indoor station.
    IndoorStation,
    /// A management station.
    ManagementStation,
    /// A door-side accessory.
    Accessory,
    /// A lock.
    Lock,
    /// A light.
    Light,
    /// A cable, in metres.
    Cable,
    /// What is in no catalogue, and has no price: a further battery, a protector, a button.
    Small,
}

/// One line.
#[derive(Debug, Clone, PartialEq)]
pub struct BillLine {
    /// What kind of thing.
    pub kind: BillKind,
    /// Name in the catalogue; of what is in none, what it is, in English.
    pub name: String,
    /// Title for documents.
    pub title: Both,
    /// Pieces; metres for cable.
    pub quantity: f64,
    /// Price of one, in the catalogue's currency.
    pub unit_price: Option<Money>,
    /// Currency of its price where that is left out, being in no currency that can be added up here.
    pub price_left_out_in: Option<String>,
    /// Number under which it is ordered.
    pub article: Option<String>,
    /// Minutes of labour for one.
    pub unit_minutes: Option<f64>,
}
