//! Propagation of distributions by Monte Carlo (JCGM 101): draws of independent quantities through a model.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use rayon::prelude::*;
use std::fmt;

/// Samples that share one stream of random numbers.
pub const BLOCK: usize = 64;
/// Most samples in one run.
pub const MOST_SAMPLES: usize = 10_000_000;

/// How an input quantity is distributed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Distribution {
    /// Between two limits, every value as likely as another.
    Rectangular {
        /// Lower limit.
        low: f64,
        /// Upper limit.
        high: f64,
    },
    /// Normal, by the method of Box and Muller.
    Normal {
        /// Mean.
        mean: f64,
        /// Standard deviation.
        deviation: f64,
    },
}

/// Why nothing was sampled.
#[derive(Debug, Clone, PartialEq)]
pub enum SampleError {
    /// No sample, or more than can be kept.
    Samples(usize),
    /// A distribution with limits in the wrong order or values that are not finite.
    Distribution(usize),
}

impl fmt::Display for SampleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Samples(samples) => {
                write!(f, "{samples} samples; between 1 and {MOST_SAMPLES} can be run")
            }
            Self::Distribution(index) => write!(f, "input {index} has no distribution"),
        }
    }
}

impl std::error::Error for SampleError {}

/// Samples of the output, with what each input contributes.
#[derive(Debug, Clone, PartialEq)]
pub struct Sampled {
    /// Outputs in ascending order; those that the model had none for are not in it.
    pub sorted: Vec<f64>,
    /// Samples for which the model had no output.
    pub without: usize,
    /// Squared correlation of each input with the output.
    pub squared_correlation: Vec<f64>,
}

impl Sampled {
    /// Mean of the outputs; `None` without any.
    pub fn mean(&self) -> Option<f64> {
        let count = self.sorted.len() as f64;
        (count > 0.0).then(|| self.sorted.iter().sum::<f64>() / count)
    }

    /// Standard deviation of the outputs; `None` with fewer than two.
    pub fn deviation(&self) -> Option<f64> {
        let mean = self.mean()?;
        let count = self.sorted.len() as f64;
        let squares: f64 = self.sorted.iter().map(|value| (value - mean) * (value - mean)).sum();
        (count > 1.0).then(|| (squares / (count - 1.0)).sqrt())
    }

    /// The value that a share `probability` of all samples lies below, those without output counted as lowest;
    /// `None` where it falls on one of these.
    pub fn quantile(&self, probability: f64) -> Option<f64> {
        let all = self.sorted.len() + self.without;
        let place = probability.clamp(0.0, 1.0) * all.checked_sub(1)? as f64;
        let below = place.floor() as usize;
        let part = place - below as f64;
        let low = *self.sorted.get(below.checked_sub(self.without)?)?;
        let high = self.sorted.get(below + 1 - self.without).copied().unwrap_or(low);
        Some(low + part * (high - low))
    }
}

/// Sums for correlations: of the output, its square, and for each input itself, its square and the product.
#[derive(Clone)]
struct Sums {
    count: f64,
    output: f64,
    square: f64,
    inputs: Vec<[f64; 3]>,
}

struct BlockResult {
    outputs: Vec<f64>,
    without: usize,
    sums: Sums,
}

/// Draws `samples` times from `inputs` and evaluates `model`, which returns nothing where it has no value. `workspace` makes
/// what one thread needs.
///
/// # Errors
/// [`SampleError`] for a number of samples or a distribution without meaning.
pub fn sample<W>(
    inputs: &[Distribution],
    samples: usize,
    seed: u64,
    workspace: impl Fn() -> W + Sync,
    model: impl Fn(&[f64], &mut W) -> Option<f64> + Sync,
) -> Result<Sampled, SampleError> {
    if samples == 0 || samples > MOST_SAMPLES {
        return Err(SampleError::Samples(samples));
    }
    let is_proper = |distribution: &Distribution| match *distribution {
        Distribution::Rectangular { low, high } => low.is_finite() && high.is_finite() && low <= high,
        Distribution::Normal { mean, deviation } => {
            mean.is_finite() && deviation.is_finite() && deviation >= 0.0
        }
    };
    if let Some(index) = inputs.iter().position(|distribution| !is_proper(distribution)) {
        return Err(SampleError::Distribution(index));
    }
    let blocks: Vec<BlockResult> = (0..samples.div_ceil(BLOCK))
        .into_par_iter()
        .map_init(&workspace, |workspace, block| {
            let count = BLOCK.min(samples - block * BLOCK);
            run_block(inputs, count, seed, block, workspace, &model)
        })
        .collect();
    // Added up in the order of the blocks, whichever thread made them.
    let mut total = Sums { count: 0.0, output: 0.0, square: 0.0, inputs: vec![[0.0; 3]; inputs.len()] };
    let mut sorted = Vec::with_capacity(samples);
    let mut without = 0;
    for block in blocks {
        without += block.without;
        sorted.extend_from_slice(&block.outputs);
        total.count += block.sums.count;
        total.output += block.sums.output;
        total.square += block.sums.square;
        for (all, one) in total.inputs.iter_mut().zip(&block.sums.inputs) {
            for (all, one) in all.iter_mut().zip(one) {
                *all += one;
            }
        }
    }
    sorted.sort_by(f64::total_cmp);
    Ok(Sampled { sorted, without, squared_correlation: squared_correlations(&total) })
}

fn run_block<W>(
    inputs: &[Distribution],
    count: usize,
    seed: u64,
    block: usize,
    workspace: &mut W,
    model: &impl Fn(&[f64], &mut W) -> Option<f64>,
) -> BlockResult {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    random.set_stream(block as u64);
    let mut drawn = vec![0.0; inputs.len()];
    let mut result = BlockResult {
        outputs: Vec::with_capacity(count),
        without: 0,
        sums: Sums { count: 0.0, output: 0.0, square: 0.0, inputs: vec![[0.0; 3]; inputs.len()] },
    };
    for _ in 0..count {
        for (value, distribution) in drawn.iter_mut().zip(inputs) {
            *value = draw(distribution, &mut random);
        }
        let Some(output) = model(&drawn, workspace) else {
            result.without += 1;
            continue;
        };
        result.outputs.push(output);
        let sums = &mut result.sums;
        sums.count += 1.0;
        sums.output += output;
        sums.square += output * output;
        for ((sum, value), distribution) in sums.inputs.iter_mut().zip(&drawn).zip(inputs) {
            // Counted from the middle of its range, so that squares do not cancel.
            let value = value - middle(distribution);
            sum[0] += value;
            sum[1] += value * value;
            sum[2] += value * output;
        }
    }
    result
}

fn middle(distribution: &Distribution) -> f64 {
    match *distribution {
        Distribution::Rectangular { low, high } => 0.5 * (low + high),
        Distribution::Normal { mean, .. } => mean,
    }
}

/// A number above 0 and below 1 of 53 bits.
fn unit(random: &mut ChaCha8Rng) -> f64 {
    ((random.next_u64() >> 11) as f64 + 0.5) / 9_007_199_254_740_992.0
}

fn draw(distribution: &Distribution, random: &mut ChaCha8Rng) -> f64 {
    match *distribution {
        Distribution::Rectangular { low, high } => low + (high - low) * unit(random),
        Distribution::Normal { mean, deviation } => {
            let radius = (-2.0 * libm::log(unit(random))).sqrt();
            mean + deviation * radius * libm::cos(std::f64::consts::TAU * unit(random))
        }
    }
}

fn squared_correlations(sums: &Sums) -> Vec<f64> {
    let n = sums.count;
    let output_spread = n * sums.square - sums.output * sums.output;
    sums.inputs
        .iter()
        .map(|[value, square, product]| {
            let spread = n * square - value * value;
            let common = n * product - value * sums.output;
            if spread > 0.0 && output_spread > 0.0 { common * common / (spread * output_spread) } else { 0.0 }
        })
        .collect()
}

/// Confidence interval of Clopper and Pearson for a probability of which `hits` of `samples` were seen, at the level
/// `confidence` (0.95 leaves 2.5 % on either side).
///
/// The lower end is the probability at which so many hits or more are seen with 2.5 %, the upper at which so many or fewer are;
/// found by bisection of the binomial sums.
pub fn clopper_pearson(hits: usize, samples: usize, confidence: f64) -> (f64, f64) {
    let tail = 0.5 * (1.0 - confidence.clamp(0.0, 1.0));
    let hits = hits.min(samples);
    let bisect = |is_below: &dyn Fn(f64) -> bool| {
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if is_below(middle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        0.5 * (low + high)
    };
    // P(X >= hits) rises with p, P(X <= hits) falls.
    let low = if hits == 0 { 0.0 } else { bisect(&|p| 1.0 - at_most(hits - 1, samples, p) < tail) };
    let high = if hits == samples { 1.0 } else { bisect(&|p| at_most(hits, samples, p) > tail) };
    (low, high)
}

/// Binomial probability of at most `hits` of `samples` at probability `p`, 0 < p < 1.
fn at_most(hits: usize, samples: usize, p: f64) -> f64 {
    let n = samples as f64;
    let (ln_p, ln_q) = (libm::log(p), libm::log1p(-p));
    let ln_n = libm::lgamma(n + 1.0);
    let term = |k: usize| {
        let k = k as f64;
        libm::exp(ln_n - libm::lgamma(k + 1.0) - libm::lgamma(n - k + 1.0) + k * ln_p + (n - k) * ln_q)
    };
    (0..=hits).map(term).sum::<f64>().min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sum_of(inputs: &[Distribution], samples: usize) -> Sampled {
        sample(inputs, samples, 20_080_101, || (), |drawn, ()| Some(drawn.iter().sum())).unwrap()
    }

    fn near(value: Option<f64>, expected: f64, within: f64) {
        let value = value.unwrap();
        assert!((value - expected).abs() <= within, "{value}, expected {expected} within {within}");
    }

    /// Rectangular with standard uncertainty `u`.
    fn rectangular(u: f64) -> Distribution {
        let half = u * 3.0_f64.sqrt();
        Distribution::Rectangular { low: -half, high: half }
    }

    /// JCGM 101:2008, 9.2.2, table 2 (interval from memory): four standard normal quantities; y = 0, u = 2.00,
    /// 95 % interval [-3.92, 3.92].
    #[test]
    fn jcgm_101_sum_of_four_normal_quantities() {
        let found = sum_of(&[Distribution::Normal { mean: 0.0, deviation: 1.0 }; 4], 400_000);
        near(found.mean(), 0.0, 0.015);
        near(found.deviation(), 2.0, 0.01);
        near(found.quantile(0.025), -3.92, 0.03);
        near(found.quantile(0.975), 3.92, 0.03);
        // A quarter each.
        for share in found.squared_correlation {
            assert!((share - 0.25).abs() < 0.01);
        }
    }

    /// JCGM 101:2008, 9.2.3, table 3 (from memory): four rectangular quantities of u = 1; u = 2.00, [-3.88, 3.88].
    /// Closed form of the end: 2 sqrt(3) (2 - (3/5)^(1/4)) = 3.8794.
    #[test]
    fn jcgm_101_sum_of_four_rectangular_quantities() {
        let found = sum_of(&[rectangular(1.0); 4], 400_000);
        near(found.deviation(), 2.0, 0.01);
        near(found.quantile(0.025), -3.8794, 0.03);
        near(found.quantile(0.975), 3.8794, 0.03);
    }

    /// JCGM 101:2008, 9.2.4, table 4 (from memory): the fourth with u = 10; u = 10.1, Monte Carlo interval [-17.0, 17.0],
    /// where the law of propagation would give [-19.9, 19.9].
    #[test]
    fn jcgm_101_one_dominant_rectangular_quantity() {
        let found =
            sum_of(&[rectangular(1.0), rectangular(1.0), rectangular(1.0), rectangular(10.0)], 400_000);
        near(found.deviation(), 103.0_f64.sqrt(), 0.05);
        near(found.quantile(0.025), -17.0, 0.1);
        near(found.quantile(0.975), 17.0, 0.1);
        // Variances 1, 1, 1, 100 of 103.
        assert!((found.squared_correlation[3] - 100.0 / 103.0).abs() < 0.003);
    }

    /// JCGM 101:2008, 9.4.2.2.7 (values from memory): X1² - X2² with means 0.050 and 0, both u = 0.005; mean
    /// 0.002 500, u 0.000 502.
    #[test]
    fn jcgm_101_difference_of_squares() {
        let inputs = [
            Distribution::Normal { mean: 0.05, deviation: 0.005 },
            Distribution::Normal { mean: 0.0, deviation: 0.005 },
        ];
        let found = sample(&inputs, 400_000, 5, || (), |x, ()| Some(x[0] * x[0] - x[1] * x[1])).unwrap();
        near(found.mean(), 0.0025, 3e-6);
        near(found.deviation(), 0.000_502, 3e-6);
    }

    #[test]
    fn the_seed_alone_decides() {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
        let alone = pool.install(|| sum_of(&[rectangular(1.0); 3], 1001));
        assert_eq!(alone, sum_of(&[rectangular(1.0); 3], 1001));
        assert_eq!(alone.sorted.len(), 1001);
    }

    /// Closed forms: no hit of n gives [0, 1 - tail^(1/n)], n of n the mirror image ("rule of three").
    #[test]
    fn clopper_pearson_in_closed_form() {
        let (low, high) = clopper_pearson(0, 100, 0.95);
        assert_eq!(low, 0.0);
        assert!((high - (1.0 - 0.025_f64.powf(0.01))).abs() < 1e-9);
        let (low, high) = clopper_pearson(100, 100, 0.95);
        assert!((low - 0.025_f64.powf(0.01)).abs() < 1e-9);
        assert_eq!(high, 1.0);
        // One of two: P(X >= 1) = 1 - (1-p)^2 = 0.025, and its mirror image.
        let (low, high) = clopper_pearson(1, 2, 0.95);
        assert!((low - (1.0 - 0.975_f64.sqrt())).abs() < 1e-9);
        assert!((high - 0.975_f64.sqrt()).abs() < 1e-9);
    }

    #[test]
    fn refuses_what_has_no_meaning() {
        let none = |inputs: &[Distribution], samples| sample(inputs, samples, 1, || (), |_, ()| Some(0.0));
        assert_eq!(none(&[], 0), Err(SampleError::Samples(0)));
        let reversed = Distribution::Rectangular { low: 1.0, high: 0.0 };
        assert_eq!(none(&[reversed], 10), Err(SampleError::Distribution(0)));
    }
}
