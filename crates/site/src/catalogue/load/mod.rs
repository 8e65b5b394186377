//! Catalogue files to a [`Catalogue`].

mod cable;
mod door;
mod family;
mod parts;
mod require;

use crate::catalogue::{Catalogue, OwnPrices, Part, Rate};
use crate::codes;
use crate::parse::{Entry, Findings, Record};
use latchline_finding::{FileId, Finding, Money, Origin, Provenance, Severity, Sourced};
use latchline_words::reading::Thing;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Names of all parts that were written, also of those that could not be read in full, so that
/// a mistake in a part does not make every use of it look wrong.
#[derive(Debug, Clone, Default)]
pub(crate) struct PartNames {
    pub(crate) families: BTreeMap<String, Origin>,
    pub(crate) supplies: BTreeMap<String, Origin>,
    pub(crate) boxes: BTreeMap<String, Origin>,
    pub(crate) stations: BTreeMap<String, Origin>,
    pub(crate) cables: BTreeMap<String, Origin>,
    pub(crate) locks: BTreeMap<String, Origin>,
    pub(crate) accessories: BTreeMap<String, Origin>,
    pub(crate) lights: BTreeMap<String, Origin>,
}

/// Collects the parts of several files.
#[derive(Debug, Clone, Default)]
pub(crate) struct Loader {
    /// Shared by all sites that are resolved against it, until one adds cables of its own.
    pub(crate) catalogue: Arc<Catalogue>,
    pub(crate) names: Arc<PartNames>,
    /// Own prices, that take the place of the catalogue's.
    pub(crate) own_prices: Arc<OwnPrices>,
    /// Currency of the prices of each file that states one, by the file.
    currencies: BTreeMap<FileId, String>,
    /// What one unit of a currency (the first) is worth in another.
    rates: BTreeMap<(String, String), f64>,
}

impl Loader {
    /// Adds the parts of one file.
    pub(crate) fn add_file(&mut self, file: &Record<'_>, findings: &mut Findings) {
        let (catalogue, names) = (Arc::make_mut(&mut self.catalogue), Arc::make_mut(&mut self.names));
        if let Some(currency) = file.text("currency") {
            catalogue.currency = currency.to_string();
            self.currencies.insert(file.file, currency.to_string());
            for entry in file.named("rates") {
                if let Some(rate) = Rate::read(&entry.record, Provenance::Stated) {
                    self.rates.insert((entry.name.to_string(), currency.to_string()), rate.worth.value);
                }
            }
        }
        let own_prices = &*self.own_prices;
        let stated = Provenance::Datasheet;
        add(
            file.named("families"),
            Thing::Family,
            &mut names.families,
            &mut catalogue.families,
            own_prices,
            findings,
            family::family,
        );
        add(
            file.named("supplies"),
            Thing::SupplyModel,
            &mut names.supplies,
            &mut catalogue.supplies,
            own_prices,
            findings,
            parts::supply,
        );
        add(
            file.named("boxes"),
            Thing::BoxModel,
            &mut names.boxes,
            &mut catalogue.boxes,
            own_prices,
            findings,
            parts::box_model,
        );
        add(
            file.named("stations"),
            Thing::StationModel,
            &mut names.stations,
            &mut catalogue.stations,
            own_prices,
            findings,
            parts::station,
        );
        add(
            file.named("cables"),
            Thing::Cable,
            &mut names.cables,
            &mut catalogue.cables,
            own_prices,
            findings,
            |entry, findings| cable::cable(entry, stated, findings),
        );
        add(
            file.named("locks"),
            Thing::LockModel,
            &mut names.locks,
            &mut catalogue.locks,
            own_prices,
            findings,
            door::lock,
        );
        add(
            file.named("accessories"),
            Thing::Accessory,
            &mut names.accessories,
            &mut catalogue.accessories,
            own_prices,
            findings,
            door::accessory,
        );
        add(
            file.named("lights"),
            Thing::Light,
            &mut names.lights,
            &mut catalogue.lights,
            own_prices,
            findings,
            door::light,
        );
    }

    /// Brings every price into the catalogue's currency, or leaves it out where no rate is stated. To be called once, after
    /// the last file.
    pub(crate) fn settle_prices(&mut self) {
        if self.currencies.values().all(|currency| *currency == self.catalogue.currency) {
            return;
        }
        let Loader { catalogue, currencies, rates, .. } = self;
        let catalogue = Arc::make_mut(catalogue);
        let own = catalogue.currency.clone();
        let Catalogue {
            currency: _,
            families,
            supplies,
            boxes,
            stations,
            cables,
            locks,
            accessories,
            lights,
        } = catalogue;
        let heads = families.values_mut().map(Part::head_mut);
        let heads = heads.chain(supplies.values_mut().map(Part::head_mut));
        let heads = heads.chain(boxes.values_mut().map(Part::head_mut));
        let heads = heads.chain(stations.values_mut().map(Part::head_mut));
        let heads = heads.chain(cables.values_mut().map(Part::head_mut));
        let heads = heads.chain(locks.values_mut().map(Part::head_mut));
        let heads = heads.chain(accessories.values_mut().map(Part::head_mut));
        for head in heads.chain(lights.values_mut().map(Part::head_mut)) {
            // Own prices that take the place of the catalogue's come from elsewhere.
            let Some(file) = head.price.as_ref().and_then(|price| price.origin.span()).map(|span| span.file)
            else {
                continue;
            };
            let Some(currency) = currencies.get(&file).filter(|currency| **currency != own) else { continue };
            match rates.get(&(currency.clone(), own.clone())) {
                Some(worth) => {
                    let convert = |price: Sourced<Money>| price.map(|price| price.at_rate(*worth));
                    head.price = head.price.take().map(convert);
                }
                None => {
                    head.price = None;
                    head.price_left_out_in = Some(currency.clone());
                }
            }
        }
    }

    /// Adds the cables that a site file defines for itself.
    pub(crate) fn add_site_cables(&mut self, entries: &[Entry<'_>], findings: &mut Findings) {
        if entries.is_empty() {
            return;
        }
        let (catalogue, names) = (Arc::make_mut(&mut self.catalogue), Arc::make_mut(&mut self.names));
        add(
            entries,
            Thing::Cable,
            &mut names.cables,
            &mut catalogue.cables,
            &self.own_prices,
            findings,
            |entry, findings| cable::cable(entry, Provenance::Stated, findings),
        );
    }
}

fn add<T: Part>(
    entries: &[Entry<'_>],
    kind: Thing,
    names: &mut BTreeMap<String, Origin>,
    parts: &mut BTreeMap<String, T>,
    own_prices: &OwnPrices,
    findings: &mut Findings,
    mut build: impl FnMut(&Entry<'_>, &mut Findings) -> Option<T>,
) {
    for entry in entries {
        let origin = entry.record.at(&entry.span);
        let replaces = entry.record.read::<bool>("replaces", Provenance::Stated).unwrap_or(false);
        match (names.get(entry.name), replaces) {
            (Some(first), false) => {
                findings.push(
                    Finding::new(codes::DUPLICATE_PART, Severity::Error, origin)
                        .with("name", entry.name)
                        .with("kind", kind.both())
                        .also_at("first-defined-here", first.clone()),
                );
                continue;
            }
            (None, true) => findings.push(
                Finding::new(codes::REPLACES_NOTHING, Severity::Warning, origin.clone())
                    .with("name", entry.name)
                    .with("kind", kind.both()),
            ),
            _ => {}
        }
        names.insert(entry.name.to_string(), origin);
        match build(entry, findings) {
            Some(mut part) => {
                part.head_mut().assumed = entry.record.assumed_keys();
                if let Some(own) = own_prices.get(entry.name) {
                    let head = part.head_mut();
                    head.price = own.price.clone().or(head.price.take());
                    head.labour_minutes = own.labour_minutes.clone().or(head.labour_minutes.take());
                }
                parts.insert(entry.name.to_string(), part);
            }
            // The earlier part must not stand in for one that could not be read.
            None => {
                parts.remove(entry.name);
            }
        }
    }
}
