//! What is left at a lock over its cable.

use super::house::{assessed, quoted};
use crate::question::default_question;
use latchline_assess::door::own_supply::{LOCK_SUPPLY_TOLERANCE_PERCENT, LOCK_SUPPLY_VOLTAGES_V};
use latchline_assess::rules::codes::{
    CABLE_UNSUITABLE, LOCK_CURRENT_KIND, LOCK_FEED_MISSING, LOCK_OUTPUT_OVERLOADED, LOCK_OUTPUTS_EXCEEDED,
    LOCK_VOLTAGE_TOO_HIGH, RELAY_OVERLOADED,
};
use latchline_assess::{Assessment, Memory};
use latchline_finding::{Code, Finding, Severity, Sources};
use latchline_site::LoadedCatalogues;
use latchline_site::catalogue::{Cable, Catalogue, Feed, PowerLoss};

/// A lock fed by its door station over so much of a cable, judged as a door's sheet judges it.
#[derive(Debug, Clone, PartialEq)]
pub struct LockCable {
    /// The cable.
    pub cable: String,
    /// Whether it is made for where it runs, as the check judges it.
    pub suits: bool,
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
    /// What forbids feeding it so on whatever cable: the wrong kind of current, more than an output gives.
    pub refused: Vec<Finding>,
    /// Two of its pairs in parallel; looked for where it does not do with one and has two.
    pub doubled: Option<Doubled>,
    /// Whether it was asked of a cable outdoors.
    pub outdoors: bool,
    /// The supply of the lock's own with which it works, on this cable or, where none does on it, on another; looked for where it does
    /// not without.
    pub own_supply: Option<OwnSupply>,
}

/// What two pairs of a cable in parallel do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Doubled {
    /// Least voltage at the lock over the length that was asked, in volts.
    pub least_v: f64,
    /// The longest with which it works, in whole metres.
    pub longest_m: f64,
}

impl LockCable {
    /// Whether the lock gets what it needs, and nothing else forbids it.
    pub fn holds(&self) -> bool {
        self.refused.is_empty() && self.least_v >= self.needs_v
    }

    /// Two of its pairs in parallel, where the lock then gets what it needs.
    pub fn holds_doubled(&self) -> Option<Doubled> {
        self.doubled.filter(|doubled| self.refused.is_empty() && doubled.least_v >= self.needs_v)
    }
}

/// A lock's cable and where it runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LockWay<'a> {
    /// The lock.
    pub lock: &'a str,
    /// Length of its cable in metres.
    pub length_m: f64,
    /// Whether the door, and so its cable, is outdoors.
    pub outdoors: bool,
    /// Family of the door station.
    pub family: &'a str,
    /// Door station that feeds it.
    pub door: &'a str,
    /// Supply behind.
    pub supply: &'a str,
}

/// A supply of the lock's own with which a cable does.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnSupply {
    /// The cable.
    pub cable: String,
    /// Of it so many pairs in parallel.
    pub pairs: u32,
    /// Its voltage in volts.
    pub voltage_v: f64,
    /// Whether that is alternating, as the lock takes it.
    pub is_ac: bool,
    /// Its tolerance in per cent.
    pub tolerance_percent: f64,
    /// Least voltage at the lock in volts.
    pub least_v: f64,
    /// Whether the lock opens when that supply has no power; else it cannot be released.
    pub opens_without_power: bool,
}

/// Name of that door.
const DOOR: &str = "door";

/// A door with that lock on that cable, assessed, with the family and its usual parts.
fn door(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    way: &LockWay<'_>,
    cable: &str,
    feed: &str,
) -> Option<Assessment> {
    let LockWay { lock, length_m, outdoors, family, door, supply } = *way;
    let question = default_question(catalogues.catalogue(), family)?;
    let text = format!(
        "[site]\ntitle = \"Question\"\nfamily = {}\nindoor_station = {}\ndoor_station = {}\ncable = \"pair-0.8\"\n\
         [buildings]\nA = {{ floors = [\"G\"] }}\n[supplies]\nPS = {{ model = {}, place = \"A/G\" }}\n\
         [distributors]\nD1 = {{ model = {}, place = \"A/G\" }}\n\
         [entrances]\n{DOOR} = {{ role = \"main\", place = \"A/G\", outdoors = {outdoors}, lock = {{ model = {}, cable = {}, length = \"{length_m} m\", {feed} }} }}\n\
         [dwellings]\nA-1 = {{ place = \"A/G\" }}\n[runs]\nfeed = {{ from = \"PS\", to = \"D1\", cable = \"flex-1.5\", length = \"1.5 m\" }}\n\
         flat = {{ from = \"D1.1\", to = \"A-1\", length = \"10 m\" }}\ndoor = {{ from = \"D1.2\", to = \"{DOOR}\", cable = \"outdoor-0.8\", length = \"10 m\" }}\n",
        quoted(family),
        quoted(&question.station),
        quoted(door),
        quoted(supply),
        quoted(&question.distributor),
        quoted(lock),
        quoted(cable)
    );
    let (_, assessment) = assessed(sources, catalogues, text, &Memory::default()).ok()?;
    Some(assessment)
}

/// Whether a lock has power of its own and takes a dry contact, so that nothing feeds it.
pub fn takes_dry_contact(catalogue: &Catalogue, lock: &str) -> bool {
    catalogue.locks.get(lock).is_some_and(|lock| lock.kind.value.is_of_another_system())
}

/// What is left at a lock over so many metres of a cable, and what else helps; `None` where that cannot be judged.
pub fn lock_cable(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    way: &LockWay<'_>,
    cable: &str,
) -> Option<LockCable> {
    let mut found = from_station(sources, catalogues, way, cable, 1)?;
    if !found.holds() {
        found.doubled = doubled(sources, catalogues, way, cable);
        let others = by_price(catalogues.catalogue()).into_iter().filter(|other| *other != cable);
        let others: Vec<&str> = others.collect();
        // On this cable first; what has to be pulled anew is the last way out.
        let own = |pairs: u32| lock_from_own_supply(sources, catalogues, way, (cable, pairs));
        found.own_supply =
            own(1).or_else(|| own(2)).or_else(|| first_own_supply(sources, catalogues, way, &others));
    }
    Some(found)
}

/// What is left at a lock that its door station feeds.
fn from_station(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    way: &LockWay<'_>,
    cable: &str,
    pairs: u32,
) -> Option<LockCable> {
    let feed = format!("feed = \"station\", pairs = {pairs}");
    let assessment = door(sources, catalogues, way, cable, &feed)?;
    let circuit = assessment.doors.first()?.locks.first()?.circuit.as_ref().ok()?;
    let longest = |most_ohm: f64| circuit.cable_loop.longest_m(most_ohm).floor();
    let longest_m = circuit.most_loop_ohm.map(longest).filter(|metres| metres.is_finite());
    Some(LockCable {
        cable: cable.to_string(),
        suits: !assessment.findings.iter().any(|finding| is_of_the_door(finding, CABLE_UNSUITABLE)),
        door: way.door.to_string(),
        supply: way.supply.to_string(),
        least_v: circuit.least_v,
        needs_v: circuit.least_allowed_v,
        longest_m,
        outdoors: way.outdoors,
        refused: refused(&assessment),
        doubled: None,
        own_supply: None,
    })
}

/// Whether a finding of this kind is of the door.
fn is_of_the_door(finding: &Finding, code: Code) -> bool {
    finding.code == code && finding.element.as_ref().is_some_and(|one| one.as_str() == DOOR)
}

/// The errors of the door that forbid how its lock is fed, whatever its cable.
fn refused(assessment: &Assessment) -> Vec<Finding> {
    let codes = [
        LOCK_FEED_MISSING,
        LOCK_CURRENT_KIND,
        LOCK_OUTPUTS_EXCEEDED,
        LOCK_OUTPUT_OVERLOADED,
        RELAY_OVERLOADED,
        LOCK_VOLTAGE_TOO_HIGH,
    ];
    let errors = assessment.findings.iter().filter(|finding| finding.severity == Severity::Error);
    errors.filter(|finding| codes.iter().any(|code| is_of_the_door(finding, *code))).cloned().collect()
}

/// What two pairs of a cable in parallel do, where it has two.
fn doubled(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    way: &LockWay<'_>,
    cable: &str,
) -> Option<Doubled> {
    catalogues.catalogue().cables.get(cable).filter(|cable| cable.pairs.value > 1)?;
    let on_two = from_station(sources, catalogues, way, cable, 2)?;
    Some(Doubled { least_v: on_two.least_v, longest_m: on_two.longest_m? })
}

/// The cables of the catalogue, the cheapest first; those without a price last.
fn by_price(catalogue: &Catalogue) -> Vec<&str> {
    let price = |name: &str| {
        let price = |cable: &Cable| cable.head.price.as_ref().map(|price| price.value);
        catalogue.cables.get(name).and_then(price).map_or(f64::INFINITY, |price| price.as_units())
    };
    let mut names: Vec<&str> = catalogue.cables.keys().map(String::as_str).collect();
    names.sort_by(|a, b| price(a).total_cmp(&price(b)).then_with(|| a.cmp(b)));
    names
}

/// The supply of the lock's own with the first of these cables that does and is made for where it runs: on one pair, or where none does on one,
/// on two in parallel.
fn first_own_supply(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    way: &LockWay<'_>,
    cables: &[&str],
) -> Option<OwnSupply> {
    let suits = |cable: &str| from_station(sources, catalogues, way, cable, 1).is_some_and(|one| one.suits);
    let suiting: Vec<&str> = cables.iter().copied().filter(|cable| suits(cable)).collect();
    let with = |pairs: u32| {
        let mut ways = suiting.iter();
        ways.find_map(|cable| lock_from_own_supply(sources, catalogues, way, (cable, pairs)))
    };
    with(1).or_else(|| with(2))
}

/// The lowest voltage of a supply of the lock's own, beside the door station, with which so many pairs of a cable do.
fn lock_from_own_supply(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    way: &LockWay<'_>,
    (cable, pairs): (&str, u32),
) -> Option<OwnSupply> {
    let model = catalogues.catalogue().locks.get(way.lock)?;
    catalogues.catalogue().cables.get(cable).filter(|cable| cable.pairs.value >= pairs)?;
    let opens_without_power = model.power_loss.value == PowerLoss::Opens;
    let is_ac = model.feed.value == Feed::Ac;
    let ac = if is_ac { ", supply_ac = true, suppression = \"varistor\"" } else { "" };
    LOCK_SUPPLY_VOLTAGES_V.into_iter().find_map(|voltage_v| {
        let feed = format!(
            "feed = \"own-supply\", supply_voltage = \"{voltage_v} V\", supply_tolerance = \"{LOCK_SUPPLY_TOLERANCE_PERCENT} %\", pairs = {pairs}{ac}"
        );
        let assessment = door(sources, catalogues, way, cable, &feed)?;
        let circuit = assessment.doors.first()?.locks.first()?.circuit.as_ref().ok()?;
        let holds = circuit.least_v >= circuit.least_allowed_v && circuit.highest_v <= circuit.most_allowed_v;
        let holds = holds && refused(&assessment).is_empty();
        holds.then(|| OwnSupply {
            cable: cable.to_string(),
            pairs,
            voltage_v,
            is_ac,
            tolerance_percent: LOCK_SUPPLY_TOLERANCE_PERCENT,
            least_v: circuit.least_v,
            opens_without_power,
        })
    })
}

/// The same for every cable of the catalogue that can be judged: those that do and are made for where they run first, the cheapest first,
/// then those that do not, the longest reaching first. Where none does, the cheapest that does with two of its pairs stands first.
pub fn lock_cables(sources: &Sources, catalogues: &LoadedCatalogues, way: &LockWay<'_>) -> Vec<LockCable> {
    let cheapest = by_price(catalogues.catalogue());
    let on = |cable: &&str| from_station(sources, catalogues, way, cable, 1);
    // A stable order: what does and suits stays by price.
    let mut all: Vec<LockCable> = cheapest.iter().filter_map(on).collect();
    all.sort_by(|a, b| {
        let takes = |one: &LockCable| (one.suits && one.holds(), one.suits);
        let reach = |one: &LockCable| if takes(one).0 { 0.0 } else { one.longest_m.unwrap_or(0.0) };
        takes(b).cmp(&takes(a)).then(reach(b).total_cmp(&reach(a)))
    });
    if all.first().is_some_and(|best| best.holds() && best.suits) {
        return all;
    }
    let on_two = cheapest.iter().find_map(|cable| {
        let at = all.iter().position(|one| one.suits && one.cable == *cable)?;
        let doubled =
            doubled(sources, catalogues, way, cable).filter(|two| two.least_v >= all[at].needs_v)?;
        Some((at, doubled))
    });
    if let Some((at, doubled)) = on_two {
        let mut best = all.remove(at);
        best.doubled = Some(doubled);
        all.insert(0, best);
    }
    if let Some(best) = all.first_mut() {
        best.own_supply = first_own_supply(sources, catalogues, way, &cheapest);
    }
    all
}
