//! Seeded Monte Carlo over segment resistances and loads.

use std::fmt;

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use rayon::prelude::*;

use super::batch::Four;
use super::{
    BatchTree, FourOutcome, FourWorkspace, LoadError, Loads, Options, Outcome, Source, Tree, Workspace, solve,
};

/// What a load holds constant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadKind {
    /// Power, W.
    Power,
    /// Current, A.
    Current,
    /// Resistance, ohm.
    Resistance,
}

/// One load; a node may carry several.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadElement {
    /// Position of its node in the tree.
    pub node: u32,
    /// What it holds constant.
    pub kind: LoadKind,
    /// W, A or ohm.
    pub value: f64,
}

/// How many samples, from which seed, how far apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonteCarloOptions {
    /// Number of samples, at least 1.
    pub samples: usize,
    /// Seed; the same seed gives the same samples on any number of threads.
    pub seed: u64,
    /// Largest relative deviation of every value, at least 0 and below 1 (5 % is 0.05).
    pub spread: f64,
}

/// Distribution of the lowest voltage in the tree.
#[derive(Clone, Debug, PartialEq)]
pub struct MonteCarlo {
    /// Number of samples.
    pub samples: usize,
    /// Samples without solution (or so close to collapse that it could not be decided).
    pub infeasible: usize,
    /// Mean over the samples with a solution, V; `None` if there is none.
    pub mean_v: Option<f64>,
    /// Lowest voltages of all samples in ascending order, V; negative infinity where there is no solution.
    pub sorted_v: Vec<f64>,
}

/// Why a Monte Carlo cannot run.
#[derive(Clone, Debug, PartialEq)]
pub enum MonteCarloError {
    /// No sample, or more than the limit.
    Samples {
        /// The number asked for.
        samples: usize,
    },
    /// The spread is not in `[0, 1)`.
    Spread {
        /// The value.
        spread: f64,
    },
    /// A load names a node outside the tree.
    Node {
        /// The load.
        load: usize,
        /// Its node.
        node: u32,
    },
    /// The source or a load is not admissible.
    Load(LoadError),
}

/// Most samples in one run.
pub const MOST_SAMPLES: usize = 100_000_000;

impl fmt::Display for MonteCarloError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Samples { samples } => {
                write!(f, "{samples} samples; between 1 and {MOST_SAMPLES} can be run")
            }
            Self::Spread { spread } => {
                write!(f, "a spread of {} %; it must be at least 0 and below 100", spread * 100.0)
            }
            Self::Node { load, node } => write!(f, "load {load} names node {node}, which does not exist"),
            Self::Load(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for MonteCarloError {}

impl MonteCarlo {
    /// The quantile at `probability`, V: linear between the order statistics at `(n - 1) p` (type 7 of
    /// Hyndman and Fan, Sample quantiles in statistical packages, 1996). A sample without solution counts
    /// as the lowest; `None` if the quantile falls on one.
    #[must_use]
    pub fn quantile_v(&self, probability: f64) -> Option<f64> {
        let last = self.sorted_v.len().checked_sub(1)?;
        let place = probability.clamp(0.0, 1.0) * last as f64;
        let below = place.floor() as usize;
        let part = place - below as f64;
        let low = self.sorted_v[below.min(last)];
        let high = self.sorted_v[(below + 1).min(last)];
        low.is_finite().then_some(low + part * (high - low))
    }
}

/// Samples that share one stream of random numbers.
const BLOCK: usize = 64;

/// Varies every segment resistance of `tree` and every load independently and uniformly within `1 +-
/// spread` and solves each sample. The source stays as it is.
///
/// # Errors
/// [`MonteCarloError`] naming the value at fault.
pub fn monte_carlo(
    tree: &Tree,
    source: &Source,
    elements: &[LoadElement],
    options: &MonteCarloOptions,
) -> Result<MonteCarlo, MonteCarloError> {
    check(tree, source, elements, options)?;
    let linear = elements.iter().any(|e| e.kind != LoadKind::Power);
    let nodes = tree.len();
    let zeros = vec![0.0; nodes];
    let none: &[f64] = &[];
    let nominal = Loads {
        power_w: &zeros,
        current_a: if linear { &zeros } else { none },
        conductance_s: if linear { &zeros } else { none },
        drop_v: none,
    };
    let blocks: Vec<usize> = (0..options.samples.div_ceil(BLOCK)).collect();
    let lowest: Vec<Vec<f64>> = blocks
        .par_iter()
        .map_init(
            || {
                FourWorkspace::new(tree, &nominal)
                    .map(|four| Sampler::new(tree, source, elements, options, four))
            },
            |sampler, &block| sampler.as_mut().map(|s| s.block(block)).unwrap_or_default(),
        )
        .collect();
    let mut sorted_v = lowest.concat();
    sorted_v.truncate(options.samples);
    let infeasible = sorted_v.iter().filter(|v| !v.is_finite()).count();
    let feasible = sorted_v.len() - infeasible;
    let sum: f64 = sorted_v.iter().filter(|v| v.is_finite()).sum();
    sorted_v.sort_by(f64::total_cmp);
    Ok(MonteCarlo {
        samples: options.samples,
        infeasible,
        mean_v: (feasible > 0).then(|| sum / feasible as f64),
        sorted_v,
    })
}

fn check(
    tree: &Tree,
    source: &Source,
    elements: &[LoadElement],
    options: &MonteCarloOptions,
) -> Result<(), MonteCarloError> {
    if options.samples == 0 || options.samples > MOST_SAMPLES {
        return Err(MonteCarloError::Samples { samples: options.samples });
    }
    if !(options.spread >= 0.0 && options.spread < 1.0) {
        return Err(MonteCarloError::Spread { spread: options.spread });
    }
    source.check().map_err(MonteCarloError::Load)?;
    for (load, element) in elements.iter().enumerate() {
        let node = element.node as usize;
        if node >= tree.len() {
            return Err(MonteCarloError::Node { load, node: element.node });
        }
        let quantity = match element.kind {
            LoadKind::Power => "power in W",
            LoadKind::Current => "current in A",
            LoadKind::Resistance => "resistance in ohm",
        };
        let value = element.value;
        let positive = element.kind != LoadKind::Resistance || value > 0.0;
        if !(value.is_finite() && value >= 0.0 && positive) {
            return Err(MonteCarloError::Load(LoadError::Value { quantity, node, value }));
        }
    }
    Ok(())
}

/// One thread's scratch.
struct Sampler<'a> {
    tree: &'a Tree,
    source: &'a Source,
    elements: &'a [LoadElement],
    options: &'a MonteCarloOptions,
    four: FourWorkspace,
    bytes: Vec<u8>,
    scalar: Option<(Tree, Workspace)>,
}

impl<'a> Sampler<'a> {
    fn new(
        tree: &'a Tree,
        source: &'a Source,
        elements: &'a [LoadElement],
        options: &'a MonteCarloOptions,
        four: FourWorkspace,
    ) -> Self {
        // Four 32-bit words for every segment, then for every load.
        let bytes = vec![0; 16 * (tree.len() - 1 + elements.len())];
        Self { tree, source, elements, options, four, bytes, scalar: None }
    }

    /// Lowest voltages of one block of samples.
    fn block(&mut self, block: usize) -> Vec<f64> {
        let mut random = ChaCha8Rng::seed_from_u64(self.options.seed);
        random.set_stream(block as u64);
        let samples = BLOCK.min(self.options.samples - block * BLOCK);
        let mut lowest = Vec::with_capacity(BLOCK);
        for _ in 0..samples.div_ceil(4) {
            random.fill_bytes(&mut self.bytes);
            self.draw();
            let outcome = self.four.solve(&BatchTree { tree: self.tree, source: *self.source });
            for (lane, outcome) in outcome.iter().enumerate() {
                lowest.push(match outcome {
                    FourOutcome::Converged { lowest_v } => *lowest_v,
                    FourOutcome::NoSolution => f64::NEG_INFINITY,
                    FourOutcome::Open => self.alone(lane),
                });
            }
        }
        lowest.truncate(samples);
        lowest
    }

    /// Turns the random words into resistances and loads.
    fn draw(&mut self) {
        let spread = self.options.spread;
        // A signed word plus a half, over 2^31, lies strictly between -1 and 1.
        let scale = spread / 2_147_483_648.0;
        let factors = |words: &[u8]| {
            let lane = |at: usize| {
                let word = i32::from_le_bytes([words[at], words[at + 1], words[at + 2], words[at + 3]]);
                1.0 + scale * (f64::from(word) + 0.5)
            };
            Four([lane(0), lane(4), lane(8), lane(12)])
        };
        let segments = self.tree.len() - 1;
        let (of_segments, of_loads) = self.bytes.split_at(16 * segments);
        let nominal = &self.tree.resistances_ohm()[1..];
        for ((r, value), words) in
            self.four.resistance_ohm[1..].iter_mut().zip(nominal).zip(of_segments.chunks_exact(16))
        {
            *r = factors(words) * Four::splat(*value);
        }
        for values in [&mut self.four.power_w, &mut self.four.current_a, &mut self.four.conductance_s] {
            values.fill(Four::default());
        }
        for (element, words) in self.elements.iter().zip(of_loads.chunks_exact(16)) {
            let value = factors(words) * Four::splat(element.value);
            let node = element.node as usize;
            let (into, value) = match element.kind {
                LoadKind::Power => (&mut self.four.power_w, value),
                LoadKind::Current => (&mut self.four.current_a, value),
                LoadKind::Resistance => (&mut self.four.conductance_s, Four::splat(1.0) / value),
            };
            into[node] = into[node] + value;
        }
    }

    /// A lane that did not end: solved again on its own.
    fn alone(&mut self, lane: usize) -> f64 {
        let column = |values: &[Four]| values.iter().map(|v| v.0[lane]).collect::<Vec<f64>>();
        let (tree, workspace) = self.scalar.get_or_insert_with(|| (self.tree.clone(), Workspace::new()));
        if tree.replace_resistances(&column(&self.four.resistance_ohm)).is_err() {
            return f64::NEG_INFINITY;
        }
        let (power, current, conductance) =
            (column(&self.four.power_w), column(&self.four.current_a), column(&self.four.conductance_s));
        let loads = Loads { power_w: &power, current_a: &current, conductance_s: &conductance, drop_v: &[] };
        match solve(tree, self.source, &loads, workspace, &Options::default()) {
            Ok(Outcome::Solved(_)) => workspace.voltages_v().iter().copied().fold(f64::INFINITY, f64::min),
            _ => f64::NEG_INFINITY,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(samples: usize, seed: u64, spread: f64) -> Result<MonteCarlo, MonteCarloError> {
        let tree = Tree::new(vec![0, 0, 1], vec![0.0, 5.0, 5.0]).unwrap();
        let source = Source { voltage_v: 48.0, resistance_ohm: 0.5 };
        let elements = [
            LoadElement { node: 1, kind: LoadKind::Power, value: 10.0 },
            LoadElement { node: 2, kind: LoadKind::Power, value: 8.0 },
            LoadElement { node: 2, kind: LoadKind::Resistance, value: 900.0 },
        ];
        monte_carlo(&tree, &source, &elements, &MonteCarloOptions { samples, seed, spread })
    }

    #[test]
    fn the_seed_alone_decides() {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
        let alone = pool.install(|| run(1001, 7, 0.1).unwrap());
        assert_eq!(alone, run(1001, 7, 0.1).unwrap());
        assert_ne!(alone, run(1001, 8, 0.1).unwrap());
        assert_eq!(alone.sorted_v.len(), 1001);
    }

    #[test]
    fn no_spread_gives_the_nominal_voltage_every_time() {
        let found = run(130, 1, 0.0).unwrap();
        assert_eq!(found.infeasible, 0);
        assert_eq!(found.sorted_v[0], found.sorted_v[129]);
    }

    #[test]
    fn quantiles_leave_out_nothing_and_say_so() {
        let found = MonteCarlo {
            samples: 5,
            infeasible: 1,
            mean_v: Some(42.5),
            sorted_v: vec![f64::NEG_INFINITY, 41.0, 42.0, 43.0, 44.0],
        };
        assert_eq!(found.quantile_v(0.01), None);
        assert_eq!(found.quantile_v(0.5), Some(42.0));
        assert_eq!(found.quantile_v(0.625), Some(42.5));
        assert_eq!(found.quantile_v(1.0), Some(44.0));
    }

    #[test]
    fn refuses_what_it_cannot_run() {
        assert!(matches!(run(0, 1, 0.1), Err(MonteCarloError::Samples { .. })));
        for spread in [-0.1, 1.0, f64::NAN] {
            assert!(matches!(run(10, 1, spread), Err(MonteCarloError::Spread { .. })));
        }
    }
}
