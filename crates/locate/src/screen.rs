//! The rough integral of one cause over its size, by the derivatives of the sound network: what screens the causes that are solved again.
//!
//! Causes are solved at both ends and in the middle of their range, and between these only where something may be found there that is not at the
//! ends. Screened, not proved: that nothing is between two sizes which predict the same rests on predictions that go one way between them.

use crate::gauss::log_sum;
use crate::inference::{Inference, Numbered, Sound};
use crate::model::Outcome;
use crate::size::Solved;
use latchline_circuit::flow::Workspace;

/// Points of the coarse grid over a size.
const COARSE: usize = 9;
/// Times that the interval between the ends and the middle is halved for it.
const COARSE_HALVINGS: usize = 2;
/// Predictions that differ by no more than this many deviations of the meter are the same.
const ALIKE: f64 = 0.05;
/// A reading this many deviations outside of what two sizes predict does not fit either, nor what lies between them.
const OUTSIDE: f64 = 6.0;
/// Points between two of them, interpolated.
const BETWEEN: usize = 12;
/// Where the regime changes between two of them, the interval is halved at most so often, until it is narrower than `CLOSE`; no more
/// changes than `MOST_CHANGES` are followed at once.
const HALVINGS: usize = 12;
/// Of these so many are made for the rough integral, the others for causes that are solved again.
const ROUGH_HALVINGS: usize = 4;
/// Where the logarithm of the likelihood half way between two points is that of a straight line to this much, it is taken for one.
const STRAIGHT: f64 = 0.02;
const CLOSE: f64 = 1e-4;
/// Predictions nearer to a chord than so many deviations of the screening are on it.
const NEAR_CHORD: f64 = 0.25;
const MOST_CHANGES: usize = 6;
/// How far the derivatives of the sound network may be wrong for a faulted one, as a share of the change, while screening.
const SCREENING_ERROR: f64 = 0.1;

/// What is known of a cause after the rough integral.
pub(crate) struct Screened {
    /// Logarithm of the integral.
    pub log: f64,
    /// The sizes that were solved; one for a cause without size.
    pub along: Vec<Solved>,
    /// Places of its range, evenly, with the logarithm of the likelihood interpolated there.
    pub logs: Vec<(f64, f64)>,
    /// Intervals in which nothing is to be found that is not at their ends.
    pub plain: Vec<(f64, f64)>,
    /// Whether it lies where nothing was read or told.
    pub is_unseen: bool,
}

impl Screened {
    /// Where the rough integral has its peak.
    pub fn peak(&self) -> f64 {
        let higher = |best: (f64, f64), one: &(f64, f64)| if one.1 > best.1 { *one } else { best };
        self.logs.iter().fold((0.0, f64::NEG_INFINITY), higher).0
    }

    pub fn log_at(&self, at: f64) -> f64 {
        let last = self.logs.len() - 1;
        self.logs[((at * last as f64).round() as usize).min(last)].1
    }
}

impl Inference<'_, '_, '_> {
    /// A rough integral with the derivatives of the sound network.
    pub(crate) fn screen(&self, cause: Numbered<'_>, sound: &Sound, workspace: &mut Workspace) -> Screened {
        if !self.model.sees(&cause) {
            // Whatever its size, everything is as it is without it.
            let outcome = sound.outcome.clone();
            let told = self.model.log_told(self.rates, &cause, &outcome, self.design_fails);
            let log = sound.likelihood.log + told;
            let along = vec![Solved { at: 0.5, outcome, told }];
            return Screened { log, along, logs: vec![(0.5, log)], plain: Vec::new(), is_unseen: true };
        }
        let rough = |outcome: &Outcome| self.log_compare(outcome, &self.rough_covariance(outcome, sound));
        if cause.range.is_none() {
            let (outcome, told) = self.at(cause, 0.0, workspace);
            let log = rough(&outcome) + told;
            let along = vec![Solved { at: 0.0, outcome, told }];
            return Screened { log, along, logs: vec![(0.0, log)], plain: Vec::new(), is_unseen: false };
        }
        let grid = self.grid(cause, sound, workspace);
        let ends: Vec<f64> = grid.iter().map(|point| rough(&point.outcome) + point.told).collect();
        let plain: Vec<bool> = grid.windows(2).map(|pair| self.is_plain(&pair[0], &pair[1], sound)).collect();
        let is_straight = |left: usize| {
            let (outcome, told) = between(&grid[left], &grid[left + 1], 0.5);
            plain[left] || (rough(&outcome) + told - ends[left].midpoint(ends[left + 1])).abs() < STRAIGHT
        };
        let straight: Vec<bool> = (0..grid.len() - 1).map(is_straight).collect();
        let steps = (COARSE - 1) * BETWEEN;
        let mut logs = Vec::with_capacity(steps + 1);
        let mut left = 0;
        for step in 0..=steps {
            let at = step as f64 / steps as f64;
            while left + 2 < grid.len() && grid[left + 1].at <= at {
                left += 1;
            }
            let (near, far) = (&grid[left], &grid[left + 1]);
            let share = (at - near.at) / (far.at - near.at);
            let log = if straight[left] {
                ends[left] + share * (ends[left + 1] - ends[left])
            } else {
                let (outcome, told) = between(near, far, share);
                rough(&outcome) + told
            };
            logs.push((at, log));
        }
        let sum: Vec<f64> = logs.iter().map(|(_, log)| *log).collect();
        let plain =
            grid.windows(2).zip(plain).filter(|(_, plain)| *plain).map(|(pair, _)| (pair[0].at, pair[1].at));
        let (log, plain) = (log_sum(&sum) - (sum.len() as f64).ln(), plain.collect());
        Screened { log, along: grid, logs, plain, is_unseen: false }
    }

    /// Whether nothing between two sizes can be told from what is at both: they predict alike, or two readings at least lie far outside
    /// of what both predict, of which one at most is wrong.
    fn is_plain(&self, near: &Solved, far: &Solved, sound: &Sound) -> bool {
        self.is_alike(near, far) || self.is_hopeless(near, far, sound)
    }

    fn is_alike(&self, near: &Solved, far: &Solved) -> bool {
        let values = near.outcome.values.iter().zip(&far.outcome.values).zip(&self.variance);
        (near.told - far.told).abs() < ALIKE
            && values.into_iter().all(|((a, b), variance)| {
                (a.value - b.value).abs() < ALIKE * variance.sqrt()
                    && (a.own - b.own).abs() < ALIKE * variance.sqrt()
            })
    }

    fn is_hopeless(&self, near: &Solved, far: &Solved, sound: &Sound) -> bool {
        let size = self.observed.len();
        let is_outside = |place: &usize| {
            let (a, b) = (&near.outcome.values[*place], &far.outcome.values[*place]);
            let change = a.value - sound.outcome.values[*place].value;
            let other = b.value - sound.outcome.values[*place].value;
            let tolerance = sound.covariance[place * size + place] + self.variance[*place];
            let wide = SCREENING_ERROR * change.abs().max(other.abs());
            let deviation = (tolerance + a.own.max(b.own).powi(2) + wide * wide).sqrt();
            let seen = self.observed[*place];
            seen < a.value.min(b.value) - OUTSIDE * deviation
                || seen > a.value.max(b.value) + OUTSIDE * deviation
        };
        (0..size).filter(is_outside).take(2).count() == 2
    }

    pub(crate) fn rough_covariance(&self, outcome: &Outcome, sound: &Sound) -> Vec<f64> {
        let size = self.observed.len();
        let mut covariance = sound.covariance.clone();
        for place in 0..size {
            let change = outcome.values[place].value - sound.outcome.values[place].value;
            if outcome.values[place].value == 0.0 {
                // What is cut off depends on nothing.
                for other in 0..size {
                    covariance[place * size + other] = 0.0;
                    covariance[other * size + place] = 0.0;
                }
            }
            covariance[place * size + place] +=
                self.variance[place] + outcome.values[place].own.powi(2) + (SCREENING_ERROR * change).powi(2);
        }
        covariance
    }

    /// The coarse grid, with both sides of every place where devices go off, limits begin to act or a box goes out: there what is
    /// predicted jumps, and nothing may be interpolated across.
    fn grid(&self, cause: Numbered<'_>, sound: &Sound, workspace: &mut Workspace) -> Vec<Solved> {
        let mut points: Vec<Solved> = [0.0, 0.5, 1.0].map(|at| self.solved(cause, at, workspace)).into();
        for _ in 0..COARSE_HALVINGS {
            // What is the same at both ends, or hopeless at both in one regime, is so between them; what is straight is known between them.
            let straight = self.straight(&points, sound);
            let is_open = |(left, pair): (usize, &[Solved])| {
                let is_one_regime = pair[0].outcome.regime == pair[1].outcome.regime;
                !(straight[left]
                    || self.is_alike(&pair[0], &pair[1])
                    || is_one_regime && self.is_hopeless(&pair[0], &pair[1], sound))
            };
            self.halve(cause, &mut points, is_open, usize::MAX, workspace);
        }
        self.close_in(cause, &mut points, ROUGH_HALVINGS, sound, workspace);
        points
    }

    /// The points of a rough integral, closed in on every place where what is predicted jumps.
    pub(crate) fn closed_in(
        &self,
        cause: Numbered<'_>,
        mut points: Vec<Solved>,
        sound: &Sound,
        workspace: &mut Workspace,
    ) -> Vec<Solved> {
        self.close_in(cause, &mut points, HALVINGS - ROUGH_HALVINGS, sound, workspace);
        points
    }

    fn close_in(
        &self,
        cause: Numbered<'_>,
        points: &mut Vec<Solved>,
        halvings: usize,
        sound: &Sound,
        workspace: &mut Workspace,
    ) {
        for _ in 0..halvings {
            let is_open = |(_, pair): (usize, &[Solved])| {
                pair[0].outcome.regime != pair[1].outcome.regime
                    && pair[1].at - pair[0].at > CLOSE
                    && !self.is_plain(&pair[0], &pair[1], sound)
            };
            if !self.halve(cause, points, is_open, MOST_CHANGES, workspace) {
                break;
            }
        }
    }

    /// Of every interval whether what is predicted in it is on the chord, as far as the next points say and screening is good for: half as wide a
    /// piece bends a quarter.
    fn straight(&self, points: &[Solved], sound: &Sound) -> Vec<bool> {
        let is_near_chord = |triple: &[Solved]| {
            let [a, b, c] = triple else { return false };
            let share = (b.at - a.at) / (c.at - a.at);
            let mix = |x: f64, y: f64| x + share * (y - x);
            let is_one_regime = a.outcome.regime == b.outcome.regime && c.outcome.regime == b.outcome.regime;
            is_one_regime
                && (mix(a.told, c.told) - b.told).abs() < 4.0 * NEAR_CHORD
                && (0..self.observed.len()).all(|place| {
                    let value = |of: &Solved| of.outcome.values[place].value;
                    let change = value(b) - sound.outcome.values[place].value;
                    let own = b.outcome.values[place].own;
                    let deviation = self.variance[place].sqrt().hypot(own).hypot(SCREENING_ERROR * change);
                    (mix(value(a), value(c)) - value(b)).abs() < 4.0 * NEAR_CHORD * deviation
                })
        };
        let near: Vec<bool> = points.windows(3).map(is_near_chord).collect();
        let is_straight = |left: usize| {
            let before = left.checked_sub(1).and_then(|before| near.get(before));
            let both = [before, near.get(left)];
            both.iter().any(Option::is_some) && both.into_iter().flatten().all(|near| *near)
        };
        (0..points.len() - 1).map(is_straight).collect()
    }

    /// Halves the first of these intervals; `false` if there was none.
    fn halve(
        &self,
        cause: Numbered<'_>,
        points: &mut Vec<Solved>,
        is_open: impl Fn((usize, &[Solved])) -> bool,
        most: usize,
        workspace: &mut Workspace,
    ) -> bool {
        let middles: Vec<f64> = points
            .windows(2)
            .enumerate()
            .filter(|pair| is_open(*pair))
            .map(|(_, pair)| pair[0].at.midpoint(pair[1].at))
            .take(most)
            .collect();
        let is_any = !middles.is_empty();
        points.extend(middles.into_iter().map(|at| self.solved(cause, at, workspace)));
        points.sort_by(|a, b| a.at.total_cmp(&b.at));
        is_any
    }

    pub(crate) fn solved(&self, cause: Numbered<'_>, at: f64, workspace: &mut Workspace) -> Solved {
        let (outcome, told) = self.at(cause, at, workspace);
        Solved { at, outcome, told }
    }
}

fn between(a: &Solved, b: &Solved, share: f64) -> (Outcome, f64) {
    let mix = |x: f64, y: f64| x + share * (y - x);
    let values = a.outcome.values.iter().zip(&b.outcome.values);
    let values = values
        .map(|(x, y)| crate::predict::Predicted {
            value: mix(x.value, y.value),
            own: mix(x.own, y.own),
            range: 0.0,
        })
        .collect();
    let Outcome { noticing, regime, .. } = a.outcome;
    (Outcome { values, shows: Vec::new(), noticing, regime }, mix(a.told, b.told))
}
