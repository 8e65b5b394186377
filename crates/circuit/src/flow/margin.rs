//! The loading margin: how far all loads can grow together.
//!
//! With all loads times `lambda`, the greatest solution `v(lambda)` has the slopes
//!
//! ```text
//! J t = P/x + I + g v                                   t = -dv/dlambda
//! J a = 2 lambda P t^2/x^3 + 2 (P/x^2 - g) t            a = -d^2v/dlambda^2
//! ```
//!
//! At the nose `v` runs like a square root, `v - v_nose = b sqrt(lambda_nose - lambda)`, for which
//! `lambda_nose - lambda = t/(2 a)` exactly (and from `lambda = 0` on for a single load). Without constant
//! power the limit is where a voltage reaches zero, `v - m t - m^2 a/2 = 0`. The search goes from `lambda
//! = 0` upwards in steps that leave a small part of the estimated distance, always from a solved state,
//! and falls back on halving when it has overshot. None of this has to be right: the answer is only given
//! once both ends are shown.

use super::enclosure::{SweepScratch, is_strictly_below_image};
use super::newton::{Factor, factor, solve_right_side, solve_tangent};
use super::{Loads, NonexistenceCertificate, Source, Tree};

/// How far all loads (power, current and conductance; not the rectifier drops) can grow together.
#[derive(Clone, Debug, PartialEq)]
pub enum Margin {
    /// There is a largest factor.
    Limited {
        /// A factor for which there is a solution: shown by an enclosure (`T(w) > w`).
        low: f64,
        /// The best estimate of the largest factor, between `low` and that of the certificate.
        estimate: f64,
        /// The certificate for a factor without solution, at most `1e-6 low` above `low`.
        high: NonexistenceCertificate,
        /// The node whose voltage falls fastest as the limit is approached.
        weakest_node: usize,
    },
    /// A rectifier drop is not below the supply voltage: no factor above zero has a solution.
    Zero {
        /// The node.
        node: usize,
    },
    /// There is no largest factor: no constant power or current is fed through any resistance.
    Unlimited,
    /// The search did not end with both ends shown (extreme figures).
    Undecided {
        /// Largest factor reached by the search.
        reached: f64,
    },
}

impl Margin {
    /// The best estimate of the largest factor; as it lies between the factor shown possible and the one
    /// shown impossible, it is within a relative 1e-6. `None` where there is no largest or it is undecided.
    #[must_use]
    pub fn value(&self) -> Option<f64> {
        match self {
            Self::Limited { estimate, .. } => Some(*estimate),
            Self::Zero { .. } => Some(0.0),
            Self::Unlimited | Self::Undecided { .. } => None,
        }
    }
}

/// Relative distance between the two ends.
const BRACKET: f64 = 9e-7;
/// Limit on factorisations in one search; typical searches need about forty.
const MOST_FACTORISATIONS: usize = 2_000;

/// Scratch of the search.
struct Search<'a> {
    tree: &'a Tree,
    source: &'a Source,
    loads: &'a Loads<'a>,
    factor: Factor,
    sweep: SweepScratch,
    /// Greatest solution at the largest factor solved.
    voltage_v: Vec<f64>,
    trial_v: Vec<f64>,
    t: Vec<f64>,
    a: Vec<f64>,
    left: usize,
}

/// Finds the loading margin and shows both ends.
///
/// Inputs must have passed [`Source::check`] and [`Loads::check`]. Time: about forty Newton steps.
#[must_use]
pub fn loading_margin(tree: &Tree, source: &Source, loads: &Loads<'_>) -> Margin {
    let nodes = tree.len();
    let blocked = |node: &usize| loads.power(*node) > 0.0 && loads.drop(*node) >= source.voltage_v;
    if let Some(node) = (0..nodes).find(blocked) {
        return Margin::Zero { node };
    }
    if !is_limited(tree, source, loads) {
        return Margin::Unlimited;
    }
    let mut factor = Factor::default();
    factor.resize(nodes);
    let mut sweep = SweepScratch::default();
    sweep.resize(nodes);
    Search {
        tree,
        source,
        loads,
        factor,
        sweep,
        voltage_v: vec![source.voltage_v; nodes],
        trial_v: vec![0.0; nodes],
        t: vec![0.0; nodes],
        a: vec![0.0; nodes],
        left: MOST_FACTORISATIONS,
    }
    .run()
}

/// Whether some constant power or current comes through a resistance.
fn is_limited(tree: &Tree, source: &Source, loads: &Loads<'_>) -> bool {
    let parent = tree.parents();
    let mut behind = vec![source.resistance_ohm > 0.0; tree.len()];
    for node in 1..tree.len() {
        behind[node] = behind[parent[node] as usize] || tree.resistances_ohm()[node] > 0.0;
    }
    (0..tree.len()).any(|node| behind[node] && (loads.power(node) > 0.0 || loads.current(node) > 0.0))
}

/// What limits the factor.
enum MarginEnd {
    Nose,
    /// The voltage of this node reaches zero.
    Zero(usize),
}

impl Search<'_> {
    fn run(mut self) -> Margin {
        let mut low = 0.0_f64;
        let mut failed = f64::INFINITY;
        let mut target = BRACKET / 4.0;
        while self.left > 0 {
            let Some((distance, limit)) = self.distance_to_limit(low) else { break };
            let estimate = low + distance;
            if !estimate.is_finite() {
                break;
            }
            if low > 0.0 && distance <= target * estimate {
                if let Some(found) = self.show(low, distance, &limit) {
                    return found;
                }
                target /= 8.0;
                if target < 1e-14 {
                    break;
                }
            }
            // Leave a hundredth of the distance, or the last gap wanted, whichever is more.
            let gap = (0.01 * distance).max(0.5 * target * estimate).min(0.5 * distance);
            let mut next = estimate - gap;
            if next >= failed {
                next = low + 0.5 * (failed - low);
            }
            loop {
                if !(next > low) || self.left == 0 {
                    return Margin::Undecided { reached: low };
                }
                if self.advance(next) {
                    low = next;
                    break;
                }
                failed = next;
                next = low + 0.5 * (failed - low);
            }
        }
        Margin::Undecided { reached: low }
    }

    /// Newton from the solution at a smaller factor (an upper bound) to the one at `load_factor`;
    /// `false` if it meets a nonpositive pivot or leaves the domain.
    fn advance(&mut self, load_factor: f64) -> bool {
        self.trial_v.copy_from_slice(&self.voltage_v);
        let mut previous = f64::INFINITY;
        for _ in 0..100 {
            self.left = self.left.saturating_sub(1);
            if !factor(self.tree, self.source, self.loads, load_factor, &self.trial_v, &mut self.factor) {
                return false;
            }
            let step = solve_tangent(self.tree, self.source, &self.factor, &mut self.trial_v);
            if !step.is_finite() {
                return false;
            }
            let small = 1e-9 * self.source.voltage_v;
            // After a step below `small` the error is of the order of its square; near the nose the
            // steps halve, then shrink quadratically, then stand still on rounding.
            if step <= small * 1e-4 || (step <= small && step >= 0.25 * previous) {
                break;
            }
            previous = step;
        }
        let fine = self
            .trial_v
            .iter()
            .enumerate()
            .all(|(node, &v)| v > 0.0 && (self.loads.power(node) == 0.0 || v > self.loads.drop(node)));
        if fine {
            std::mem::swap(&mut self.voltage_v, &mut self.trial_v);
        }
        fine
    }

    /// Estimated distance from `low` to the limit, leaving `t` at `low`; `None` if there is none to see.
    fn distance_to_limit(&mut self, low: f64) -> Option<(f64, MarginEnd)> {
        let nodes = self.tree.len();
        let loads = self.loads;
        self.left = self.left.saturating_sub(1);
        if !factor(self.tree, self.source, loads, low, &self.voltage_v, &mut self.factor) {
            return None;
        }
        for node in 0..nodes {
            self.t[node] = loads.current_at(node, self.voltage_v[node], 1.0);
        }
        solve_right_side(self.tree, self.source, &mut self.factor, &mut self.t);
        for node in 0..nodes {
            let power = loads.power(node);
            let mut e = -2.0 * loads.conductance(node) * self.t[node];
            if power > 0.0 {
                let x = self.voltage_v[node] - loads.drop(node);
                let relative = self.t[node] / x;
                e += 2.0 * power / x * relative * (low * relative + 1.0);
            }
            self.a[node] = e;
        }
        solve_right_side(self.tree, self.source, &mut self.factor, &mut self.a);
        let weakest = self.weakest();
        // Where strong conductances make `v` convex in `lambda` the square root says nothing: then, and
        // never further than, where the straight line reaches the end of the domain.
        let mut distance = (self.voltage_v[weakest] - loads.drop(weakest)) / self.t[weakest];
        let mut limit = if loads.power(weakest) > 0.0 { MarginEnd::Nose } else { MarginEnd::Zero(weakest) };
        let to_nose = self.t[weakest] / (2.0 * self.a[weakest]);
        if self.a[weakest] > 0.0 && to_nose < distance {
            distance = to_nose;
            limit = MarginEnd::Nose;
        }
        for node in 0..nodes {
            let (v, t, a) = (self.voltage_v[node], self.t[node], self.a[node]);
            if loads.power(node) == 0.0 && t > 0.0 {
                // Smaller root of v - t m - a m^2/2; where the parabola does not reach zero, its bend is
                // ignored.
                let square = t * t + 2.0 * a * v;
                let m = if square > 0.0 { 2.0 * v / (t + square.sqrt()) } else { v / t };
                if m < distance {
                    distance = m;
                    limit = MarginEnd::Zero(node);
                }
            }
        }
        distance.is_finite().then_some((distance, limit))
    }

    /// Node with the largest `t`; the first of equals.
    fn weakest(&self) -> usize {
        let mut weakest = 0;
        for (node, t) in self.t.iter().enumerate() {
            if *t > self.t[weakest] {
                weakest = node;
            }
        }
        weakest
    }

    /// Shows `low` possible and `low (1 + BRACKET)` impossible, or gives up.
    fn show(&mut self, low: f64, distance: f64, limit: &MarginEnd) -> Option<Margin> {
        let (tree, source, loads) = (self.tree, self.source, self.loads);
        let nodes = tree.len();
        let weakest_node = self.weakest();
        // Half of the way to the limit: between the two solutions, where T(w) - w is largest.
        let reach = match limit {
            MarginEnd::Nose => distance,
            MarginEnd::Zero(_) => 0.5 * distance,
        };
        for node in 0..nodes {
            self.trial_v[node] =
                self.voltage_v[node] - reach * self.t[node] - source.voltage_v * f64::EPSILON;
        }
        if !is_strictly_below_image(tree, source, loads, low, &self.trial_v, &mut self.sweep) {
            return None;
        }
        let high = low * (1.0 + BRACKET);
        let nose = self.nose_weights(low, high, distance, limit);
        let high = NonexistenceCertificate::new(tree, source, loads, high, nose)?;
        let estimate = (low + distance).clamp(low, high.load_factor);
        Some(Margin::Limited { low, estimate, high, weakest_node })
    }

    /// Injections `c` for the certificate: `lambda P w/x^2` at the estimated limit for the nose; where a
    /// voltage reaches zero, the same for `w = J^-1 e` of that node, and `e` itself.
    fn nose_weights(&mut self, low: f64, high: f64, distance: f64, limit: &MarginEnd) -> Vec<f64> {
        let nodes = self.tree.len();
        let (weights, ahead): (Vec<f64>, f64) = match limit {
            MarginEnd::Nose => (self.t.clone(), 2.0 * distance),
            MarginEnd::Zero(at) => {
                let mut unit = vec![0.0; nodes];
                unit[*at] = 1.0;
                if factor(self.tree, self.source, self.loads, low, &self.voltage_v, &mut self.factor) {
                    solve_right_side(self.tree, self.source, &mut self.factor, &mut unit);
                }
                (unit, distance)
            }
        };
        let mut injected: Vec<f64> = (0..nodes)
            .map(|node| {
                let power = self.loads.power(node);
                if power == 0.0 {
                    return 0.0;
                }
                let x = self.voltage_v[node] - self.loads.drop(node);
                // The state at the limit itself, if the estimate of it makes sense.
                let there = x - ahead * self.t[node];
                let x = if there > 0.25 * x { there } else { x };
                (high * power * weights[node] / x / x).max(0.0)
            })
            .collect();
        if let MarginEnd::Zero(at) = limit {
            injected[*at] += 1.0;
        }
        injected
    }
}
