//! How the probabilities moved: what is likely where before anything is known, with what was told, and with each reading.

use crate::evidence::Evidence;
use crate::inference::Inference;
use crate::located::{Located, Options, weighed};
use crate::model::Model;
use crate::place::{PlaceShare, places};
use crate::plant::Plant;
use crate::rates::Rates;

/// What is likely where with the first of what is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Moved {
    /// Whether what was told is known.
    pub is_told: bool,
    /// So many readings are known.
    pub readings: usize,
    /// Places, the most probable first.
    pub places: Vec<PlaceShare>,
    /// The probability of a cause that is not in the list.
    pub none_of_these: f64,
}

/// Step by step: nothing, all that was told together, each reading in its order. The last step is the answer itself.
pub fn moves(
    plant: &Plant<'_>,
    evidence: &Evidence,
    rates: &Rates,
    options: &Options,
    located: &Located,
) -> Vec<Moved> {
    let is_told = !evidence.symptoms.is_empty();
    let readings = evidence.measured.len();
    let hypotheses = weighed(plant, rates, options);
    let with = |is_told: bool, readings: usize| {
        let known = Evidence {
            measured: evidence.measured[..readings].to_vec(),
            symptoms: if is_told { evidence.symptoms.clone() } else { Vec::new() },
            out_of_reach: Vec::new(),
        };
        let model = Model::of(plant, &known);
        let ranking = Inference::new(&model, rates, &known, options.design_errors > 0).rank(&hypotheses);
        let places = places(plant, &hypotheses, &ranking);
        Moved { is_told, readings, places, none_of_these: ranking.none_of_these }
    };
    let told = std::iter::once(false).chain(is_told.then_some(true)).map(|is_told| (is_told, 0));
    let steps: Vec<(bool, usize)> = told.chain((1..=readings).map(|read| (is_told, read))).collect();
    let mut moved: Vec<Moved> =
        steps[..steps.len().saturating_sub(1)].iter().map(|(told, read)| with(*told, *read)).collect();
    moved.push(Moved {
        is_told,
        readings,
        places: located.places.clone(),
        none_of_these: located.ranking.none_of_these,
    });
    moved
}
