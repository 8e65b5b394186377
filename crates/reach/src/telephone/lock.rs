//! What is left at a lock over its cable.

use super::house::{assessed, heaviest, quoted, usual_family};
use crate::question::default_question;
use latchline_assess::Memory;
use latchline_finding::Sources;
use latchline_site::LoadedCatalogues;
use latchline_site::catalogue::{Cable, StationKind};

/// A lock fed by its door station over so much of a cable, judged as a door's sheet judges it.
#[derive(Debug, Clone, PartialEq)]
pub struct LockCable {
    /// The cable.
    pub cable: String,
    /// The door station that feeds it.
    pub door: String,
    /// The supply behind.
    pub supply: String,
    /// Least voltage at the lock, every tolerance against it, in volts.
    pub least_v: f64,
    /// What it needs, in volts.
    pub needs_v: f64,
    /// The longest cable of this kind with which it works, in whole metres.
    pub longest_m: Option<f64>,
}

impl LockCable {
    /// Whether the lock gets what it needs.
    pub fn holds(&self) -> bool {
        self.least_v >= self.needs_v
    }
}

/// What is left at a lock over so many metres of a cable; `None` where that cannot be judged.
pub fn lock_cable(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    lock: &str,
    cable: &str,
    length_m: f64,
) -> Option<LockCable> {
    let catalogue = catalogues.catalogue();
    let family = usual_family(catalogue)?;
    let question = default_question(catalogue, family)?;
    let door = heaviest(catalogue, family, StationKind::Door)?;
    let text = format!(
        "[site]\ntitle = \"Question\"\nfamily = {}\nindoor_station = {}\ndoor_station = {}\ncable = \"pair-0.8\"\n\
         [buildings]\nA = {{ floors = [\"G\"] }}\n[supplies]\nPS = {{ model = {}, place = \"A/G\" }}\n\
         [distributors]\nD1 = {{ model = {}, place = \"A/G\" }}\n\
         [entrances]\nfront = {{ role = \"main\", place = \"A/G\", outdoors = true, lock = {{ model = {}, cable = {}, length = \"{length_m} m\", feed = \"station\" }} }}\n\
         [dwellings]\nA-1 = {{ place = \"A/G\" }}\n[runs]\nfeed = {{ from = \"PS\", to = \"D1\", cable = \"flex-1.5\", length = \"1.5 m\" }}\n\
         flat = {{ from = \"D1.1\", to = \"A-1\", length = \"10 m\" }}\ndoor = {{ from = \"D1.2\", to = \"front\", cable = \"outdoor-0.8\", length = \"10 m\" }}\n",
        quoted(family),
        quoted(&question.station),
        quoted(&door),
        quoted(&question.supply),
        quoted(&question.distributor),
        quoted(lock),
        quoted(cable)
    );
    let (_, assessment) = assessed(sources, catalogues, text, &Memory::default()).ok()?;
    let circuit = assessment.doors.first()?.locks.first()?.circuit.as_ref().ok()?;
    let per_metre = circuit.adverse_loop_ohm / length_m;
    let longest_m =
        circuit.most_loop_ohm.map(|ohm| (ohm / per_metre).floor()).filter(|metres| metres.is_finite());
    Some(LockCable {
        cable: cable.to_string(),
        door,
        supply: question.supply,
        least_v: circuit.least_v,
        needs_v: circuit.least_allowed_v,
        longest_m,
    })
}

/// The same for every cable of the catalogue that can be judged: those that do first, the cheapest first, then those that do not,
/// the longest reaching first.
pub fn lock_cables(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    lock: &str,
    length_m: f64,
) -> Vec<LockCable> {
    let catalogue = catalogues.catalogue();
    let price = |name: &str| {
        let price = |cable: &Cable| cable.head.price.as_ref().map(|price| price.value);
        catalogue.cables.get(name).and_then(price).map_or(f64::INFINITY, |price| price.as_units())
    };
    let mut all: Vec<LockCable> = catalogue
        .cables
        .keys()
        .filter_map(|cable| lock_cable(sources, catalogues, lock, cable, length_m))
        .collect();
    all.sort_by(|a, b| {
        let reach = |one: &LockCable| one.longest_m.unwrap_or(0.0);
        let within = match a.holds() {
            true => price(&a.cable).total_cmp(&price(&b.cable)),
            false => reach(b).total_cmp(&reach(a)),
        };
        b.holds().cmp(&a.holds()).then(within).then_with(|| a.cable.cmp(&b.cable))
    });
    all
}
