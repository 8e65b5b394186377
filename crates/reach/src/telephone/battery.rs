//! How long a battery carries so many stations.

use super::house::{House, assessed};
use crate::bare_site::BareSiteError;
use crate::question::Question;
use latchline_assess::Memory;
use latchline_finding::Sources;
use latchline_site::LoadedCatalogues;

/// Batteries in parallel that are asked for at most.
const MOST_BATTERIES: u32 = 8;
/// Stations that the house hangs on one port.
const ON_A_PORT: usize = 8;

/// How long a supply's battery carries a house in standby.
#[derive(Debug, Clone, PartialEq)]
pub struct BatteryHours {
    /// The supply.
    pub supply: String,
    /// Batteries in parallel.
    pub batteries: u32,
    /// Rated capacity of all in ampere-hours.
    pub capacity_ah: f64,
    /// What it draws from the battery in standby, in amperes.
    pub battery_current_a: f64,
    /// Hours in the heavier of the standby states, the battery aged and at the temperature that the figures say.
    pub hours: f64,
    /// Temperature of the battery in °C.
    pub coldest_c: f64,
}

/// How long the battery of a supply carries so many stations of one model in standby, with one door station; with `hours`, the fewest
/// batteries in parallel that last so long, or as many as are asked for at most.
///
/// `None` where the supply has no battery, or a figure of it is missing.
///
/// # Errors
/// If the parts do not make a site.
pub fn battery_hours(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    question: &Question,
    stations: usize,
    hours: Option<f64>,
) -> Result<Option<BatteryHours>, BareSiteError> {
    let catalogue = catalogues.catalogue();
    let memory = Memory::default();
    let mut answer = None;
    for batteries in 1..=MOST_BATTERIES {
        let house = House {
            family: &question.family,
            supply: &question.supply,
            batteries,
            distributor: &question.distributor,
            ports: catalogue.boxes.get(&question.distributor).map_or(1, |model| model.ports.value),
            door: &question.door,
            doors: 1,
            stations: vec![question.station.as_str(); stations.max(1)],
            cable: "flex-1.0",
            sections_m: (10.0, 5.0),
            on_a_chain: ON_A_PORT,
        };
        let (_, assessment) = assessed(sources, catalogues, house.text(), &memory)?;
        let sheet = assessment.supply_sheets.first();
        let Some(Ok(figures)) = sheet.and_then(|sheet| sheet.battery.as_ref()) else { return Ok(None) };
        let Some(load) = figures.shortest() else { return Ok(None) };
        answer = Some(BatteryHours {
            supply: question.supply.clone(),
            batteries,
            capacity_ah: figures.capacity_ah,
            battery_current_a: load.battery_current_a,
            hours: load.hours,
            coldest_c: figures.coldest_c,
        });
        if hours.is_none_or(|wanted| load.hours >= wanted) {
            break;
        }
    }
    Ok(answer)
}
