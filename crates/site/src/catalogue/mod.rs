//! The catalogue: families, parts and cables, every value with origin and provenance.
//!
//! A site uses the built-in catalogue and any number of the user's own files, merged by name.
//! Values that a datasheet does not give are `None`: what needs them is then *not judged*, never
//! guessed. Figures that the catalogue's author assumed carry [`Provenance::Assumed`].
//!
//! [`Provenance::Assumed`]: latchline_finding::Provenance::Assumed

pub mod addresses;
pub mod cable;
pub mod door;
pub(crate) mod load;
pub mod parts;

pub use addresses::{AddressField, AddressScheme, FieldKind, Setter, SwitchOrder};
pub use cable::{Cable, CableLoss, Environment, Gauge, LineConstants, LineRest, Material};
pub use door::{Accessory, AccessoryKind, Feed, Light, LightKind, Lock, LockKind, PowerLoss};
pub use parts::{
    Battery, BoxKind, BoxModel, BoxRole, Family, LimitKind, LoadValue, LoopThrough, Media, SignalBand,
    StationKind, StationModel, SupplyModel,
};

pub use crate::keys::Bears;
pub use crate::parse::AssumedKey;
use latchline_finding::{Money, Origin, Sourced};
use std::collections::BTreeMap;

/// Families, parts and cables by name.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Catalogue {
    /// The currency of all prices, as a word or sign ("EUR").
    pub currency: String,
    /// Families by name.
    pub families: BTreeMap<String, Family>,
    /// Supplies by name.
    pub supplies: BTreeMap<String, SupplyModel>,
    /// Distributors and branch boxes by name.
    pub boxes: BTreeMap<String, BoxModel>,
    /// Door, indoor and management stations by name.
    pub stations: BTreeMap<String, StationModel>,
    /// Cables by name.
    pub cables: BTreeMap<String, Cable>,
    /// Locks by name.
    pub locks: BTreeMap<String, Lock>,
    /// Door-side accessories by name.
    pub accessories: BTreeMap<String, Accessory>,
    /// Lights at doors by name.
    pub lights: BTreeMap<String, Light>,
}

/// What every part of the catalogue has.
#[derive(Debug, Clone, PartialEq)]
pub struct PartHead {
    /// The name by which site files call it.
    pub name: String,
    /// A plain title for documents.
    pub title: String,
    /// Where the figures are from: a datasheet's title and issue, a standard's table.
    pub source: String,
    /// Price per piece (cables: per metre) in the catalogue's currency.
    pub price: Option<Sourced<Money>>,
    /// Labour to mount or pull it, in minutes per piece (cables: per metre).
    pub labour_minutes: Option<Sourced<f64>>,
    /// Its keys whose values are assumed, in the order of their table.
    pub assumed: Vec<AssumedKey>,
    /// Where the part is defined.
    pub origin: OriginOfPart,
}

/// A price and a time for labour of the user's own, in place of the catalogue's where they are given.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OwnPrice {
    /// Price per piece (cables: per metre).
    pub price: Option<Sourced<Money>>,
    /// Minutes per piece (cables: per metre).
    pub labour_minutes: Option<Sourced<f64>>,
}

/// Own prices by the name of the part.
pub type OwnPrices = BTreeMap<String, OwnPrice>;

/// A part, by what all parts have.
pub(crate) trait Part {
    /// Name, title, source, price.
    fn head_mut(&mut self) -> &mut PartHead;
}

macro_rules! parts {
    ($($part:ident),*) => {$(
        impl Part for $part {
            fn head_mut(&mut self) -> &mut PartHead {
                &mut self.head
            }
        }
    )*};
}

parts!(Family, SupplyModel, BoxModel, StationModel, Cable, Lock, Accessory, Light);

/// Where a part is defined. Equality ignores it.
#[derive(Debug, Clone, Default)]
pub struct OriginOfPart(pub Origin);

impl PartialEq for OriginOfPart {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}
