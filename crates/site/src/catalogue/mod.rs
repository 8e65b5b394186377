//! The catalogue: families, parts and cables, every value with origin and provenance.
//!
//! A site uses the built-in catalogue and any number of the user's own files, merged by name.
//! Values that a datasheet does not give are `None`: what needs them is then *not judged*, never
//! guessed. Figures that the catalogue's author assumed carry [`Provenance::Assumed`].
//!
//! [`Provenance::Assumed`]: latchline_finding::Provenance::Assumed

pub mod addresses;
pub mod box_model;
pub mod cable;
mod conductor;
pub mod door;
pub mod family;
mod head;
pub(crate) mod load;
pub mod station;
pub mod supply;

pub use addresses::{AddressField, AddressScheme, FieldKind, Setter, SwitchOrder};
pub use box_model::{BoxKind, BoxModel, BoxRole};
pub use cable::{Cable, CableLoss, ColourCode, Environment, LineConstants, LineRest, Material};
pub use conductor::{
    conductor, conductor_ohm_per_m, length_of_loop_m, listed_loop_ohm_per_km, loop_ohm_per_km,
};
pub use door::{Accessory, AccessoryKind, Feed, Light, LightKind, Lock, LockKind, PowerLoss};
pub use family::{Family, SignalBand};
pub use head::{OriginOfPart, PartHead};
pub use station::{LoopThrough, Media, StationKind, StationModel};
pub use supply::{Battery, LimitKind, SupplyModel};

use crate::keys::bounds::TEXT;
pub use crate::keys::{Bears, Gauge, LoadValue};
use crate::keys::{KeySpec, Kind, TableSpec, keys};
pub use crate::parse::AssumedKey;
use latchline_finding::{Money, Origin, Sourced};
use latchline_words::reading::Thing;
use std::collections::{BTreeMap, BTreeSet};

// By hand: parts are read one by one, since files are merged by their names.
/// A whole catalogue file.
pub static CATALOGUE_FILE: TableSpec = TableSpec {
    name: Thing::CatalogueFile,
    doc: "Families, parts and cables. Values that the datasheet does not give are left out: what needs them is then not judged, never guessed.",
    keys: &[
        KeySpec::may(
            "currency",
            TEXT,
            "Currency of the prices of this file. The last file that states one gives that of all figures; prices in another are left out, unless `rates` has it.",
        ),
        KeySpec::may(
            "rates",
            Kind::Named(&RATE),
            "What other currencies are worth in that of this file, by their name there (\"EUR\").",
        ),
        KeySpec::may("families", Kind::Named(&family::FAMILY), "Families of parts, by name."),
        KeySpec::may("supplies", Kind::Named(&supply::SUPPLY_MODEL), "Supplies, by name."),
        KeySpec::may("boxes", Kind::Named(&box_model::BOX_MODEL), "Distributors and branch boxes, by name."),
        KeySpec::may(
            "stations",
            Kind::Named(&station::STATION_MODEL),
            "Door, indoor and management stations, by name.",
        ),
        KeySpec::may("cables", Kind::Named(&cable::CABLE), "Cables, by name."),
        KeySpec::may("locks", Kind::Named(&door::LOCK), "Locks, by name."),
        KeySpec::may("accessories", Kind::Named(&door::ACCESSORY), "Door-side accessory modules, by name."),
        KeySpec::may("lights", Kind::Named(&door::LIGHT), "Lights at doors, by name."),
    ],
};

keys! {
    /// What one unit of another currency is worth in that of this file.
    pub struct Rate = RATE Rate;
    try read(record, provenance);

    /// Units of this file's currency that one unit of the other is worth.
    worth: Sourced<f64> = must(Kind::Number(1e-6, 1e6)).bears(Bears::OnNothing);
    /// When that was so.
    date: Option<String> = may(Kind::Date).bears(Bears::OnNothing);
}

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

impl Catalogue {
    /// The names of all parts.
    pub fn part_names(&self) -> BTreeSet<&str> {
        let names = self.families.keys().chain(self.supplies.keys()).chain(self.boxes.keys());
        let names = names.chain(self.stations.keys()).chain(self.cables.keys()).chain(self.locks.keys());
        names.chain(self.accessories.keys()).chain(self.lights.keys()).map(String::as_str).collect()
    }
}

/// A price and a time for labour of the user's own, in place of the catalogue's where they are given.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OwnPrice {
    /// Where the part is named.
    pub origin: Origin,
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
