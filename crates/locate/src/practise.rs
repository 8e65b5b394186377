//! A hidden fault that answers readings: for practice, and for measuring how good the answers are.
//!
//! What is hidden is drawn by the same prior rates, but the site around it is *built*: every tolerance takes a value uniform within
//! its limits, the network is solved exactly with them, and the meter's error is heavy-tailed. The inference knows none of this.

use crate::effect::Effect;
use crate::evidence::good_reading;
use crate::evidence::{Evidence, Measured};
use crate::hypothesis::Hypothesis;
use crate::located::{Options, locate};
use crate::model::Model;
use crate::next::effort_minutes;
use crate::plant::Plant;
use crate::quantity::Quantity;
use crate::rates::Rates;
use crate::size::size_at;
use latchline_circuit::flow::Workspace;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// Random numbers of a seed.
#[derive(Debug)]
pub struct Dice(ChaCha8Rng);

impl Dice {
    /// From a seed.
    pub fn new(seed: u64) -> Self {
        Dice(ChaCha8Rng::seed_from_u64(seed))
    }

    /// Uniform from 0 to 1.
    pub fn uniform(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A meter's error in deviations: normal, but three in a hundred five times as wide.
    pub fn meter(&mut self) -> f64 {
        // Twelve uniform numbers: near enough to normal for a meter.
        let normal: f64 = (0..12).map(|_| self.uniform()).sum::<f64>() - 6.0;
        if self.uniform() < 0.03 { 5.0 * normal } else { normal }
    }
}

/// A fault that is hidden in a site.
pub struct Hidden<'a> {
    /// The cause.
    pub cause: Hypothesis,
    /// Its size.
    pub size: f64,
    effects: Vec<Effect>,
    built: Plant<'a>,
    seed: u64,
}

/// Hides a fault: one that meters can see, drawn by the rates.
pub fn hide<'a>(plant: &Plant<'a>, hypotheses: &[Hypothesis], seed: u64) -> Option<Hidden<'a>> {
    let mut dice = Dice::new(seed);
    let seen: Vec<&Hypothesis> = hypotheses.iter().filter(|one| one.is_electrical(plant)).collect();
    let total: f64 = seen.iter().map(|one| one.prior).sum();
    let mut left = dice.uniform() * total;
    let cause = seen.iter().find(|one| {
        left -= one.prior;
        left <= 0.0
    });
    let cause = (*cause.or(seen.last())?).clone();
    let size = size_at(&cause, dice.uniform());
    let effects = cause.effects(plant, size);
    let built = plant.built(&mut || dice.uniform());
    Some(Hidden { cause, size, effects, built, seed })
}

impl Hidden<'_> {
    /// What a good meter shows. The same reading asked again gives the same.
    pub fn answer(&self, quantity: &Quantity) -> Option<Measured> {
        let model = Model::new(&self.built, vec![quantity.clone()], &[]);
        let outcome = model.outcome(&self.effects, &mut Workspace::new());
        let value = outcome.values.first()?.value;
        let shown = good_reading(quantity.clone(), quantity.unscale(value));
        let mut name =
            format!("{quantity:?}").bytes().fold(self.seed ^ 0x9e37_79b9_7f4a_7c15, |hash, byte| {
                (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
            });
        name ^= name >> 29;
        let error = Dice::new(name).meter() * shown.deviation();
        let value = quantity.unscale(if value == 0.0 { 0.0 } else { value + error });
        let value = match quantity {
            Quantity::Loop { .. } if value > 0.5 * crate::quantity::OPEN_OHM => f64::INFINITY,
            _ => value,
        };
        Some(good_reading(quantity.clone(), value))
    }
}

/// Readings that tell most, one after the other, from these that are known.
#[derive(Debug, Clone, Default)]
pub struct Course {
    /// What was known first, and what was read.
    pub evidence: Evidence,
    /// How many were read.
    pub readings: usize,
    /// Minutes that they took.
    pub minutes: f64,
}

/// Takes the reading that tells most until the answer is sure enough, or `most` were taken.
pub fn best_course(
    plant: &Plant<'_>,
    hidden: &Hidden<'_>,
    first: Evidence,
    rates: &Rates,
    options: &Options,
    most: usize,
) -> Course {
    let mut course = Course { evidence: first, ..Course::default() };
    while course.readings < most {
        let found = locate(plant, &course.evidence, rates, options);
        let Some(next) = found.next else { break };
        let Some(measured) = hidden.answer(&next.quantity) else { break };
        let last = course.evidence.measured.last().map(|one| one.quantity.place());
        course.minutes += effort_minutes(plant, &next.quantity, last);
        course.evidence.measured.push(measured);
        course.readings += 1;
    }
    course
}

/// Minutes that a reading takes after those that were taken before it.
pub fn minutes(plant: &Plant<'_>, quantity: &Quantity, before: Option<&Quantity>) -> f64 {
    effort_minutes(plant, quantity, before.map(Quantity::place))
}
