//! Whether a mix of models works on one supply.

use super::house::{House, Power, assessed, first_error};
use crate::bare_site::{BareSiteError, ports_too_weak};
use crate::question::Question;
use latchline_assess::Memory;
use latchline_finding::{Code, Sources};
use latchline_site::LoadedCatalogues;

/// Stations that the house hangs on one port.
const ON_A_PORT: usize = 4;

/// A mix of models on one supply, over cable that hardly counts.
#[derive(Debug, Clone, PartialEq)]
pub struct MixOn {
    /// The supply.
    pub supply: String,
    /// What stands in the way; `None` if it works.
    pub limit: Option<Code>,
    /// Sum of the shares of the data sheet's counts, `n1/N1 + n2/N2`; at most 1 is meant. `None` where no model has a count.
    pub shares: Option<f64>,
    /// Largest current of any state, in amperes.
    pub current_a: Option<f64>,
    /// What the supply is rated for.
    pub rated_a: Option<f64>,
}

/// Whether so many of each model work on the supply of a question, with `calls` at once: every rule is asked, the stations being on
/// short runs of thick cable.
///
/// # Errors
/// If the parts do not make a site.
pub fn mix_on(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    question: &Question,
    models: &[(String, usize)],
    calls: usize,
) -> Result<MixOn, BareSiteError> {
    let catalogue = catalogues.catalogue();
    let each = models.iter().flat_map(|(model, count)| std::iter::repeat_n(model.as_str(), *count));
    let house = House {
        family: &question.family,
        supply: &question.supply,
        batteries: 1,
        distributor: &question.distributor,
        ports: catalogue.boxes.get(&question.distributor).map_or(1, |model| model.ports.value),
        door: &question.door,
        doors: calls,
        doors_on_supply: if ports_too_weak(catalogue, question) { calls } else { 0 },
        lock: question.lock.as_ref(),
        feed_m: 1.0,
        heaters: false,
        stations: each.collect(),
        cable: "flex-1.5",
        sections_m: (3.0, 3.0),
        on_a_chain: ON_A_PORT,
    };
    let (_, assessment) = assessed(sources, catalogues, house.text(catalogue), &Memory::default())?;
    let shares: Vec<f64> = models
        .iter()
        .filter_map(|(model, count)| {
            let most = catalogue.stations.get(model)?.most_per_supply.as_ref()?.value;
            Some(*count as f64 / f64::from(most))
        })
        .collect();
    let source = assessment.sources.first();
    Ok(MixOn {
        supply: question.supply.clone(),
        limit: first_error(&assessment),
        shares: (!shares.is_empty()).then(|| shares.iter().sum()),
        current_a: source.and_then(|source| source.current.current_a),
        rated_a: source.and_then(|source| source.current.limit_a),
    })
}

/// The same on each of some supplies. What does not work stands first, then what the battery's end carries: the lower figure is the one to
/// say.
///
/// # Errors
/// If the parts do not make a site.
pub fn mix_on_each(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    question: &Question,
    models: &[(String, usize)],
    calls: usize,
    supplies: Vec<(Power, String)>,
) -> Result<Vec<(Power, MixOn)>, BareSiteError> {
    let mut found = Vec::new();
    for (power, supply) in supplies {
        let question = Question { supply, ..question.clone() };
        found.push((power, mix_on(sources, catalogues, &question, models, calls)?));
    }
    found.sort_by_key(|(power, one)| (one.limit.is_none(), *power == Power::Mains));
    Ok(found)
}
