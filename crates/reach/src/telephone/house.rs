//! The small houses on which questions are put.

pub(super) use latchline_site::edit::quoted;

use crate::bare_site::{BareSiteError, DOOR_CABLE, DOOR_M, FEED_CABLE, terminator_key};
use crate::door_lock::{DoorLock, lock_keys};
use latchline_assess::rules::codes::SUPPLY_OUTPUTS_EXCEEDED;
use latchline_assess::{Assessment, Depth, Memory, assess_with, is_allowed};
use latchline_finding::{Code, Severity, Sources};
use latchline_site::LoadedCatalogues;
use latchline_site::catalogue::{Catalogue, StationKind, StationModel, SupplyModel};
use latchline_site::model::Site;
use std::fmt::Write as _;

/// Where the power comes from while a question is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Power {
    /// Mains.
    Mains,
    /// The battery, to the end of its discharge.
    BatteryEnd,
}

/// The family that is meant where none is named: the one with most station models, of several the first by name.
pub fn usual_family(catalogue: &Catalogue) -> Option<&str> {
    let models =
        |family: &str| catalogue.stations.values().filter(|model| model.family.value == family).count();
    let families = catalogue.families.keys().map(String::as_str);
    families.max_by(|a, b| models(a).cmp(&models(b)).then(b.cmp(a)))
}

/// The largest supply of a family without a battery and the largest with one, as far as it has them.
pub fn supplies_of(catalogue: &Catalogue, family: &str) -> Vec<(Power, String)> {
    let largest = |with_battery: bool| {
        let current = |model: &&SupplyModel| model.rated_current.value.as_amps();
        catalogue
            .supplies
            .values()
            .filter(|model| model.family.value == family && model.battery.is_some() == with_battery)
            .max_by(|a, b| current(a).total_cmp(&current(b)).then(b.head.name.cmp(&a.head.name)))
            .map(|model| model.head.name.clone())
    };
    let mains = largest(false).map(|name| (Power::Mains, name));
    let battery = largest(true).map(|name| (Power::BatteryEnd, name));
    mains.into_iter().chain(battery).collect()
}

/// What a supply's power comes from while a question is asked: its battery, where it has one.
pub fn power_of(catalogue: &Catalogue, supply: &str) -> Power {
    let has_battery = catalogue.supplies.get(supply).is_some_and(|model| model.battery.is_some());
    if has_battery { Power::BatteryEnd } else { Power::Mains }
}

/// A house of one supply.
pub(super) struct House<'a> {
    pub family: &'a str,
    pub supply: &'a str,
    pub batteries: u32,
    pub distributor: &'a str,
    /// Ports of the distributor.
    pub ports: u32,
    pub door: &'a str,
    /// Door stations: as many as calls may stand at once.
    pub doors: usize,
    /// How many of them hang on outputs of the supply; the others have ports of their own.
    pub doors_on_supply: usize,
    /// The lock at each.
    pub lock: Option<&'a DoorLock>,
    /// Length of cable from the supply to every distributor in metres.
    pub feed_m: f64,
    /// Whether their heaters are fitted and on at night.
    pub heaters: bool,
    /// Model of every indoor station, main stations of as many dwellings.
    pub stations: Vec<&'a str>,
    /// Cable of the stations.
    pub cable: &'a str,
    /// The first section of each chain and every further one, in metres.
    pub sections_m: (f64, f64),
    /// Stations on each chain.
    pub on_a_chain: usize,
}

impl House<'_> {
    /// How many distributors it has.
    pub fn distributors(&self) -> u32 {
        let chains = self.stations.len().div_ceil(self.on_a_chain.max(1));
        let used = (chains + self.doors.max(1).saturating_sub(self.doors_on_supply)) as u32;
        Ports { ports: self.ports.max(1), used }.boxes()
    }

    /// The house as a site file: chains of stations on ports of distributors, each of which is fed from the supply; door stations
    /// hang on the supply and on ports of their own. Where the family asks for terminators, every one of these runs ends in one.
    pub fn text(&self, catalogue: &Catalogue) -> String {
        let terminator = terminator_key(catalogue, self.family);
        let mut text = format!(
            "[site]\ntitle = \"Question\"\nfamily = {}\ndoor_station = {}\ncable = {}\n",
            quoted(self.family),
            quoted(self.door),
            quoted(self.cable)
        );
        let _ = writeln!(
            text,
            "[buildings]\nA = {{ floors = [\"G\"] }}\n[supplies]\nPS = {{ model = {}, place = \"A/G\", batteries = {} }}",
            quoted(self.supply),
            self.batteries
        );
        let mut ports = Ports { ports: self.ports.max(1), used: 0 };
        let mut runs = String::new();
        let names: Vec<String> = (1..=self.stations.len()).map(|number| format!("F{number}")).collect();
        for (chain, stops) in names.chunks(self.on_a_chain.max(1)).enumerate() {
            let stops: Vec<String> = stops.iter().map(|name| quoted(name)).collect();
            let (first, spacing) = self.sections_m;
            let _ = writeln!(
                runs,
                "chain{chain} = {{ from = \"{}\", to = [{}], first = \"{first} m\", spacing = \"{spacing} m\"{terminator} }}",
                ports.next(),
                stops.join(", ")
            );
        }
        let lock = lock_keys(self.lock);
        let mut entrances = String::from("[entrances]\n");
        for door in 1..=self.doors.max(1) {
            let role = if door == 1 { "main" } else { "secondary" };
            let _ = writeln!(
                entrances,
                "E{door} = {{ role = \"{role}\", place = \"A/G\", calls = [\"everyone\"], heater = {}{lock} }}",
                self.heaters
            );
            let start = if door <= self.doors_on_supply { String::from("PS") } else { ports.next() };
            let _ = writeln!(
                runs,
                "door{door} = {{ from = \"{start}\", to = \"E{door}\", cable = \"{DOOR_CABLE}\", length = \"{DOOR_M} m\"{terminator} }}"
            );
        }
        let boxes = ports.boxes();
        text.push_str("[distributors]\n");
        for number in 1..=boxes {
            let _ = writeln!(text, "D{number} = {{ model = {}, place = \"A/G\" }}", quoted(self.distributor));
            let _ = writeln!(
                runs,
                "feed{number} = {{ from = \"PS\", to = \"D{number}\", cable = \"{FEED_CABLE}\", length = \"{} m\" }}",
                self.feed_m
            );
        }
        text.push_str(&entrances);
        text.push_str("[dwellings]\n");
        for (name, model) in names.iter().zip(&self.stations) {
            let _ = writeln!(text, "{name} = {{ place = \"A/G\", station = {} }}", quoted(model));
        }
        let _ = write!(text, "[runs]\n{runs}");
        text
    }
}

/// Ports one after the other, over as many distributors as it takes.
struct Ports {
    ports: u32,
    used: u32,
}

impl Ports {
    fn next(&mut self) -> String {
        let port = format!("D{}.{}", self.used / self.ports + 1, self.used % self.ports + 1);
        self.used += 1;
        port
    }

    fn boxes(&self) -> u32 {
        self.used.div_ceil(self.ports)
    }
}

/// Resolves and assesses a house.
///
/// # Errors
/// If the parts do not make a site.
pub(super) fn assessed(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    text: String,
    memory: &Memory,
) -> Result<(Site, Assessment), BareSiteError> {
    let mut sources = sources.clone();
    let file = sources.add("question", text);
    let resolved = catalogues.resolve(&sources, file);
    let Some(site) = resolved.site else { return Err(BareSiteError { findings: resolved.findings }) };
    let assessment = assess_with(&site, memory);
    Ok((site, assessment))
}

/// Whether no rule that looks at voltages alone finds an error in a house, but for those of its own making.
///
/// # Errors
/// If the parts do not make a site.
pub(super) fn is_borne(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    text: String,
    memory: &Memory,
) -> Result<bool, BareSiteError> {
    let mut sources = sources.clone();
    let file = sources.add("question", text);
    let resolved = catalogues.resolve(&sources, file);
    let Some(site) = resolved.site else { return Err(BareSiteError { findings: resolved.findings }) };
    Ok(is_allowed(&site, Depth::Voltages, memory, &|finding| {
        finding.severity != Severity::Error || OF_THE_HOUSE.contains(&finding.code)
    }))
}

/// The errors that stand among the kinds that count, each once; what a small house of one floor has of its own making does not.
pub(super) fn errors(assessment: &Assessment) -> Vec<Code> {
    let mut codes: Vec<Code> = Vec::new();
    for finding in assessment.findings.iter().filter(|finding| finding.severity == Severity::Error) {
        if !OF_THE_HOUSE.contains(&finding.code) && !codes.contains(&finding.code) {
            codes.push(finding.code);
        }
    }
    codes
}

/// The first of them.
pub(super) fn first_error(assessment: &Assessment) -> Option<Code> {
    errors(assessment).first().copied()
}

/// What is found on such a house because of how it was made up and says nothing about the question: several distributors on a supply
/// of few outputs.
const OF_THE_HOUSE: &[Code] = &[SUPPLY_OUTPUTS_EXCEEDED];

/// The lightest indoor station of a family: of which most may hang on a supply.
pub fn lightest(catalogue: &Catalogue, family: &str) -> Option<String> {
    let of_family =
        |model: &&StationModel| model.family.value == family && model.kind.value == StationKind::Indoor;
    let count = |model: &StationModel| model.most_per_supply.as_ref().map_or(0, |most| most.value);
    let order =
        |a: &&StationModel, b: &&StationModel| count(a).cmp(&count(b)).then(b.head.name.cmp(&a.head.name));
    catalogue.stations.values().filter(of_family).max_by(order).map(|model| model.head.name.clone())
}
