//! The bill of quantities of a site: what must be bought and pulled, and what it costs.
//!
//! Cable that is already in the walls is not bought. Prices and labour come from the catalogue;
//! a part without a price is listed and counted, and the total says how many lines have none. What the site file counts and no catalogue
//! lists (further batteries, protectors, buttons) is a line like any other: see `small_parts`.

mod line;
mod small_parts;

pub use line::{BillKind, BillLine};
pub use small_parts::has_own_terminator;

use crate::catalogue::{PartHead, StationKind};
use crate::model::Site;
use latchline_finding::Money;
use small_parts::small_parts;
use std::collections::BTreeMap;

/// All lines, by kind and name.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bill {
    /// The lines.
    pub lines: Vec<BillLine>,
}

impl Bill {
    /// The bill of a site.
    pub fn of(site: &Site) -> Bill {
        let mut quantities = Quantities::default();
        for supply in &site.supplies {
            quantities.add(BillKind::Supply, &site.supply_model(supply).head, 1.0);
        }
        for distribution_box in &site.boxes {
            quantities.add(BillKind::Box, &site.box_model(distribution_box).head, 1.0);
        }
        for station in &site.stations {
            let model = site.station_model(station);
            let kind = match model.kind.value {
                StationKind::Door => BillKind::DoorStation,
                StationKind::Indoor => BillKind::IndoorStation,
                StationKind::Management => BillKind::ManagementStation,
            };
            quantities.add(kind, &model.head, 1.0);
        }
        for entrance in &site.entrances {
            for name in &entrance.accessories {
                quantities.add(BillKind::Accessory, &site.accessory(name).head, 1.0);
            }
            for lock in &entrance.locks {
                quantities.add(BillKind::Lock, &site.lock(lock).head, 1.0);
            }
            for light in &entrance.lights {
                quantities.add(BillKind::Light, &site.light(light).head, 1.0);
            }
        }
        for laid in site.cable_lengths().iter().filter(|laid| !laid.is_existing) {
            let head = &site.catalogue.cables[&laid.cable].head;
            quantities.add(BillKind::Cable, head, laid.length.as_metres() * f64::from(laid.side_by_side));
        }
        let mut bill = quantities.into_bill();
        bill.lines.extend(small_parts(site));
        bill
    }

    /// Price of all lines that have one, in the catalogue's currency.
    pub fn material(&self) -> Money {
        self.lines.iter().filter_map(|line| Some(line.unit_price?.times(line.quantity))).sum()
    }

    /// Labour of all lines that have it, in minutes.
    pub fn minutes(&self) -> f64 {
        self.lines.iter().filter_map(|line| Some(line.quantity * line.unit_minutes?)).sum()
    }

    /// What this bill has more than another; `None` if it has more of a part without a price, since what that costs is not known. For a part
    /// without a price that goes nothing is given back.
    pub fn material_beyond(&self, other: &Bill) -> Option<Money> {
        let comes = self.beyond(other).any(|line| line.unit_price.is_none());
        (!comes).then(|| self.material() - other.material())
    }

    /// Whether it has more of any part than another.
    pub fn has_more_than(&self, other: &Bill) -> bool {
        self.beyond(other).next().is_some()
    }

    /// Lines of which it has more than another.
    fn beyond<'a>(&'a self, other: &'a Bill) -> impl Iterator<Item = &'a BillLine> {
        let had = |line: &BillLine| {
            let same = other.lines.iter().find(|one| (one.kind, &one.name) == (line.kind, &line.name));
            same.map_or(0.0, |one| one.quantity)
        };
        self.lines.iter().filter(move |line| line.quantity > had(line) + LEAST_QUANTITY)
    }

    /// Lines without a price.
    pub fn unpriced(&self) -> usize {
        self.lines.iter().filter(|line| line.unit_price.is_none()).count()
    }
}

/// Less than this of a piece or of a metre is nothing.
const LEAST_QUANTITY: f64 = 0.005;

#[derive(Default)]
struct Quantities<'a> {
    by_part: BTreeMap<(BillKind, &'a str), (f64, Option<&'a PartHead>)>,
}

impl<'a> Quantities<'a> {
    fn add(&mut self, kind: BillKind, head: &'a PartHead, quantity: f64) {
        let entry = self.by_part.entry((kind, &head.name)).or_default();
        entry.0 += quantity;
        entry.1 = Some(head);
    }

    fn into_bill(self) -> Bill {
        let lines = self.by_part.into_iter().filter_map(|((kind, name), (quantity, head))| {
            let head = head?;
            Some(BillLine {
                kind,
                name: name.to_string(),
                title: head.title.clone(),
                quantity,
                unit_price: head.price.as_ref().map(|price| price.value),
                price_left_out_in: head.price_left_out_in.clone(),
                article: head.article.clone(),
                unit_minutes: head.labour_minutes.as_ref().map(|minutes| minutes.value),
            })
        });
        Bill { lines: lines.collect() }
    }
}
