//! Four samples of one tree at a time, one in each lane of a vector.
//!
//! The Newton step is that of `newton`, without rectifier drops. The lanes never mix, no operation is
//! contracted into a fused one, and the portable code and the AVX2 code are the same function compiled
//! twice, so both give the same bits. A lane stops on the expected error of the next Newton step; unlike
//! [`super::solve()`] no enclosure is verified here, and a lane without positive pivots is reported as
//! such without a certificate.

use super::{Loads, Source, Tree};

/// Four numbers on a 32-byte boundary.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[repr(align(32))]
pub struct Four(pub [f64; 4]);

impl Four {
    /// The same number in every lane.
    #[inline(always)]
    #[must_use]
    pub fn splat(value: f64) -> Self {
        Self([value; 4])
    }

    #[inline(always)]
    fn zip(self, other: Self, op: impl Fn(f64, f64) -> f64) -> Self {
        let (a, b) = (self.0, other.0);
        Self([op(a[0], b[0]), op(a[1], b[1]), op(a[2], b[2]), op(a[3], b[3])])
    }

    #[inline(always)]
    fn smaller(self, other: Self) -> Self {
        self.zip(other, |a, b| if a < b { a } else { b })
    }

    #[inline(always)]
    fn larger(self, other: Self) -> Self {
        self.zip(other, |a, b| if a > b { a } else { b })
    }

    #[inline(always)]
    fn abs(self) -> Self {
        Self(self.0.map(f64::abs))
    }
}

macro_rules! lanewise {
    ($trait:ident, $method:ident, $op:tt) => {
        impl std::ops::$trait for Four {
            type Output = Self;
            #[inline(always)]
            fn $method(self, other: Self) -> Self {
                self.zip(other, |a, b| a $op b)
            }
        }
    };
}
lanewise!(Add, add, +);
lanewise!(Sub, sub, -);
lanewise!(Mul, mul, *);
lanewise!(Div, div, /);

/// The shape of a tree and the source that all samples share.
#[derive(Clone, Copy, Debug)]
pub struct BatchTree<'a> {
    /// The tree; its resistances are not read.
    pub tree: &'a Tree,
    /// The source of every sample.
    pub source: Source,
}

/// Values and scratch of four samples, node by node.
#[derive(Clone, Debug, Default)]
pub struct FourWorkspace {
    /// Loop resistance above every node, ohm; entry 0 is not read.
    pub resistance_ohm: Vec<Four>,
    /// Constant power of every node, W.
    pub power_w: Vec<Four>,
    /// Constant current of every node, A; empty for none anywhere.
    pub current_a: Vec<Four>,
    /// Conductance of every node, S; empty for none anywhere (both are given or neither).
    pub conductance_s: Vec<Four>,
    voltage_v: Vec<Four>,
    pair: Vec<[Four; 2]>,
}

/// How a sample ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FourOutcome {
    /// Newton converged; the lowest voltage in the tree, V.
    Converged {
        /// Lowest voltage, V.
        lowest_v: f64,
    },
    /// Newton met a nonpositive pivot or left the domain.
    NoSolution,
    /// Neither within the limit of steps.
    Open,
}

const MOST_STEPS: usize = 60;
/// Expected error at which a lane stops, V.
const EXPECTED_ERROR_V: f64 = 1e-10;

impl FourWorkspace {
    /// A workspace with all four samples at the values of `tree` and `loads`.
    ///
    /// Rectifier drops are not carried; `None` if there are any.
    #[must_use]
    pub fn new(tree: &Tree, loads: &Loads<'_>) -> Option<Self> {
        let nodes = tree.len();
        if loads.drop_v.iter().any(|d| *d > 0.0) {
            return None;
        }
        let linear = !(loads.current_a.is_empty() && loads.conductance_s.is_empty());
        let all = |value: &dyn Fn(usize) -> f64| (0..nodes).map(|k| Four::splat(value(k))).collect();
        let if_linear = |value: &dyn Fn(usize) -> f64| if linear { all(value) } else { Vec::new() };
        Some(Self {
            resistance_ohm: all(&|k| if k == 0 { 0.0 } else { tree.resistances_ohm()[k] }),
            power_w: all(&|k| loads.power(k)),
            current_a: if_linear(&|k| loads.current(k)),
            conductance_s: if_linear(&|k| loads.conductance(k)),
            voltage_v: vec![Four::default(); nodes],
            pair: vec![[Four::default(); 2]; nodes],
        })
    }

    /// Voltages of the last solve, V, node by node; meaningful in the lanes that converged.
    #[must_use]
    pub fn voltages_v(&self) -> &[Four] {
        &self.voltage_v
    }

    /// Solves the four samples. Uses AVX2 where the machine has it.
    ///
    /// Values that are negative or not finite end as [`FourOutcome::NoSolution`] or [`FourOutcome::Open`].
    #[must_use]
    pub fn solve(&mut self, on: &BatchTree<'_>) -> [FourOutcome; 4] {
        #[cfg(target_arch = "x86_64")]
        if std::arch::is_x86_feature_detected!("avx2") {
            return dispatch::solve_avx2(self, on);
        }
        self.solve_portable(on)
    }

    /// [`Self::solve`] without special instructions; the same bits.
    #[must_use]
    pub fn solve_portable(&mut self, on: &BatchTree<'_>) -> [FourOutcome; 4] {
        self.solve_inlined(on)
    }

    #[inline(always)]
    fn solve_inlined(&mut self, on: &BatchTree<'_>) -> [FourOutcome; 4] {
        if self.current_a.is_empty() && self.conductance_s.is_empty() {
            self.iterate::<false>(on)
        } else {
            self.iterate::<true>(on)
        }
    }

    #[inline(always)]
    fn iterate<const LINEAR: bool>(&mut self, on: &BatchTree<'_>) -> [FourOutcome; 4] {
        let nodes = on.tree.len();
        let lengths = [self.resistance_ohm.len(), self.power_w.len(), self.voltage_v.len(), self.pair.len()];
        let linear_fits = !LINEAR || (self.current_a.len() == nodes && self.conductance_s.len() == nodes);
        if lengths != [nodes; 4] || !linear_fits {
            return [FourOutcome::Open; 4];
        }
        self.pair.fill([Four::default(); 2]);
        let mut outcome = [FourOutcome::Open; 4];
        let mut before = [f64::INFINITY; 4];
        for count in 0..MOST_STEPS {
            let step =
                if count == 0 { self.step::<LINEAR, true>(on) } else { self.step::<LINEAR, false>(on) };
            let mut open = false;
            for lane in 0..4 {
                if outcome[lane] == FourOutcome::NoSolution {
                    continue;
                }
                let (pivot, lowest_v, change) =
                    (step.lowest_pivot.0[lane], step.lowest_v.0[lane], step.change.0[lane]);
                if !(pivot > 0.0 && lowest_v > 0.0 && change.is_finite()) {
                    outcome[lane] = FourOutcome::NoSolution;
                    continue;
                }
                let relative = change / before[lane];
                let expected = if before[lane].is_finite() { relative * relative * change } else { change };
                // A lane once converged may go on falling by less than the expected error.
                outcome[lane] = if expected <= EXPECTED_ERROR_V {
                    FourOutcome::Converged { lowest_v }
                } else {
                    open = true;
                    FourOutcome::Open
                };
                before[lane] = change;
            }
            if !open {
                break;
            }
        }
        outcome
    }

    #[inline(always)]
    fn step<const LINEAR: bool, const FIRST: bool>(&mut self, on: &BatchTree<'_>) -> Step {
        let nodes = on.tree.len();
        let parent = &on.tree.parents()[..nodes];
        let resistance = &self.resistance_ohm[..nodes];
        let power = &self.power_w[..nodes];
        let voltage = &mut self.voltage_v[..nodes];
        let pair = &mut self.pair[..nodes];
        let (current, conductance) = if LINEAR {
            (&self.current_a[..nodes], &self.conductance_s[..nodes])
        } else {
            (&self.current_a[..0], &self.conductance_s[..0])
        };
        let (one, two) = (Four::splat(1.0), Four::splat(2.0));
        let v0 = Four::splat(on.source.voltage_v);
        let over_v0 = one / v0;
        let mut lowest_pivot = one;
        for node in (1..nodes).rev() {
            let [mut slope, mut constant] = pair[node];
            let (r, p) = (resistance[node], power[node]);
            if LINEAR {
                slope = slope + conductance[node];
                constant = constant + current[node];
            }
            let (over_v, inverse);
            if FIRST {
                over_v = over_v0;
                let pivot = one + r * (slope - p * over_v * over_v);
                lowest_pivot = lowest_pivot.smaller(pivot);
                inverse = one / pivot;
            } else {
                let v = voltage[node];
                let square = v * v;
                let scaled_pivot = square * (one + r * slope) - r * p;
                lowest_pivot = lowest_pivot.smaller(scaled_pivot);
                let shared = one / (v * scaled_pivot);
                over_v = scaled_pivot * shared;
                inverse = square * v * shared;
            }
            let drawn = p * over_v;
            slope = slope - drawn * over_v;
            let passed = (constant + two * drawn) * inverse;
            let up = &mut pair[parent[node] as usize];
            up[0] = up[0] + slope * inverse;
            up[1] = up[1] + passed;
            pair[node] = [inverse, r * passed];
        }
        let [mut slope, mut constant] = pair[0];
        if LINEAR {
            slope = slope + conductance[0];
            constant = constant + current[0];
        }
        let over_v = if FIRST { over_v0 } else { one / voltage[0] };
        let drawn = power[0] * over_v;
        slope = slope - drawn * over_v;
        constant = constant + two * drawn;
        let r0 = Four::splat(on.source.resistance_ohm);
        let pivot = one + r0 * slope;
        lowest_pivot = lowest_pivot.smaller(pivot);
        let root = (v0 - r0 * constant) / pivot;
        let before = if FIRST { v0 } else { voltage[0] };
        let mut change = (before - root).abs();
        let mut lowest_v = root;
        voltage[0] = root;
        pair[0] = [Four::default(); 2];
        for node in 1..nodes {
            let [inverse, drop] = pair[node];
            pair[node] = [Four::default(); 2];
            let v = voltage[parent[node] as usize] * inverse - drop;
            let before = if FIRST { v0 } else { voltage[node] };
            change = change.larger((before - v).abs());
            lowest_v = lowest_v.smaller(v);
            voltage[node] = v;
        }
        Step { lowest_pivot, lowest_v, change }
    }
}

struct Step {
    lowest_pivot: Four,
    lowest_v: Four,
    change: Four,
}

#[cfg(target_arch = "x86_64")]
mod dispatch {
    #![allow(unsafe_code, reason = "calling a function compiled for AVX2 after asking the processor")]
    use super::{BatchTree, FourOutcome, FourWorkspace};

    #[target_feature(enable = "avx2")]
    fn compiled_for_avx2(workspace: &mut FourWorkspace, on: &BatchTree<'_>) -> [FourOutcome; 4] {
        workspace.solve_inlined(on)
    }

    /// The caller has found AVX2.
    pub(super) fn solve_avx2(workspace: &mut FourWorkspace, on: &BatchTree<'_>) -> [FourOutcome; 4] {
        debug_assert!(std::arch::is_x86_feature_detected!("avx2"));
        // SAFETY: the only caller, `FourWorkspace::solve`, calls this after
        // `is_x86_feature_detected!("avx2")` returned true on this machine.
        unsafe { compiled_for_avx2(workspace, on) }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Options, Outcome, Workspace, solve};
    use super::*;

    fn fixture() -> (Tree, Source, Vec<f64>) {
        let parent = vec![0, 0, 1, 1, 2, 2, 3, 0, 7];
        let resistance = vec![0.0, 0.5, 0.8, 0.0, 1.2, 0.4, 0.9, 2.0, 0.1];
        let power = vec![0.0, 2.0, 3.0, 0.0, 4.0, 1.0, 2.5, 6.0, 0.5];
        (Tree::new(parent, resistance).unwrap(), Source { voltage_v: 48.0, resistance_ohm: 0.3 }, power)
    }

    #[test]
    fn both_compilations_give_the_same_bits() {
        let (tree, source, power) = fixture();
        let currents = vec![0.05; tree.len()];
        for loads in [Loads::of_power(&power), Loads { current_a: &currents, ..Loads::of_power(&power) }] {
            let mut here = FourWorkspace::new(&tree, &loads).unwrap();
            for (k, r) in here.resistance_ohm.iter_mut().enumerate() {
                r.0 = [1.0, 1.1, 0.7, 40.0].map(|f| r.0[0] * f + 0.01 * k as f64);
            }
            let mut there = here.clone();
            let on = BatchTree { tree: &tree, source };
            assert_eq!(here.solve(&on), there.solve_portable(&on));
            for (a, b) in here.voltages_v().iter().zip(there.voltages_v()) {
                assert_eq!(a.0.map(f64::to_bits), b.0.map(f64::to_bits));
            }
        }
    }

    #[test]
    fn lanes_agree_with_the_verified_solution() {
        let (tree, source, power) = fixture();
        let conductances = vec![1e-3; tree.len()];
        let loads = Loads { conductance_s: &conductances, ..Loads::of_power(&power) };
        let mut four = FourWorkspace::new(&tree, &loads).unwrap();
        let scale = [1.0, 2.0, 3.0, 100.0];
        for p in &mut four.power_w {
            p.0 = scale.map(|s| p.0[0] * s);
        }
        let outcome = four.solve(&BatchTree { tree: &tree, source });
        assert_eq!(outcome[3], FourOutcome::NoSolution);
        let mut workspace = Workspace::new();
        for (lane, scale) in scale.into_iter().enumerate().take(3) {
            let scaled: Vec<f64> = power.iter().map(|p| p * scale).collect();
            let loads = Loads { power_w: &scaled, ..loads };
            let found = solve(&tree, &source, &loads, &mut workspace, &Options::default()).unwrap();
            assert!(matches!(found, Outcome::Solved(_)), "{found:?}");
            for (a, b) in four.voltages_v().iter().zip(workspace.voltages_v()) {
                assert!((a.0[lane] - b).abs() < 1e-9);
            }
        }
    }
}
