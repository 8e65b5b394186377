//! How many stations work on one run of a given length.

use super::house::{House, Power, assessed, first_error, lightest, supplies_of};
use crate::bare_site::BareSiteError;
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
    /// Least margin of a station with that many, in volts.
    pub margin_v: Option<f64>,
    /// Whether the check warns that this is little.
    pub is_thin: bool,
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
    let own = &*run.question.station;
    let Some(model) = lightest(catalogues.catalogue(), &run.question.family).filter(|light| light != own)
    else {
        return Ok(None);
    };
    let question = Question { station: model.clone(), ..run.question.clone() };
    let carried = stations_on(sources, catalogues, &OneRun { question, ..run.clone() })?;
    let fewest = carried.iter().min_by_key(|one| one.stations);
    Ok(fewest.map(|fewest| Lightest { model, stations: fewest.stations, power: fewest.power }))
}

/// How many stations work, by supply, the least first. Each count was assessed by every rule and holds; with one more an error stands.
///
/// # Errors
/// If the parts do not make a site.
pub fn stations_on(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    run: &OneRun,
) -> Result<Vec<Carried>, BareSiteError> {
    let catalogue = catalogues.catalogue();
    let supplies = match run.supply_is_stated {
        true => {
            let has_battery =
                catalogue.supplies.get(&run.question.supply).is_some_and(|one| one.battery.is_some());
            let power = if has_battery { Power::BatteryEnd } else { Power::Mains };
            vec![(power, run.question.supply.clone())]
        }
        false => supplies_of(catalogue, &run.question.family),
    };
    let each = supplies.into_iter().map(|(power, supply)| carried(sources, catalogues, run, power, supply));
    let mut all: Vec<Carried> = each.collect::<Result<_, BareSiteError>>()?;
    all.sort_by_key(|one| one.stations);
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
    cables: &[String],
) -> Result<Vec<Vec<Carried>>, BareSiteError> {
    let on =
        |cable: &String| stations_on(sources, catalogues, &OneRun { cable: cable.clone(), ..run.clone() });
    cables.par_iter().map(on).collect()
}

/// The same over each of these lengths in metres.
///
/// # Errors
/// If the parts do not make a site.
pub fn by_length(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    run: &OneRun,
    totals_m: &[f64],
) -> Result<Vec<Vec<Carried>>, BareSiteError> {
    let over = |total_m: &f64| stations_on(sources, catalogues, &OneRun { total_m: *total_m, ..run.clone() });
    totals_m.par_iter().map(over).collect()
}

fn carried(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    run: &OneRun,
    power: Power,
    supply: String,
) -> Result<Carried, BareSiteError> {
    let memory = Memory::default();
    let judge = |stations: usize| {
        let catalogue = catalogues.catalogue();
        let text = house(catalogue, run, &supply, stations).text(catalogue);
        let (_, assessment) = assessed(sources, catalogues, text, &memory)?;
        Ok(first_error(&assessment)
            .map_or_else(|| Ok((least_margin_v(&assessment), is_thin(&assessment))), Err))
    };
    let (mut works, mut fails) = (0, MOST_STATIONS + 1);
    let ((mut margin_v, mut is_thin), mut limit) = ((None, false), None);
    while fails - works > 1 {
        let middle = works.midpoint(fails);
        match judge(middle)? {
            Ok(margin) => (works, (margin_v, is_thin)) = (middle, margin),
            Err(code) => (fails, limit) = (middle, Some(code)),
        }
    }
    Ok(Carried { power, supply, stations: works, limit, margin_v, is_thin })
}

fn house<'a>(catalogue: &Catalogue, run: &'a OneRun, supply: &'a str, stations: usize) -> House<'a> {
    let question = &run.question;
    let section_m = run.total_m / stations.max(1) as f64;
    House {
        family: &question.family,
        supply,
        batteries: 1,
        distributor: &question.distributor,
        ports: catalogue.boxes.get(&question.distributor).map_or(1, |model| model.ports.value),
        door: &question.door,
        doors: run.calls,
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
