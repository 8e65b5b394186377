//! The answer: causes in classes that the readings cannot tell apart, and what to read next.

use crate::evidence::{Evidence, Measured, Symptom};
use crate::gauss::Cholesky;
use crate::hypothesis::{Hypothesis, hypotheses};
use crate::inference::Inference;
use crate::kind::{Kind, SymptomKind};
use crate::model::Model;
use crate::next::{NextReading, next_reading};
use crate::pairs::{Pair, are_worth_trying, pairs};
use crate::place::{PlaceShare, places};
use crate::planned::{Proof, planned_v, read_as_planned};
use crate::plant::Plant;
use crate::posterior::{Posterior, Ranking};
use crate::quantity::Quantity;
use crate::rates::{Age, Rates};
use latchline_circuit::flow::Workspace;
use latchline_finding::{CallMoment, StateKind};
use latchline_network::readings::ReadingPlace;

/// Causes below this probability are left out of classes.
const LEAST_IN_CLASS: f64 = 1e-5;
/// No more classes are made when they have this probability together, of all that is in the list, or are so many; each cause left is one of its own.
const CLASSED: f64 = 0.998;
const MOST_CLASSES: usize = 24;
/// How much likelier the design is the cause where it fails, and where it passes (assumed).
const DESIGN_FAILS: f64 = 4.0;
const DESIGN_PASSES: f64 = 0.25;
/// A reading is pointed out as doubtful from this probability of being wrong.
const DOUBTFUL: f64 = 0.5;
/// Largest squared whitened distance per reading at which a cause still explains what was read.
const EXPLAINS: f64 = 9.0;

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Options {
    /// How old the installation is.
    pub age: Age,
    /// Stop asking for readings when the causes at one element have this probability together.
    pub confidence: f64,
    /// Errors that the site as drawn has.
    pub design_errors: usize,
}

impl Default for Options {
    fn default() -> Self {
        Options { age: Age::InService, confidence: 0.9, design_errors: 0 }
    }
}

/// Causes that the readings cannot tell apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Class {
    /// Indices into [`Ranking::causes`], the most probable first.
    pub members: Vec<usize>,
    /// Their probability together.
    pub probability: f64,
}

/// The answer.
#[derive(Debug, Clone)]
pub struct Located {
    /// Every single cause.
    pub hypotheses: Vec<Hypothesis>,
    /// Which is how probable.
    pub ranking: Ranking,
    /// Classes, that of the most probable cause first.
    pub classes: Vec<Class>,
    /// Readings that are probably wrong: indices into the evidence.
    pub doubtful: Vec<usize>,
    /// Whether the best cause explains the readings badly: two causes at once, or one that is not in the list.
    pub nothing_fits: bool,
    /// Whether one element is probable enough for no further reading to be proposed.
    pub is_sure: bool,
    /// Places to look at, the most probable first.
    pub places: Vec<PlaceShare>,
    /// Whether something was read, and every reading is what it should be without any fault, to two deviations.
    pub is_as_predicted: bool,
    /// Where every reading is a voltage within what is planned, though not all are as predicted: that which is nearest to the end of its range.
    pub within_plan: Option<Planned>,
    /// Pairs of causes that explain them better.
    pub pairs: Vec<Pair>,
    /// The reading that proves the mend of the most probable cause.
    pub proof: Option<Proof>,
    /// Whether a meter can see each of the hypotheses.
    pub seen: Vec<bool>,
    /// The reading that tells most for its effort; `None` where the answer is sure enough or no reading tells more.
    pub next: Option<NextReading>,
}

/// A reading within what is planned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Planned {
    /// Which: index into the evidence.
    pub reading: usize,
    /// The least that is planned, in volts.
    pub low_v: f64,
    /// The most.
    pub high_v: f64,
}

impl Located {
    /// The cause and what is known of it.
    pub fn cause(&self, place: usize) -> (&Hypothesis, &Posterior) {
        let posterior = &self.ranking.causes[place];
        (&self.hypotheses[posterior.hypothesis], posterior)
    }

    /// Whether a meter can see a cause.
    pub fn is_seen(&self, place: usize) -> bool {
        self.seen[self.ranking.causes[place].hypothesis]
    }
}

/// Every single cause, weighed before anything is known: a design that passes is seldom what is wrong; one that fails often is.
pub(crate) fn weighed(plant: &Plant<'_>, rates: &Rates, options: &Options) -> Vec<Hypothesis> {
    let mut hypotheses = hypotheses(plant, rates, options.age);
    let factor = if options.design_errors > 0 { DESIGN_FAILS } else { DESIGN_PASSES };
    for one in hypotheses.iter_mut().filter(|one| one.cause.kind == Kind::DesignAsDrawn) {
        one.prior *= factor;
    }
    hypotheses
}

/// Ranks every single cause by what was read and told.
pub fn locate(plant: &Plant<'_>, evidence: &Evidence, rates: &Rates, options: &Options) -> Located {
    let hypotheses = weighed(plant, rates, options);
    let model = Model::of(plant, evidence);
    let mut inference = Inference::new(&model, rates, evidence, options.design_errors > 0);
    let ranking = inference.rank(&hypotheses);
    let classes = classes(&ranking);
    let doubtful: Vec<usize> =
        (0..evidence.measured.len()).filter(|place| ranking.wrong[*place] > DOUBTFUL).collect();
    let readings = evidence.measured.len() as f64;
    let nothing_fits = ranking.none_of_these > 0.5
        || (doubtful.is_empty()
            && readings > 0.0
            && ranking.causes.first().is_some_and(|best| best.squared > EXPLAINS * readings.max(1.0)));
    let pairs = if are_worth_trying(evidence, nothing_fits) {
        pairs(&mut inference, &hypotheses, &ranking)
    } else {
        Vec::new()
    };
    let is_sure = share_of_first_element(&hypotheses, &ranking) >= options.confidence;
    let places = places(plant, &hypotheses, &ranking);
    let is_as_predicted = is_as_predicted(plant, evidence);
    let within_plan = if is_as_predicted { None } else { within_plan(plant, evidence) };
    let next = if is_sure { None } else { next_reading(plant, evidence, &hypotheses, &ranking, &inference) };
    let proof = ranking.causes.first().and_then(|best| proof(plant, evidence, &hypotheses[best.hypothesis]));
    let seen = hypotheses.iter().map(|one| one.is_electrical(plant)).collect();
    Located {
        hypotheses,
        ranking,
        classes,
        doubtful,
        nothing_fits,
        is_sure,
        places,
        is_as_predicted,
        within_plan,
        pairs,
        proof,
        seen,
        next,
    }
}

/// What a plant without any fault shows, and how far each reading is from it.
struct Sound<'p, 'a> {
    model: Model<'p, 'a>,
    values: Vec<f64>,
    deviations: Vec<f64>,
}

impl<'p, 'a> Sound<'p, 'a> {
    fn of(plant: &'p Plant<'a>, quantities: Vec<Quantity>) -> Self {
        let model = Model::new(plant, quantities, &[]);
        let mut workspace = Workspace::new();
        let outcome = model.outcome(&[], &mut workspace);
        let rows = model.rows(&[], &model.all(), &mut workspace);
        let deviation = |place: usize| {
            let tolerance: f64 = rows[place].iter().map(|share| share * share).sum();
            (tolerance + outcome.values[place].own.powi(2)).sqrt().max(1e-9)
        };
        let deviations = (0..model.quantities.len()).map(deviation).collect();
        let values = outcome.values.iter().map(|value| value.value).collect();
        Sound { model, values, deviations }
    }

    /// What it should be, to two deviations.
    fn of_place(&self, place: usize) -> Proof {
        let quantity = self.model.quantities[place].clone();
        let (value, spread) = (self.values[place], 2.0 * self.deviations[place]);
        let (low, high) = (quantity.unscale(value - spread), quantity.unscale(value + spread));
        Proof { quantity, low, high }
    }

    /// In deviations of tolerances and meter together.
    fn distance(&self, place: usize, measured: &Measured) -> f64 {
        let error = measured.scaled() - self.values[place];
        error.abs() / self.deviations[place].hypot(measured.deviation())
    }
}

fn is_as_predicted(plant: &Plant<'_>, evidence: &Evidence) -> bool {
    let measured = &evidence.measured;
    if measured.is_empty() {
        return false;
    }
    let sound = Sound::of(plant, measured.iter().map(|one| one.quantity.clone()).collect());
    sound.values.len() == measured.len()
        && measured.iter().enumerate().all(|(place, one)| sound.distance(place, one) <= 2.0)
}

/// Where every reading is a voltage within what is planned, the meter's error aside: that which has least to the end of its range.
fn within_plan(plant: &Plant<'_>, evidence: &Evidence) -> Option<Planned> {
    let mut nearest: Option<(f64, Planned)> = None;
    for (reading, one) in evidence.measured.iter().enumerate() {
        let (low_v, high_v) = planned_v(plant, &one.quantity)?;
        let left_v = (one.value - low_v).min(high_v - one.value);
        if left_v < 0.0 {
            return None;
        }
        if nearest.as_ref().is_none_or(|(least_v, _)| left_v < *least_v) {
            nearest = Some((left_v, Planned { reading, low_v, high_v }));
        }
    }
    nearest.map(|(_, planned)| planned)
}

/// What a live reading should be without any fault, to two deviations; `None` where its state cannot occur.
pub fn expected(plant: &Plant<'_>, quantity: Quantity) -> Option<Proof> {
    let sound = Sound::of(plant, vec![quantity]);
    (!sound.values.is_empty()).then(|| sound.of_place(0))
}

/// What proves the mend: where something is told that shows when a station is called, its voltage then; else the live reading that was farthest from
/// what it should be; else the voltage where the cause lies. Never a range that holds what was read while the fault was there: then to two deviations, and
/// where that holds it too, the next of these.
fn proof(plant: &Plant<'_>, evidence: &Evidence, cause: &Hypothesis) -> Option<Proof> {
    if !cause.is_electrical(plant) {
        return None;
    }
    let measured: Vec<Quantity> = evidence.measured.iter().map(|one| one.quantity.clone()).collect();
    let mut wanted: Vec<Quantity> = Vec::new();
    let shows_in_a_call = |symptom: &&Symptom| {
        matches!(symptom.kind, SymptomKind::Restarts | SymptomKind::Dim)
            && plant.layout.station[symptom.station].is_some_and(|at| cause.concerns(plant, at))
    };
    for symptom in evidence.symptoms.iter().filter(shows_in_a_call) {
        let at = ReadingPlace::Station(symptom.station);
        let state = plant.call(symptom.station, CallMoment::Ringing, None);
        wanted.extend(state.map(|state| Quantity::Voltage { at, state }));
    }
    let sound = Sound::of(plant, measured);
    let distance = |place: &usize| sound.distance(*place, &evidence.measured[*place]);
    let mut farthest: Vec<usize> =
        (0..sound.values.len().min(evidence.measured.len())).filter(|place| distance(place) > 3.0).collect();
    farthest.sort_by(|a, b| distance(b).total_cmp(&distance(a)).then(a.cmp(b)));
    wanted.extend(farthest.iter().map(|place| sound.model.quantities[*place].clone()));
    let at = cause.cause.element.place(plant.site)?;
    wanted.push(Quantity::Voltage { at, state: StateKind::StandbyDay.into() });
    let holds_a_reading = |proof: &Proof| {
        let of_it = evidence.measured.iter().filter(|one| one.quantity == proof.quantity);
        of_it.into_iter().any(|one| (proof.low..=proof.high).contains(&one.value))
    };
    let mut narrow = None;
    for quantity in wanted {
        // One range for one reading, wherever it is printed.
        let planned = read_as_planned(plant, &quantity);
        let Some(two_deviations) = expected(plant, quantity) else { continue };
        let either =
            planned.into_iter().chain([two_deviations.clone()]).find(|proof| !holds_a_reading(proof));
        if either.is_some() {
            return either;
        }
        narrow = narrow.or(Some(two_deviations));
    }
    narrow
}

/// Probability of all causes at the element of the most probable one.
fn share_of_first_element(hypotheses: &[Hypothesis], ranking: &Ranking) -> f64 {
    let element = |cause: &Posterior| hypotheses[cause.hypothesis].cause.element;
    let Some(first) = ranking.causes.first().map(element) else { return 0.0 };
    ranking.causes.iter().filter(|cause| element(cause) == first).map(|cause| cause.probability).sum()
}

/// Causes around the most probable that is not yet in a class.
fn classes(ranking: &Ranking) -> Vec<Class> {
    let causes = &ranking.causes;
    let kept: Vec<usize> =
        (0..causes.len()).filter(|place| causes[*place].probability > LEAST_IN_CLASS).collect();
    let mut in_class = vec![false; causes.len()];
    let mut classes: Vec<Class> = Vec::new();
    let listed: f64 = kept.iter().map(|place| causes[*place].probability).sum();
    let mut classed = 0.0;
    for &leader in &kept {
        if in_class[leader] {
            continue;
        }
        let mut members = vec![leader];
        if classed < CLASSED * listed && classes.len() < MOST_CLASSES {
            let factor = Cholesky::new(&causes[leader].covariance, causes[leader].predicted.len());
            let own = causes[leader].allowed.whitened(&factor);
            let is_like =
                |other: &usize| *other == leader || own.is_like(&causes[*other].allowed.whitened(&factor));
            members = kept.iter().copied().filter(|other| !in_class[*other] && is_like(other)).collect();
        }
        members.iter().for_each(|member| in_class[*member] = true);
        let probability = members.iter().map(|member| causes[*member].probability).sum();
        classed += probability;
        classes.push(Class { members, probability });
    }
    classes
}
