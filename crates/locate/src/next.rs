//! The reading that tells most for the effort of taking it.
//!
//! For every reading that could be taken, each cause that is left predicts a normal distribution: its value at the sizes that are
//! still possible, with the tolerances that the readings so far leave. How much the reading tells, the mutual information of
//! cause and reading, is bounded below by the pairwise bound of Kolchinsky and Tracey (Entropy 19, 2017, 361, equation 10 with
//! Bhattacharyya distances; number from memory): `-sum_i p_i ln sum_j p_j exp(-B_ij)`, which needs no grid.

use crate::evidence::{Evidence, Instrument, Measured, Taken};
use crate::gauss::Cholesky;
use crate::hypothesis::Hypothesis;
use crate::model::{Model, Outcome};
use crate::plant::Plant;
use crate::posterior::{Inference, Posterior, Ranking};
use crate::quantity::Quantity;
use latchline_circuit::flow::Workspace;
use latchline_finding::{CallMoment, StateKind};
use latchline_network::readings::{ReadingPlace, capacitance_f_per_m};
use latchline_network::{BusState, StageNode, StageSource};
use latchline_site::model::{RunStop, StationOwner};
use rayon::prelude::*;
use std::collections::BTreeSet;

/// Causes that a reading is asked to tell apart.
const MOST_CAUSES: usize = 48;
/// Runs whose readings alone are looked at, and stations that are called for it.
const MOST_RUNS: usize = 10;
const MOST_CALLS: usize = 6;
/// A reading that tells less than this, in bits, is not worth taking.
const LEAST_BITS: f64 = 0.02;

/// What a reading would mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Meaning {
    /// Between these, in the SI unit.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Probability of it.
    pub probability: f64,
    /// Causes that predict it, the most probable first: indices into [`Ranking::causes`].
    pub causes: Vec<usize>,
}

/// The reading to take next.
#[derive(Debug, Clone, PartialEq)]
pub struct NextReading {
    /// What, where, in which state.
    pub quantity: Quantity,
    /// Bits that it tells, at least.
    pub bits: f64,
    /// Minutes that it takes.
    pub minutes: f64,
    /// What its outcomes mean, from the lowest.
    pub meanings: Vec<Meaning>,
}

/// A cause that is left: its share and what it predicts.
struct Component {
    share: f64,
    mean: f64,
    deviation: f64,
    cause: usize,
}

/// Finds it.
pub(crate) fn next_reading(
    plant: &Plant<'_>,
    evidence: &Evidence,
    hypotheses: &[Hypothesis],
    ranking: &Ranking,
    inference: &Inference<'_, '_, '_>,
) -> Option<NextReading> {
    let left: Vec<usize> = (0..ranking.causes.len().min(MOST_CAUSES))
        .filter(|place| ranking.causes[*place].probability > 2e-3)
        .collect();
    if left.len() < 2 {
        return None;
    }
    let taken: Vec<Quantity> = evidence.measured.iter().map(|one| one.quantity.clone()).collect();
    let possible: Vec<Quantity> = candidates(plant, evidence, hypotheses, ranking, &left)
        .into_iter()
        .filter(|quantity| !taken.contains(quantity))
        .collect();
    let mut quantities = taken.clone();
    quantities.extend(possible);
    let model = Model::new(plant, quantities, &[]);
    let known = taken.len();
    let conditioned = Conditioned::new(&model, evidence, known);
    let outcomes: Vec<[Outcome; 3]> = left
        .par_iter()
        .map_init(Workspace::new, |workspace, place| {
            let posterior = &ranking.causes[*place];
            let hypothesis = &hypotheses[posterior.hypothesis];
            let size = posterior.size.map_or([0.0; 3], |size| [size.inner.0, size.best, size.inner.1]);
            size.map(|size| model.outcome(&hypothesis.effects(plant, size), workspace))
        })
        .collect();
    let last = evidence.measured.last().map(|one| one.quantity.place());
    let scored: Vec<(f64, f64, f64)> = (known..model.quantities.len())
        .into_par_iter()
        .map(|place| {
            let components = components(
                place,
                &model.quantities[place],
                &left,
                ranking,
                &outcomes,
                &conditioned,
                inference,
            );
            let bits = information(&components) / std::f64::consts::LN_2;
            let minutes = effort_minutes(plant, &model.quantities[place], last);
            (bits / minutes, bits, minutes)
        })
        .collect();
    let (best, (_, bits, minutes)) = scored
        .iter()
        .enumerate()
        .max_by(|(i, a), (j, b)| a.0.total_cmp(&b.0).then(j.cmp(i)))
        .map(|(place, score)| (place + known, *score))?;
    if bits < LEAST_BITS {
        return None;
    }
    let quantity = model.quantities[best].clone();
    let components = components(best, &quantity, &left, ranking, &outcomes, &conditioned, inference);
    let meanings = meanings(&quantity, components);
    Some(NextReading { quantity, bits, minutes, meanings })
}

/// Tolerances as the readings so far leave them, by the derivatives of the sound network.
struct Conditioned {
    known: usize,
    /// For every quantity its weights on the residuals of those that are known, and what is left of its variance.
    weights: Vec<Vec<f64>>,
    variance: Vec<f64>,
}

impl Conditioned {
    fn new(model: &Model<'_, '_>, evidence: &Evidence, known: usize) -> Self {
        let rows = model.rows(&[], &mut Workspace::new());
        let dot = |a: &[f64], b: &[f64]| -> f64 { a.iter().zip(b).map(|(a, b)| a * b).sum() };
        let mut matrix = vec![0.0; known * known];
        for row in 0..known {
            for column in 0..known {
                matrix[row * known + column] = dot(&rows[row], &rows[column]);
            }
            matrix[row * known + row] += evidence.measured[row].deviation().powi(2);
        }
        let factor = Cholesky::new(&matrix, known);
        let each: Vec<(Vec<f64>, f64)> = rows
            .par_iter()
            .map(|row| {
                let shared: Vec<f64> = (0..known).map(|place| dot(row, &rows[place])).collect();
                let weights = factor.solve(&shared);
                let variance = (dot(row, row) - dot(&weights, &shared)).max(0.0);
                (weights, variance)
            })
            .collect();
        let (weights, variance) = each.into_iter().unzip();
        Conditioned { known, weights, variance }
    }
}

fn components(
    place: usize,
    quantity: &Quantity,
    left: &[usize],
    ranking: &Ranking,
    outcomes: &[[Outcome; 3]],
    conditioned: &Conditioned,
    inference: &Inference<'_, '_, '_>,
) -> Vec<Component> {
    let total: f64 = left.iter().map(|cause| ranking.causes[*cause].probability).sum();
    left.iter()
        .zip(outcomes)
        .map(|(cause, outcome)| {
            let posterior: &Posterior = &ranking.causes[*cause];
            let values = [0, 1, 2].map(|size| outcome[size].values[place].value);
            let own = outcome[1].values[place].own;
            let mean = 0.3 * values[0] + 0.4 * values[1] + 0.3 * values[2];
            let spread = 0.3 * (values[0] - mean).powi(2)
                + 0.4 * (values[1] - mean).powi(2)
                + 0.3 * (values[2] - mean).powi(2);
            // What is dead depends on nothing.
            let is_dead = values[1] == 0.0;
            let shift: f64 = if is_dead {
                0.0
            } else {
                (0..conditioned.known)
                    .map(|known| {
                        let residual = inference.observed[known] - outcome[1].values[known].value;
                        conditioned.weights[place][known] * residual.clamp(-2.0, 2.0)
                    })
                    .sum()
            };
            let tolerance = if is_dead { 0.0 } else { conditioned.variance[place] };
            let meter = good_reading(quantity.clone(), quantity.unscale(values[1])).deviation();
            Component {
                share: posterior.probability / total,
                mean: mean + shift,
                deviation: (spread + own * own + tolerance + meter * meter).sqrt(),
                cause: *cause,
            }
        })
        .collect()
}

fn information(components: &[Component]) -> f64 {
    let mut sum = 0.0;
    for one in components {
        let mut alike = 0.0;
        for other in components {
            let variance = 0.5 * (one.deviation.powi(2) + other.deviation.powi(2));
            let apart = (one.mean - other.mean).powi(2) / (8.0 * variance);
            let by_width = 0.5 * (variance / (one.deviation * other.deviation)).ln();
            alike += other.share * (-(apart + by_width)).exp();
        }
        sum -= one.share * alike.ln();
    }
    sum.max(0.0)
}

/// Groups what the causes predict into outcomes that can be told apart.
fn meanings(quantity: &Quantity, mut components: Vec<Component>) -> Vec<Meaning> {
    components.sort_by(|a, b| a.mean.total_cmp(&b.mean).then(a.cause.cmp(&b.cause)));
    let mut groups: Vec<Vec<Component>> = Vec::new();
    for one in components {
        let joins = groups
            .last()
            .and_then(|group| group.last())
            .is_some_and(|last| one.mean - last.mean < 2.0 * (one.deviation + last.deviation));
        match groups.last_mut() {
            Some(group) if joins => group.push(one),
            _ => groups.push(vec![one]),
        }
    }
    groups
        .into_iter()
        .map(|mut group| {
            let low = group.iter().map(|one| one.mean - 2.0 * one.deviation).fold(f64::INFINITY, f64::min);
            let high =
                group.iter().map(|one| one.mean + 2.0 * one.deviation).fold(f64::NEG_INFINITY, f64::max);
            let probability = group.iter().map(|one| one.share).sum();
            let reverses = group.iter().any(|one| one.mean < 0.0);
            group.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.cause.cmp(&b.cause)));
            let shown = |value: f64| {
                let value = quantity.unscale(value);
                if reverses { value } else { value.max(0.0) }
            };
            Meaning {
                low: shown(low),
                high: shown(high),
                probability,
                causes: group.iter().map(|one| one.cause).collect(),
            }
        })
        .collect()
}

/// Readings that could be taken next.
fn candidates(
    plant: &Plant<'_>,
    evidence: &Evidence,
    hypotheses: &[Hypothesis],
    ranking: &Ranking,
    left: &[usize],
) -> Vec<Quantity> {
    let site = plant.site;
    let mut list = Vec::new();
    let standby = || BusState::from(StateKind::StandbyDay);
    let mut states: Vec<BusState> = vec![standby()];
    for one in &evidence.measured {
        if let Some(state) = one.quantity.state()
            && !states.contains(state)
        {
            states.push(state.clone());
        }
    }
    // What somebody tells of a station shows, if by any voltage, while that station is called.
    for symptom in &evidence.symptoms {
        if let Some(state) = plant.call(symptom.station, CallMoment::Ringing, None)
            && !states.contains(&state)
            && states.len() < MOST_CALLS
        {
            states.push(state);
        }
    }
    let mut runs: Vec<usize> = Vec::new();
    let mut called: BTreeSet<usize> = BTreeSet::new();
    for place in left {
        let cause = hypotheses[ranking.causes[*place].hypothesis].cause;
        let run = match cause.element {
            crate::Element::Station(index) => site
                .runs
                .iter()
                .position(|run| run.sections.iter().any(|section| section.to == RunStop::Station(index))),
            element => element.run(),
        };
        let Some(run) = run else { continue };
        if !runs.contains(&run) && runs.len() < MOST_RUNS {
            runs.push(run);
            let last = site.runs[run].sections.iter().rev().find_map(|section| match section.to {
                RunStop::Station(station) => Some(station),
                _ => None,
            });
            if let Some(last) = last
                && called.len() < MOST_CALLS
                && called.insert(last)
                && let Some(state) = plant.call(last, CallMoment::Ringing, None)
                && !states.contains(&state)
            {
                states.push(state);
            }
        }
    }
    for state in &states {
        for stage in &plant.layout.stages {
            let source = match stage.source {
                StageSource::Supply(index) => ReadingPlace::Supply(index),
                StageSource::Regenerator(index) => ReadingPlace::BoxOutput(index),
            };
            list.push(Quantity::Current { at: source, state: state.clone() });
            for terminal in &stage.terminal {
                let at = match *terminal {
                    StageNode::Source => source,
                    StageNode::BoxInput(index) => ReadingPlace::BoxInput(index),
                    StageNode::Port { box_index, port } => ReadingPlace::Port { box_index, port },
                    StageNode::BoxLink(_) => continue,
                    StageNode::Station(index) => ReadingPlace::Station(index),
                };
                list.push(Quantity::Voltage { at, state: state.clone() });
            }
        }
        for &run in &runs {
            list.push(Quantity::Current { at: ReadingPlace::Run(run), state: state.clone() });
        }
    }
    for &run in &runs {
        list.extend([Quantity::Loop { run }, Quantity::Insulation { run }, Quantity::Earth { run }]);
        if capacitance_f_per_m(&site.runs[run], site.cable(&site.runs[run])).is_some() {
            list.push(Quantity::Capacitance { run });
        }
    }
    list
}

/// Minutes that a reading takes a person who stands where the last one was taken (common practice, no source): two for the
/// meter; half for every floor and three for another building; two for a cover; eight for a dwelling that has to be entered; six to
/// switch off, take a run off at both ends, and put it back; one for somebody who calls.
pub(crate) fn effort_minutes(plant: &Plant<'_>, quantity: &Quantity, last: Option<ReadingPlace>) -> f64 {
    let site = plant.site;
    let place_of = |at: ReadingPlace| match at {
        ReadingPlace::Supply(index) => Some(&site.supplies[index].place),
        ReadingPlace::BoxOutput(index)
        | ReadingPlace::BoxInput(index)
        | ReadingPlace::BoxLink(index)
        | ReadingPlace::Port { box_index: index, .. } => Some(&site.boxes[index].place),
        ReadingPlace::Station(index) => Some(site.station_place(&site.stations[index])),
        ReadingPlace::Run(run) => match site.runs[run].from {
            latchline_site::model::RunStart::Supply(index) => Some(&site.supplies[index].place),
            latchline_site::model::RunStart::Port { box_index, .. } => Some(&site.boxes[box_index].place),
            latchline_site::model::RunStart::Station(index) => {
                Some(site.station_place(&site.stations[index]))
            }
        },
    };
    let at = quantity.place();
    let mut minutes = 2.0;
    if let (Some(here), Some(there)) = (last.and_then(place_of), place_of(at)) {
        if here.building != there.building {
            minutes += 3.0;
        } else if let (Some(a), Some(b)) = (here.floor, there.floor) {
            minutes += 0.5 * a.abs_diff(b) as f64;
        }
    }
    minutes += match at {
        ReadingPlace::Station(index) => match site.stations[index].owner {
            StationOwner::Dwelling { .. } => 8.0,
            _ => 3.0,
        },
        _ => 2.0,
    };
    minutes += match quantity {
        Quantity::Loop { .. }
        | Quantity::Insulation { .. }
        | Quantity::Earth { .. }
        | Quantity::Capacitance { .. } => 6.0,
        Quantity::Drop { .. } => 3.0,
        _ => 0.0,
    };
    if quantity.state().is_some_and(|state| !state.calls.is_empty()) {
        minutes += 1.0;
    }
    minutes
}

/// A reading as a good meter gives it.
pub fn good_reading(quantity: Quantity, value: f64) -> Measured {
    Measured { quantity, value, instrument: Instrument::Good, taken: Taken::Settled }
}
