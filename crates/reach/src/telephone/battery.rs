//! How long a battery carries so many stations.

use super::house::{House, assessed, errors};
use crate::bare_site::{BareSiteError, ports_too_weak};
use crate::question::Question;
use latchline_assess::rules::codes::CHARGER_TOO_SMALL;
use latchline_assess::{Assessment, BatteryFigures, Memory};
use latchline_finding::{Code, Sources};
use latchline_site::LoadedCatalogues;

/// Batteries in parallel that are asked for at most.
const MOST_BATTERIES: u32 = 8;
/// Supplies that the stations are shared between at most, where one does not bear them.
const MOST_SUPPLIES: usize = 16;
/// Stations that the house hangs on one port, in turn until it works: a port each for a few asks for more ends, and in a family with
/// terminators every end takes of the signal.
const ON_A_PORT: [usize; 3] = [4, 6, 8];

/// Why there are no hours to say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoHours {
    /// The supply has no battery.
    NoBattery,
    /// A figure of its battery is missing.
    FigureMissing,
}

/// How long batteries carry so many stations: on one supply and, where one does not bear them, shared.
#[derive(Debug, Clone, PartialEq)]
pub struct BatteryAnswer {
    /// All stations on one supply.
    pub on_one: BatteryHours,
    /// The fewest supplies, and what the fullest of them carries; `None` where one does, or where no number that was tried does.
    pub shared: Option<(usize, BatteryHours)>,
}

impl BatteryAnswer {
    /// The supplies that are taken, and what the fullest of them carries.
    pub fn taken(&self) -> (usize, &BatteryHours) {
        self.shared.as_ref().map_or((1, &self.on_one), |(supplies, each)| (*supplies, each))
    }

    /// Whether what is taken works and lasts the hours that are wanted, in winter too.
    pub fn works(&self, wanted: Option<f64>) -> bool {
        self.taken().1.works(wanted)
    }
}

/// How long a supply's battery carries a house in standby.
#[derive(Debug, Clone, PartialEq)]
pub struct BatteryHours {
    /// The supply.
    pub supply: String,
    /// Stations on it.
    pub stations: usize,
    /// Model of the distributors of the house, and how many it has.
    pub distributors: (String, u32),
    /// Most stations that it hangs on one port.
    pub on_a_port: usize,
    /// The same of the other houses that were tried, in which an error stands as well.
    pub also_tried: Vec<usize>,
    /// Calls at once with which it was checked.
    pub calls: usize,
    /// Errors that the check finds in the house: more than the supply bears.
    pub limits: Vec<Code>,
    /// Largest current of any state, in amperes.
    pub current_a: Option<f64>,
    /// What the supply is rated for.
    pub rated_a: Option<f64>,
    /// Batteries in parallel.
    pub batteries: u32,
    /// Rated capacity of all in ampere-hours.
    pub capacity_ah: f64,
    /// What it draws from the battery in standby, in amperes, the door's heater off.
    pub battery_current_a: f64,
    /// The same with the heater on; `None` where the door station has none.
    pub battery_current_with_heater_a: Option<f64>,
    /// Hours in the heavier of the standby states, the battery aged and at the temperature that the figures say.
    pub hours: f64,
    /// The same with the door's heater on; `None` where the door station has none.
    pub hours_with_heater: Option<f64>,
    /// Temperature of the battery in °C.
    pub coldest_c: f64,
    /// Capacity that is counted on, after ageing and temperature, in ampere-hours.
    pub effective_ah: f64,
    /// Hours to fill the batteries again, where the check finds that the charger takes too long.
    pub recharge_hours: Option<f64>,
}

impl BatteryHours {
    /// Hours that are left in winter, which are those that count.
    pub fn least_hours(&self) -> f64 {
        self.hours_with_heater.unwrap_or(self.hours).min(self.hours)
    }

    /// Whether it works and lasts the hours that are wanted.
    pub fn works(&self, wanted: Option<f64>) -> bool {
        self.limits.is_empty() && wanted.is_none_or(|wanted| self.least_hours() >= wanted)
    }
}

/// How long the battery of a supply carries so many stations of one model in standby, with one door station; with `hours`, the fewest
/// batteries in parallel that last so long with the door station's heater on, or as many as are asked for at most. Where one supply
/// does not bear them, the fewest that do and, if it can be had, last so long, each with a door station and an equal share. The stations hang on short runs of thick cable, so that
/// what is found wrong with the house is the supply's.
///
/// [`NoHours`] where the supply has no battery, or a figure of it is missing.
///
/// # Errors
/// If the parts do not make a site.
pub fn battery_hours(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    question: &Question,
    stations: usize,
    hours: Option<f64>,
) -> Result<Result<BatteryAnswer, NoHours>, BareSiteError> {
    let memory = Memory::default();
    let of = |stations: usize| on_one_supply(sources, catalogues, &memory, question, stations, hours);
    let on_one = match of(stations)? {
        Ok(found) => found,
        Err(none) => return Ok(Err(none)),
    };
    let mut shared: Option<(usize, BatteryHours)> = None;
    if !on_one.works(None) {
        let model = catalogues.catalogue().stations.get(&question.station);
        let stated = model.and_then(|model| model.most_per_supply.as_ref()).map(|most| most.value as usize);
        let mut least = stations;
        for supplies in 2..=MOST_SUPPLIES {
            let each = stations.div_ceil(supplies);
            // More than the datasheet allows on one is an error, and as many on the fullest as with one supply fewer is the same house.
            if each == least || stated.is_some_and(|most| each > most) {
                continue;
            }
            least = each;
            let Ok(found) = of(each)? else { break };
            let lasts = found.works(hours);
            // The fewest that last; where none do, the fewest that work.
            if lasts || (shared.is_none() && found.works(None)) {
                shared = Some((supplies, found));
            }
            if lasts {
                break;
            }
        }
    }
    Ok(Ok(BatteryAnswer { on_one, shared }))
}

fn on_one_supply(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    memory: &Memory,
    question: &Question,
    stations: usize,
    hours: Option<f64>,
) -> Result<Result<BatteryHours, NoHours>, BareSiteError> {
    let catalogue = catalogues.catalogue();
    let most_on_a_port = catalogue
        .families
        .get(&question.family)
        .and_then(|family| family.stations_per_port.as_ref().map(|limit| limit.value as usize));
    let judged =
        |batteries: u32, heaters: bool, on_a_port: usize| -> Result<(Assessment, u32), BareSiteError> {
            let house = House {
                family: &question.family,
                supply: &question.supply,
                batteries,
                distributor: &question.distributor,
                ports: catalogue.boxes.get(&question.distributor).map_or(1, |model| model.ports.value),
                door: &question.door,
                doors: 1,
                doors_on_supply: usize::from(ports_too_weak(catalogue, question)),
                lock: question.lock.as_ref(),
                feed_m: 1.0,
                heaters,
                stations: vec![question.station.as_str(); stations.max(1)],
                cable: "flex-1.5",
                sections_m: (3.0, 3.0),
                on_a_chain: on_a_port,
            };
            let distributors = house.distributors();
            Ok((assessed(sources, catalogues, house.text(catalogue), memory)?.1, distributors))
        };
    let has_heater = catalogue.stations.get(&question.door).is_some_and(|door| door.heater_extra.is_some());
    let has_battery = catalogue.supplies.get(&question.supply).is_some_and(|model| model.battery.is_some());
    let none = if has_battery { NoHours::FigureMissing } else { NoHours::NoBattery };
    let calls = catalogue.families.get(&question.family);
    let calls = calls.map_or(1, |family| family.simultaneous_calls.value as usize);
    // The first house that works; where none does, the first of all.
    let mut on_a_port = ON_A_PORT[0];
    let mut also_tried = Vec::new();
    for tried in ON_A_PORT {
        let may_be = most_on_a_port.is_none_or(|most| tried <= most);
        // As many on each port as there are stations at all: a larger number is the same house.
        if tried > ON_A_PORT[0] && (!may_be || tried - 2 >= stations) {
            break;
        }
        if errors(&judged(1, false, tried)?.0).is_empty() {
            (on_a_port, also_tried) = (tried, Vec::new());
            break;
        }
        also_tried.push(tried);
    }
    also_tried.retain(|tried| *tried != on_a_port);
    let mut answer = None;
    for batteries in 1..=MOST_BATTERIES {
        let (assessment, distributors) = judged(batteries, false, on_a_port)?;
        let Some(figures) = figures(&assessment) else { return Ok(Err(none)) };
        let Some(load) = figures.shortest() else { return Ok(Err(none)) };
        let heated = match has_heater {
            true => {
                self::figures(&judged(batteries, true, on_a_port)?.0).and_then(|all| all.shortest().cloned())
            }
            false => None,
        };
        let hours_with_heater = heated.as_ref().map(|load| load.hours);
        let source = assessment.sources.first();
        let charges_too_long = assessment.findings.iter().any(|finding| finding.code == CHARGER_TOO_SMALL);
        answer = Some(BatteryHours {
            supply: question.supply.clone(),
            stations,
            distributors: (question.distributor.clone(), distributors),
            on_a_port,
            also_tried: also_tried.clone(),
            calls,
            limits: errors(&assessment),
            current_a: source.and_then(|source| source.current.current_a),
            rated_a: source.and_then(|source| source.current.limit_a),
            batteries,
            capacity_ah: figures.capacity_ah,
            battery_current_a: load.battery_current_a,
            battery_current_with_heater_a: heated.map(|load| load.battery_current_a),
            hours: load.hours,
            hours_with_heater,
            coldest_c: figures.coldest_c,
            effective_ah: figures.effective_ah,
            recharge_hours: figures.recharge_hours.filter(|_| charges_too_long),
        });
        // Whoever asks for hours has them in winter, too; a house that does not work is not mended by a battery more.
        let broken = answer.as_ref().is_some_and(|answer| !answer.limits.is_empty());
        if broken || answer.as_ref().is_some_and(|answer| answer.works(hours)) {
            break;
        }
    }
    Ok(answer.ok_or(none))
}

fn figures(assessment: &Assessment) -> Option<&BatteryFigures> {
    assessment.supply_sheets.first()?.battery.as_ref()?.as_ref().ok()
}
