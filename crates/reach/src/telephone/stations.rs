//! How many stations work on one run of a given length.

use super::house::{House, Power, assessed, first_error, is_borne, lightest, power_of, supplies_of};
use crate::bare_site::{BareSiteError, DoorsAt, FEED_M, doors_at};
use crate::question::MOST_STATIONS;
use crate::question::Question;
use latchline_assess::rules::codes::THIN_MARGIN;
use latchline_assess::{Assessment, Memory};
use latchline_finding::{Code, Sources};
use latchline_site::LoadedCatalogues;
use latchline_site::catalogue::Catalogue;
use rayon::prelude::*;

/// One run with stations spread evenly over its length.
#[derive(Debug, Clone, PartialEq)]
pub struct OneRun {
    /// Parts; the supply is taken as stated only where `supply_is_stated`.
    pub question: Question,
    /// Whether the supply is the one in `question`; else the largest of the family without and with battery.
    pub supply_is_stated: bool,
    /// Cable.
    pub cable: String,
    /// Length from the port to the last station in metres.
    pub total_m: f64,
    /// Calls that may stand at once.
    pub calls: usize,
}

/// How stations lie along a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Spread {
    /// Evenly over so much cable in metres; the first is as far from the port as each from the next.
    Over(f64),
    /// So far in metres from one to the next; the first is as far from the port.
    Apart(f64),
}

impl Spread {
    /// From one of so many to the next, in metres.
    pub fn section_m(self, stations: usize) -> f64 {
        match self {
            Spread::Over(total_m) => total_m / stations.max(1) as f64,
            Spread::Apart(spacing_m) => spacing_m,
        }
    }

    /// From the port to the last of so many, in metres.
    pub fn total_m(self, stations: usize) -> f64 {
        match self {
            Spread::Over(total_m) => total_m,
            Spread::Apart(spacing_m) => spacing_m * stations as f64,
        }
    }
}

/// How many stations one supply carries on that run.
#[derive(Debug, Clone, PartialEq)]
pub struct Carried {
    /// On mains, or to the battery's end with what mains brings as well.
    pub power: Power,
    /// The supply.
    pub supply: String,
    /// Most stations that hold under the whole check; 0 if not even one does.
    pub stations: usize,
    /// What one more would break; `None` where more than [`MOST_STATIONS`] were not asked for.
    pub limit: Option<Code>,
    /// Smaller numbers of stations that do not work, the least first, and what the least of them breaks: a signal may pass with more
    /// stations and not with fewer.
    pub fewer_fail: Option<(Vec<usize>, Code)>,
    /// Least margin of a station with that many, in volts.
    pub margin_v: Option<f64>,
    /// Whether the check warns that this is little.
    pub is_thin: bool,
    /// Where the door stations were taken to hang.
    pub doors: DoorsAt,
    /// Whether the door stations have heaters, which were taken to be off.
    pub heaters_off: bool,
    /// Rules that could not judge that many for lack of values, the least code first.
    pub not_judged: Vec<Code>,
}

/// How many stations of the family's lightest model work.
#[derive(Debug, Clone, PartialEq)]
pub struct Lightest {
    /// The model.
    pub model: String,
    /// How many work on every supply that was asked.
    pub stations: usize,
    /// On which of them no more do.
    pub power: Power,
}

/// How many of the family's lightest model work on a run; `None` if the run's own model is the lightest.
///
/// # Errors
/// As [`stations_on`].
pub fn lightest_on(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    run: &OneRun,
) -> Result<Option<Lightest>, BareSiteError> {
    lightest_spread(sources, catalogues, run, Spread::Over(run.total_m))
}

/// The same of stations that lie otherwise; the length of the run is not looked at.
///
/// # Errors
/// As [`stations_on`].
pub fn lightest_spread(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    run: &OneRun,
    spread: Spread,
) -> Result<Option<Lightest>, BareSiteError> {
    let own = &*run.question.station;
    let Some(model) = lightest(catalogues.catalogue(), &run.question.family).filter(|light| light != own)
    else {
        return Ok(None);
    };
    let question = Question { station: model.clone(), ..run.question.clone() };
    let carried = stations_spread(sources, catalogues, &OneRun { question, ..run.clone() }, spread)?;
    // As the heaviest are told: to the battery's end where that is no fewer.
    let fewest = carried.iter().min_by_key(|one| (one.stations, one.power != Power::BatteryEnd));
    Ok(fewest.map(|fewest| Lightest { model, stations: fewest.stations, power: fewest.power }))
}

/// How many stations work, by supply, the least first and those that carry none last. Each count was assessed by every rule and holds; with one more an error stands.
///
/// # Errors
/// If the parts do not make a site.
pub fn stations_on(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    run: &OneRun,
) -> Result<Vec<Carried>, BareSiteError> {
    stations_spread(sources, catalogues, run, Spread::Over(run.total_m))
}

/// The same of stations that lie otherwise; the length of the run is not looked at.
///
/// # Errors
/// As [`stations_on`].
pub fn stations_spread(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    run: &OneRun,
    spread: Spread,
) -> Result<Vec<Carried>, BareSiteError> {
    let catalogue = catalogues.catalogue();
    let supplies = match run.supply_is_stated {
        true => {
            vec![(power_of(catalogue, &run.question.supply), run.question.supply.clone())]
        }
        false => supplies_of(catalogue, &run.question.family),
    };
    let each =
        supplies.into_iter().map(|(power, supply)| carried(sources, catalogues, run, spread, power, supply));
    let mut all: Vec<Carried> = each.collect::<Result<_, BareSiteError>>()?;
    // What carries nothing is no answer to how many, so long as another supply is one.
    all.sort_by_key(|one| (one.stations == 0, one.stations));
    Ok(all)
}

/// The same on each of these cables.
///
/// # Errors
/// If the parts do not make a site.
pub fn by_cable(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    run: &OneRun,
    spread: Spread,
    cables: &[String],
) -> Result<Vec<Vec<Carried>>, BareSiteError> {
    let on = |cable: &String| {
        stations_spread(sources, catalogues, &OneRun { cable: cable.clone(), ..run.clone() }, spread)
    };
    cables.par_iter().map(on).collect()
}

/// The same over each of these lengths, or with each of these spacings.
///
/// # Errors
/// If the parts do not make a site.
pub fn by_spread(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    run: &OneRun,
    spreads: &[Spread],
) -> Result<Vec<Vec<Carried>>, BareSiteError> {
    spreads.par_iter().map(|spread| stations_spread(sources, catalogues, run, *spread)).collect()
}

fn carried(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    run: &OneRun,
    spread: Spread,
    power: Power,
    supply: String,
) -> Result<Carried, BareSiteError> {
    let memory = Memory::default();
    let catalogue = catalogues.catalogue();
    let doors = doors_at(catalogue, &Question { supply: supply.clone(), ..run.question.clone() }, run.calls);
    let text = |stations: usize| house(catalogue, run, spread, &supply, doors, stations).text(catalogue);
    // What is solved fails for good once it fails; signals and start-up know no such order.
    let (mut solved, mut fails) = (0, MOST_STATIONS + 1);
    while fails - solved > 1 {
        let middle = solved.midpoint(fails);
        match is_borne(sources, catalogues, text(middle), &memory)? {
            true => solved = middle,
            false => fails = middle,
        }
    }
    let judge = |stations: usize| -> Result<Result<Assessment, Code>, BareSiteError> {
        let (_, assessment) = assessed(sources, catalogues, text(stations), &memory)?;
        Ok(first_error(&assessment).map_or(Ok(assessment), Err))
    };
    let mut largest: Option<(usize, Assessment)> = None;
    let mut failing: Vec<(usize, Code)> = Vec::new();
    for stations in 1..=solved {
        match judge(stations)? {
            Ok(assessment) => largest = Some((stations, assessment)),
            Err(code) => failing.push((stations, code)),
        }
    }
    let stations = largest.as_ref().map_or(0, |(stations, _)| *stations);
    let limit = match stations < MOST_STATIONS {
        true => judge(stations + 1)?.err(),
        false => None,
    };
    failing.retain(|(fewer, _)| *fewer < stations);
    let fewer_fail =
        failing.first().map(|(_, code)| (failing.iter().map(|(fewer, _)| *fewer).collect(), *code));
    let margin_v = largest.as_ref().and_then(|(_, assessment)| least_margin_v(assessment));
    let is_thin = largest.as_ref().is_some_and(|(_, assessment)| is_thin(assessment));
    let door = catalogue.stations.get(&run.question.door);
    let heaters_off = door.is_some_and(|door| door.heater_extra.is_some());
    let mut not_judged: Vec<Code> = largest
        .iter()
        .flat_map(|(_, assessment)| assessment.not_judged.iter().map(|entry| entry.code))
        .collect();
    not_judged.sort_unstable();
    not_judged.dedup();
    Ok(Carried {
        power,
        supply,
        stations,
        limit,
        fewer_fail,
        margin_v,
        is_thin,
        doors,
        heaters_off,
        not_judged,
    })
}

fn house<'a>(
    catalogue: &Catalogue,
    run: &'a OneRun,
    spread: Spread,
    supply: &'a str,
    doors: DoorsAt,
    stations: usize,
) -> House<'a> {
    let question = &run.question;
    let section_m = spread.section_m(stations);
    House {
        family: &question.family,
        supply,
        batteries: 1,
        distributor: &question.distributor,
        ports: catalogue.boxes.get(&question.distributor).map_or(1, |model| model.ports.value),
        door: &question.door,
        doors: run.calls,
        doors_on_supply: doors.on_supply,
        lock: question.lock.as_ref(),
        feed_m: FEED_M,
        heaters: false,
        stations: vec![question.station.as_str(); stations.max(1)],
        cable: &run.cable,
        sections_m: (section_m, section_m),
        on_a_chain: stations.max(1),
    }
}

fn least_margin_v(assessment: &Assessment) -> Option<f64> {
    let margin = assessment.devices.get(assessment.tightest_device()?)?.worst.margin_v();
    margin.is_finite().then_some(margin)
}

fn is_thin(assessment: &Assessment) -> bool {
    assessment.findings.iter().any(|finding| finding.code == THIN_MARGIN)
}
