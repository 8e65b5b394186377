//! The integral of one cause over its size: roughly for every cause, then exactly for those that survive.
//!
//! What a cause predicts jumps where devices go off, limits begin to act or a box goes out. Each such place is closed in on from both
//! sides, nothing is interpolated across it, and what lies on one side is compared with derivatives of that side.

use crate::apart::Allowed;
use crate::gauss::{Likelihood, log_sum};
use crate::hypothesis::Hypothesis;
use crate::inference::Inference;
use crate::model::Outcome;
use crate::size::{Point, Size, Solved, best_of, size_at, sizes, sizes_of, trapezoid};
use latchline_circuit::flow::Workspace;

/// Points of the coarse grid over a size.
const COARSE: usize = 9;
/// Points between two of them, interpolated.
const BETWEEN: usize = 12;
/// Where the regime changes between two of them, the interval is halved at most so often, until it is narrower than `CLOSE`; no more
/// changes than `MOST_CHANGES` are followed at once.
const HALVINGS: usize = 12;
const CLOSE: f64 = 1e-4;
const MOST_CHANGES: usize = 6;
/// A regime whose best point lies so far below the best of all (logarithms) is not divided further.
const FAR_BELOW: f64 = 15.0;
/// Points of the first exact grid.
const FINE: usize = 17;
/// Most times that the neighbourhood of a peak is divided by four.
const MOST_ROUNDS: usize = 8;
/// Neighbours of a peak that differ by more (logarithms) do not resolve it, unless they are as close as `NARROWEST`.
const STEEPEST: f64 = 0.7;
const NARROWEST: f64 = 1e-5;
/// How far the derivatives of the sound network may be wrong for a faulted one, as a share of the change, while screening.
const SCREENING_ERROR: f64 = 0.1;

/// One cause integrated over its size.
pub(crate) struct Integrated {
    pub log: f64,
    pub size: Option<Size>,
    pub best: Outcome,
    pub likelihood: Likelihood,
    pub log_told: f64,
    pub covariance: Vec<f64>,
    pub allowed: Allowed,
}

impl Inference<'_, '_, '_> {
    /// A rough integral with the derivatives of the sound network.
    pub(crate) fn screen(
        &self,
        hypothesis: &Hypothesis,
        sound: &Outcome,
        sound_covariance: &[f64],
        workspace: &mut Workspace,
    ) -> Screened {
        let rough = |outcome: &Outcome| {
            self.compare(outcome, &self.rough_covariance(outcome, sound, sound_covariance))
        };
        if hypothesis.range.is_none() {
            let (outcome, told) = self.at(hypothesis, 0.0, workspace);
            let log = rough(&outcome).log + told;
            return Screened { log, along: vec![Solved { at: 0.0, outcome, told }], logs: vec![(0.0, log)] };
        }
        let grid = self.grid(hypothesis, workspace);
        let steps = (COARSE - 1) * BETWEEN;
        let mut logs = Vec::with_capacity(steps + 1);
        let mut left = 0;
        for step in 0..=steps {
            let at = step as f64 / steps as f64;
            while left + 2 < grid.len() && grid[left + 1].at <= at {
                left += 1;
            }
            let (near, far) = (&grid[left], &grid[left + 1]);
            let (outcome, told) = between(near, far, (at - near.at) / (far.at - near.at));
            logs.push((at, rough(&outcome).log + told));
        }
        let sum: Vec<f64> = logs.iter().map(|(_, log)| *log).collect();
        Screened { log: log_sum(&sum) - (sum.len() as f64).ln(), along: grid, logs }
    }

    /// What the rough integral alone says of a cause that is not solved again.
    pub(crate) fn rough(
        &self,
        hypothesis: &Hypothesis,
        screened: &Screened,
        sound: &Outcome,
        sound_covariance: &[f64],
    ) -> Integrated {
        let peak = screened.peak();
        let nearest =
            screened.along.iter().min_by(|a, b| (a.at - peak).abs().total_cmp(&(b.at - peak).abs()));
        let (best, log_told) =
            nearest.map_or((sound.clone(), 0.0), |solved| (solved.outcome.clone(), solved.told));
        let covariance = self.rough_covariance(&best, sound, sound_covariance);
        let likelihood = self.compare(&best, &covariance);
        let size = hypothesis.range.map(|_| sizes_of(hypothesis, &screened.logs));
        let allowed = Allowed::near(&screened.along, |at| screened.log_at(at));
        Integrated { log: screened.log, size, best, likelihood, log_told, covariance, allowed }
    }

    fn rough_covariance(&self, outcome: &Outcome, sound: &Outcome, sound_covariance: &[f64]) -> Vec<f64> {
        let size = self.observed.len();
        let mut covariance = sound_covariance.to_vec();
        for place in 0..size {
            let change = outcome.values[place].value - sound.values[place].value;
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
    fn grid(&self, hypothesis: &Hypothesis, workspace: &mut Workspace) -> Vec<Solved> {
        let mut points: Vec<Solved> = (0..COARSE)
            .map(|step| self.solved(hypothesis, step as f64 / (COARSE - 1) as f64, workspace))
            .collect();
        for _ in 0..HALVINGS {
            let middles: Vec<f64> = points
                .windows(2)
                .filter(|pair| pair[0].outcome.regime != pair[1].outcome.regime)
                .filter(|pair| pair[1].at - pair[0].at > CLOSE)
                .map(|pair| pair[0].at.midpoint(pair[1].at))
                .take(MOST_CHANGES)
                .collect();
            if middles.is_empty() {
                break;
            }
            points.extend(middles.into_iter().map(|at| self.solved(hypothesis, at, workspace)));
            points.sort_by(|a, b| a.at.total_cmp(&b.at));
        }
        points
    }

    fn solved(&self, hypothesis: &Hypothesis, at: f64, workspace: &mut Workspace) -> Solved {
        let (outcome, told) = self.at(hypothesis, at, workspace);
        Solved { at, outcome, told }
    }

    /// The integral by solving exactly.
    pub(crate) fn exact(
        &self,
        hypothesis: &Hypothesis,
        screened: &Screened,
        workspace: &mut Workspace,
    ) -> Integrated {
        if hypothesis.range.is_none() {
            let (best, log_told) = self.at(hypothesis, 0.0, workspace);
            let rows = self.model.rows(&self.effects(hypothesis, 0.0), workspace);
            let covariance = self.covariance(&rows, &best);
            let likelihood = self.compare(&best, &covariance);
            let values = best.values.iter().map(|value| value.value).collect();
            return Integrated {
                log: likelihood.log + log_told,
                size: None,
                best,
                likelihood,
                log_told,
                covariance,
                allowed: Allowed::only(values, log_told),
            };
        }
        let mut points: Vec<Point> = screened.along.iter().cloned().map(Point::new).collect();
        let mut wanted: Vec<f64> = (0..FINE).map(|place| place as f64 / (FINE - 1) as f64).collect();
        // Around the rough peak, too: the likelihood may be narrower than the grid.
        wanted.push(screened.peak());
        for _ in 0..MOST_ROUNDS {
            wanted.retain(|at| points.iter().all(|point| point.at != *at));
            let new = wanted.drain(..).map(|at| Point::new(self.solved(hypothesis, at, workspace)));
            points.extend(new.collect::<Vec<_>>());
            points.sort_by(|a, b| a.at.total_cmp(&b.at));
            points.dedup_by(|a, b| a.at == b.at);
            let regimes = regimes(&points);
            for range in &regimes {
                self.weigh(hypothesis, &mut points[range.clone()], workspace);
            }
            let highest = points.iter().map(|point| point.log).fold(f64::NEG_INFINITY, f64::max);
            for range in regimes {
                // The peak if one reading may be wrong, and the peak if none is: a narrow one hides between the points of the first.
                let by_log = |place: usize| points[place].log;
                let by_distance = |place: usize| points[place].told - 0.5 * points[place].likelihood.squared;
                let measures: [&dyn Fn(usize) -> f64; 2] = [&by_log, &by_distance];
                for value in measures {
                    let Some(centre) =
                        range.clone().max_by(|a, b| value(*a).total_cmp(&value(*b)).then(b.cmp(a)))
                    else {
                        continue;
                    };
                    let counts =
                        by_log(centre) > highest - FAR_BELOW || by_distance(centre) > highest - FAR_BELOW;
                    for (from, to) in
                        [(centre.saturating_sub(1), centre), (centre, (centre + 1).min(points.len() - 1))]
                    {
                        let wide = points[to].at - points[from].at;
                        if counts && wide > NARROWEST && (value(from) - value(to)).abs() > STEEPEST {
                            wanted.extend([0.25, 0.5, 0.75].map(|share| points[from].at + share * wide));
                        }
                    }
                }
            }
            if wanted.is_empty() {
                break;
            }
        }
        let best = best_of(&points, |point| point.log);
        let weights = trapezoid(&points);
        let log = log_sum(&weights);
        let size = Some(sizes(hypothesis, &points, &weights, best));
        let allowed = Allowed::of(&points);
        let Point { outcome, told: log_told, likelihood, covariance, .. } = points.swap_remove(best);
        Integrated { log, size, best: outcome, likelihood, log_told, covariance, allowed }
    }

    /// Compares the points of one regime with what was read, with the derivatives at the best of them: those of another regime say
    /// nothing of it.
    fn weigh(&self, hypothesis: &Hypothesis, points: &mut [Point], workspace: &mut Workspace) {
        let is_weighed = |point: &Point| point.log.is_finite();
        let best = match points.iter().any(is_weighed) {
            true => best_of(points, |point| if is_weighed(point) { point.log } else { f64::NEG_INFINITY }),
            false => best_of(points, |point| point.told - 0.5 * self.plain_distance(&point.outcome)),
        };
        let size = size_at(hypothesis, points[best].at);
        let rows = self.model.rows(&self.effects(hypothesis, size), workspace);
        for point in points {
            point.covariance = self.covariance(&rows, &point.outcome);
            point.likelihood = self.compare(&point.outcome, &point.covariance);
            point.log = point.likelihood.log + point.told;
        }
    }

    /// Squared distance from what was read in deviations of the meters and of what is unsettled.
    fn plain_distance(&self, outcome: &Outcome) -> f64 {
        let each = self.observed.iter().zip(&outcome.values).zip(&self.variance);
        each.map(|((seen, said), variance)| (seen - said.value).powi(2) / (variance + said.own.powi(2))).sum()
    }
}

/// What is known of a cause after the rough integral.
pub(crate) struct Screened {
    /// Logarithm of the integral.
    pub log: f64,
    /// The sizes that were solved; one for a cause without size.
    along: Vec<Solved>,
    /// Places of its range, evenly, with the logarithm of the likelihood interpolated there.
    logs: Vec<(f64, f64)>,
}

impl Screened {
    /// Where the rough integral has its peak.
    fn peak(&self) -> f64 {
        let higher = |best: (f64, f64), one: &(f64, f64)| if one.1 > best.1 { *one } else { best };
        self.logs.iter().fold((0.0, f64::NEG_INFINITY), higher).0
    }

    fn log_at(&self, at: f64) -> f64 {
        let last = self.logs.len() - 1;
        self.logs[((at * last as f64).round() as usize).min(last)].1
    }
}

/// The points of each regime: neighbours that are alike in what is off, limited or out.
fn regimes(points: &[Point]) -> Vec<std::ops::Range<usize>> {
    let mut ranges = Vec::new();
    let mut from = 0;
    for to in 1..=points.len() {
        if to == points.len() || points[to].outcome.regime != points[from].outcome.regime {
            ranges.push(from..to);
            from = to;
        }
    }
    ranges
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
