//! The bare site on which a question is asked.

use crate::door_lock::lock_keys;
use crate::judge::Judge;
use crate::question::{MOST_STATIONS, Question};
use latchline_assess::rules::codes::SUPPLY_OUTPUTS_EXCEEDED;
use latchline_finding::quantity::Length;
use latchline_finding::{Both, Finding, Language, Sourced, Sources};
use latchline_site::LoadedCatalogues;
use latchline_site::catalogue::{Catalogue, LoadValue, SupplyModel};
use latchline_site::model::{RunStop, Site, StationOwner};
use latchline_words::codes::wording;
use latchline_words::refusals::PartRefusal;
use std::fmt;
use std::fmt::Write as _;
use std::sync::Arc;

/// A site of one supply, one distributor, its door stations and one long chain, from which shorter
/// chains are cut.
#[derive(Debug, Clone)]
pub struct BareSite {
    longest: Site,
    chain: usize,
    judge: Arc<Judge>,
}

/// Length of cable from the supply to the distributor in metres: what is found holds for feeds up to this.
pub const FEED_M: f64 = 5.0;
/// Cable of the feed.
pub const FEED_CABLE: &str = "flex-1.5";
/// Length of cable to every door station in metres.
pub const DOOR_M: f64 = 10.0;
/// Cable to the door stations.
pub const DOOR_CABLE: &str = "flex-1.0";

/// Why the bare site could not be made.
#[derive(Debug, Clone, PartialEq)]
pub struct BareSiteError {
    /// What the resolver found.
    pub findings: Vec<Finding>,
}

impl BareSiteError {
    /// In words.
    pub fn both(&self) -> Both {
        let said = |language| {
            let said = self.findings.iter().map(|one| wording(one, language).message);
            said.collect::<Vec<_>>().join("; ")
        };
        let said = &Both::new(said(Language::English), said(Language::German));
        PartRefusal::NotASite { said }.both()
    }
}

impl fmt::Display for BareSiteError {
    /// In English, for tests and for other programs.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.both().of(Language::English))
    }
}

impl std::error::Error for BareSiteError {}

impl BareSite {
    /// Makes the site with one cable, the catalogues being read from files of `sources`.
    ///
    /// # Errors
    /// If a named part does not exist or is of the wrong kind.
    pub fn new(
        sources: &Sources,
        catalogues: &LoadedCatalogues,
        question: &Question,
        cable: &str,
        calls: usize,
    ) -> Result<Self, BareSiteError> {
        let mut sources = sources.clone();
        let doors = DoorPlaces::of(catalogues.catalogue(), question);
        let file = sources.add(
            "question",
            text(question, cable, calls, &doors, terminator_key(catalogues.catalogue(), &question.family)),
        );
        let resolved = catalogues.resolve(&sources, file);
        let Some(longest) = resolved.site else { return Err(BareSiteError { findings: resolved.findings }) };
        let chain = longest.runs.iter().position(|run| run.id.as_str() == CHAIN);
        match chain {
            Some(chain) => {
                let judge = match ports_too_weak(catalogues.catalogue(), question) {
                    true => Judge::of_a_site_with(SUPPLY_OUTPUTS_EXCEEDED.as_str(), "PS"),
                    false => Judge::of_a_new_site(),
                };
                Ok(BareSite { longest, chain, judge: Arc::new(judge) })
            }
            None => Err(BareSiteError { findings: resolved.findings }),
        }
    }

    /// The site with so many stations, this far apart, behind this much feeder; one station at least.
    pub fn with_chain(&self, stations: usize, spacing_m: f64, feeder_m: f64) -> Site {
        let mut site = self.longest.clone();
        let stations = stations.clamp(1, MOST_STATIONS);
        let sections = &mut site.runs[self.chain].sections;
        sections.truncate(stations);
        for (index, section) in sections.iter_mut().enumerate() {
            let length_m = if index == 0 { feeder_m } else { spacing_m };
            section.length = Sourced { value: Length::from_metres(length_m), ..section.length.clone() };
        }
        // Dwellings beyond the end of the chain do not exist.
        site.dwellings.truncate(stations);
        site.stations.retain(|station| match station.owner {
            StationOwner::Dwelling { dwelling, .. } => dwelling < stations,
            _ => true,
        });
        let removed = self.longest.stations.len() - site.stations.len();
        let renumber = |station: usize| if station < stations { station } else { station - removed };
        for run in &mut site.runs {
            for section in &mut run.sections {
                if let RunStop::Station(station) = &mut section.to {
                    *station = renumber(*station);
                }
            }
        }
        for entrance in &mut site.entrances {
            entrance.station = renumber(entrance.station);
            entrance.calls.dwellings.retain(|dwelling| *dwelling < stations);
        }
        site
    }

    /// What judges it by every rule.
    pub(crate) fn judge(&self) -> &Judge {
        &self.judge
    }

    /// The run that is the chain: index into the site's runs.
    pub fn chain(&self) -> usize {
        self.chain
    }

    /// The site with the longest chain.
    pub fn longest(&self) -> &Site {
        &self.longest
    }
}

const CHAIN: &str = "chain";

/// Where the door stations of a question hang.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DoorsAt {
    /// So many on outputs of the supply.
    pub on_supply: usize,
    /// So many on ports of the distributor, beside the chain.
    pub on_ports: usize,
    /// Whether those at the supply hang on a branch box there, whatever its outputs, since no port of the distributor can feed one.
    pub by_branch_box: bool,
}

/// Whether a door station draws more than a port of the distributor gives, while it talks at night and holds its lock; a power is taken at
/// the least voltage with which it works. What is not known is not taken to be too weak.
pub(crate) fn ports_too_weak(catalogue: &Catalogue, question: &Question) -> bool {
    let (Some(door), Some(distributor)) =
        (catalogue.stations.get(&question.door), catalogue.boxes.get(&question.distributor))
    else {
        return false;
    };
    let Some(limit) = &distributor.port_current_limit else { return false };
    let volts = door.least_voltage.value.as_volts();
    let amperes = |load: LoadValue| match load {
        LoadValue::Power(power) => power.as_watts() / volts,
        LoadValue::Current(current) => current.as_amps(),
        LoadValue::Resistance(resistance) => volts / resistance.as_ohms(),
    };
    let held = question.lock.as_ref().and_then(|lock| lock.draws);
    let night = door.night_extra.as_ref().map(|extra| extra.value);
    let talking = Some(door.talking.value);
    let drawn_a: f64 = [talking, held, night].into_iter().flatten().map(amperes).sum();
    drawn_a * (1.0 + door.load_tolerance.value.as_fraction()) > limit.value.as_amps()
}

/// Where the door stations hang when so many calls may stand at once.
pub fn doors_at(catalogue: &Catalogue, question: &Question, calls: usize) -> DoorsAt {
    DoorPlaces::of(catalogue, question).counted(calls.max(1))
}

/// Where door stations may hang.
struct DoorPlaces {
    /// Outputs of the supply beside the one that feeds the distributor.
    outputs: usize,
    /// Ports of the distributor beside that of the chain.
    ports: usize,
    /// Whether no port can feed one, so that all hang at the supply.
    ports_too_weak: bool,
}

impl DoorPlaces {
    fn of(catalogue: &Catalogue, question: &Question) -> Self {
        let supply = catalogue.supplies.get(&question.supply);
        // Where the outputs are not known, the check does not judge how many runs start there.
        let outputs = supply.and_then(SupplyModel::most_runs).unwrap_or(usize::MAX);
        let ports = catalogue.boxes.get(&question.distributor).map_or(1, |model| model.ports.value as usize);
        DoorPlaces {
            outputs: outputs.saturating_sub(1),
            ports: ports.saturating_sub(1),
            ports_too_weak: ports_too_weak(catalogue, question),
        }
    }

    /// How many of so many door stations hang on the supply, and how many on ports of the distributor.
    fn counted(&self, doors: usize) -> DoorsAt {
        let on_ports = (0..doors).filter(|door| self.start(door + 1).starts_with("D.")).count();
        DoorsAt { on_supply: doors - on_ports, on_ports, by_branch_box: self.ports_too_weak }
    }

    /// Where the run to a door station starts: at the supply, then at the distributor, and at the supply again where both are full,
    /// which the check finds.
    fn start(&self, door: usize) -> String {
        let at_a_port = door.saturating_sub(self.outputs);
        if !self.ports_too_weak && (1..=self.ports).contains(&at_a_port) {
            format!("D.{}", at_a_port + 1)
        } else {
            String::from("PS")
        }
    }
}

/// What a run of stations says of its terminator: that it has one, in a family that asks for it.
pub(crate) fn terminator_key(catalogue: &Catalogue, family: &str) -> &'static str {
    let asks = catalogue.families.get(family).is_some_and(|family| family.terminator_required.value);
    if asks { ", terminator = true" } else { "" }
}

fn text(question: &Question, cable: &str, calls: usize, doors: &DoorPlaces, terminator: &str) -> String {
    let quoted = |text: &str| toml::Value::String(text.to_string()).to_string();
    let mut text = format!(
        "[site]\ntitle = \"Question\"\nfamily = {}\nindoor_station = {}\ndoor_station = {}\n",
        quoted(&question.family),
        quoted(&question.station),
        quoted(&question.door)
    );
    let _ = writeln!(text, "[supplies]\nPS = {{ model = {} }}", quoted(&question.supply));
    let _ = writeln!(text, "[distributors]\nD = {{ model = {} }}", quoted(&question.distributor));
    text.push_str("[entrances]\n");
    let lock = lock_keys(question.lock.as_ref());
    for door in 1..=calls.max(1) {
        let role = if door == 1 { "main" } else { "secondary" };
        let _ = writeln!(text, "E{door} = {{ role = \"{role}\", calls = [\"everyone\"]{lock} }}");
    }
    text.push_str("[dwellings]\n");
    let names: Vec<String> = (1..=MOST_STATIONS).map(|number| format!("F{number}")).collect();
    for name in &names {
        let _ = writeln!(text, "{name} = {{}}");
    }
    let _ = writeln!(
        text,
        "[runs]\nfeed = {{ from = \"PS\", to = \"D\", cable = \"{FEED_CABLE}\", length = \"{FEED_M} m\" }}"
    );
    for door in 1..=calls.max(1) {
        let _ = writeln!(
            text,
            "door{door} = {{ from = \"{}\", to = \"E{door}\", cable = \"{DOOR_CABLE}\", length = \"{DOOR_M} m\"{terminator} }}",
            doors.start(door)
        );
    }
    let stops: Vec<String> = names.iter().map(|name| quoted(name)).collect();
    let _ = writeln!(
        text,
        "{CHAIN} = {{ from = \"D.1\", to = [{}], cable = {}, first = \"10 m\", spacing = \"5 m\"{terminator} }}",
        stops.join(", "),
        quoted(cable)
    );
    text
}
