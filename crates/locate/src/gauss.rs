//! Normal densities of a few correlated readings, one of which may be wrong or carelessly taken.

/// A symmetric positive definite matrix as its Cholesky factor, row by row.
#[derive(Debug, Clone)]
pub(crate) struct Cholesky {
    size: usize,
    lower: Vec<f64>,
}

impl Cholesky {
    /// Factors a matrix given row by row; a pivot that rounding has spoilt is replaced by a tiny one.
    pub fn new(matrix: &[f64], size: usize) -> Self {
        let mut lower = vec![0.0; size * size];
        factor_into(matrix, size, &mut lower);
        Cholesky { size, lower }
    }

    /// Solves with the lower factor: whitened values.
    pub fn whiten(&self, values: &[f64]) -> Vec<f64> {
        let mut out = vec![0.0; self.size];
        for row in 0..self.size {
            let known: f64 = (0..row).map(|k| self.lower[row * self.size + k] * out[k]).sum();
            out[row] = (values[row] - known) / self.lower[row * self.size + row];
        }
        out
    }

    /// The inverse of the whole matrix, row by row.
    pub fn inverse(&self) -> Vec<f64> {
        let mut unit = vec![0.0; self.size];
        let of = |place: usize| {
            unit.fill(0.0);
            unit[place] = 1.0;
            self.solve(&unit)
        };
        (0..self.size).flat_map(of).collect()
    }

    /// Its diagonal.
    pub fn inverse_diagonal(&self) -> Vec<f64> {
        self.inverse().into_iter().step_by(self.size + 1).collect()
    }

    /// Half the logarithm of the determinant of the whole matrix.
    pub fn half_log_determinant(&self) -> f64 {
        (0..self.size).map(|row| self.lower[row * self.size + row].ln()).sum()
    }

    /// Solves with the whole matrix.
    pub fn solve(&self, values: &[f64]) -> Vec<f64> {
        let mut out = self.whiten(values);
        for row in (0..self.size).rev() {
            let known: f64 = (row + 1..self.size).map(|k| self.lower[k * self.size + row] * out[k]).sum();
            out[row] = (out[row] - known) / self.lower[row * self.size + row];
        }
        out
    }
}

/// The lower factor of a matrix; what is above its diagonal is left as it was.
fn factor_into(matrix: &[f64], size: usize, lower: &mut [f64]) {
    for row in 0..size {
        for column in 0..=row {
            let mut known = 0.0;
            for k in 0..column {
                known += lower[row * size + k] * lower[column * size + k];
            }
            let left = matrix[row * size + column] - known;
            lower[row * size + column] = if row == column {
                left.max(1e-12 * matrix[row * size + row].max(1e-18)).sqrt()
            } else {
                left / lower[column * size + column]
            };
        }
    }
}

/// How much wider than its meter's the error of a carelessly taken reading is: a bad contact, a figure that still moved (assumed).
const CARELESS_TIMES: f64 = 5.0;

/// How readings go wrong.
#[derive(Debug, Clone)]
pub(crate) struct Errors {
    /// Variance of the meter's error of each.
    meter: Vec<f64>,
    /// Logarithm of the density of each if it is wrong.
    log_outside: Vec<f64>,
    /// Logarithms of the probability that a reading is right, wrong, and carelessly taken.
    log_right: f64,
    log_wrong: f64,
    log_careless: f64,
}

impl Errors {
    /// `meter`: variance of the meter's error of each reading; `outside`: density of each if it is wrong; probabilities that one is wrong and that it is
    /// carelessly taken.
    pub fn new(meter: &[f64], outside: &[f64], wrong: f64, careless: f64) -> Self {
        Errors {
            meter: meter.to_vec(),
            log_outside: outside.iter().map(|density| density.ln()).collect(),
            log_right: (1.0 - wrong - careless).ln(),
            log_wrong: wrong.ln(),
            log_careless: careless.ln(),
        }
    }
}

/// Likelihood of readings of which one at most is wrong or carelessly taken.
#[derive(Debug, Clone)]
pub(crate) struct Likelihood {
    /// Its logarithm.
    pub log: f64,
    /// Probability that each reading is the wrong one.
    pub wrong: Vec<f64>,
    /// Squared whitened distance of all readings.
    pub squared: f64,
}

/// Readings of which the working of one likelihood fits into an array.
const FEW: usize = 8;

/// `residual` against `covariance`, which has the meters' variances in it.
pub(crate) fn likelihood(residual: &[f64], covariance: &[f64], errors: &Errors) -> Likelihood {
    let mut wrong = vec![0.0; residual.len()];
    let (log, squared) = with_working(residual, covariance, errors, &mut wrong);
    wrong.iter_mut().for_each(|one| *one = (*one - log).exp());
    Likelihood { log, wrong, squared }
}

/// The logarithm alone.
pub(crate) fn log_likelihood(residual: &[f64], covariance: &[f64], errors: &Errors) -> f64 {
    let size = residual.len();
    if size <= FEW {
        return with_working(residual, covariance, errors, &mut [0.0; FEW][..size]).0;
    }
    with_working(residual, covariance, errors, &mut vec![0.0; size]).0
}

fn with_working(
    residual: &[f64],
    covariance: &[f64],
    errors: &Errors,
    log_if_wrong: &mut [f64],
) -> (f64, f64) {
    let size = residual.len();
    if size == 0 {
        return (0.0, 0.0);
    }
    if size <= FEW {
        let mut working = [0.0; FEW * (FEW + 3)];
        return weigh(residual, covariance, errors, &mut working, log_if_wrong);
    }
    weigh(residual, covariance, errors, &mut vec![0.0; size * (size + 3)], log_if_wrong)
}

/// Logarithm of the likelihood and squared distance; for each reading the logarithm of the part in which it is the wrong one.
///
/// The density without reading `i` follows from the conditional density of `i` given the others, whose variance is `1/Q_ii` and
/// whose deviation from its mean `(Q e)_i / Q_ii`, with `Q` the inverse of the covariance. A carelessly taken one has its meter's variance so much
/// larger there. `Q` is `K' K` with `K` the inverse of the Cholesky factor.
fn weigh(
    residual: &[f64],
    covariance: &[f64],
    errors: &Errors,
    working: &mut [f64],
    log_if_wrong: &mut [f64],
) -> (f64, f64) {
    let size = residual.len();
    let (lower, rest) = working.split_at_mut(size * size);
    let (weighted, rest) = rest.split_at_mut(size);
    let (inverse, log_if_careless) = rest.split_at_mut(size);
    factor_into(covariance, size, lower);
    let half_log_determinant: f64 = (0..size).map(|row| lower[row * size + row].ln()).sum();
    // The inverse of the lower factor, in its place.
    for column in 0..size {
        lower[column * size + column] = 1.0 / lower[column * size + column];
        for row in column + 1..size {
            let mut known = 0.0;
            for k in column..row {
                known += lower[row * size + k] * lower[k * size + column];
            }
            lower[row * size + column] = -known / lower[row * size + row];
        }
    }
    weighted.fill(0.0);
    inverse.fill(0.0);
    let mut squared = 0.0;
    for row in 0..size {
        let of_row = &lower[row * size..=row * size + row];
        let whitened: f64 = of_row.iter().zip(residual).map(|(a, b)| a * b).sum();
        squared += whitened * whitened;
        for (column, value) in of_row.iter().enumerate() {
            weighted[column] += value * whitened;
            inverse[column] += value * value;
        }
    }
    let log_two_pi = (2.0 * std::f64::consts::PI).ln();
    let log_all = -0.5 * (squared + size as f64 * log_two_pi) - half_log_determinant;
    let is_any_careless = errors.log_careless > f64::NEG_INFINITY;
    let mut highest = log_all + size as f64 * errors.log_right;
    let log_if_right = highest;
    for place in 0..size {
        let log_given_others =
            0.5 * (inverse[place].ln() - log_two_pi - weighted[place] * weighted[place] / inverse[place]);
        let log_others = log_all - log_given_others + (size as f64 - 1.0) * errors.log_right;
        log_if_wrong[place] = log_others + errors.log_outside[place] + errors.log_wrong;
        log_if_careless[place] = f64::NEG_INFINITY;
        if is_any_careless {
            let wider = (CARELESS_TIMES * CARELESS_TIMES - 1.0) * errors.meter[place];
            let variance = 1.0 / inverse[place] + wider;
            let off = weighted[place] / inverse[place];
            log_if_careless[place] =
                log_others + errors.log_careless - 0.5 * (variance.ln() + log_two_pi + off * off / variance);
        }
        highest = highest.max(log_if_wrong[place]).max(log_if_careless[place]);
    }
    let each = log_if_wrong.iter().chain(log_if_careless[..size].iter()).chain([&log_if_right]);
    let sum: f64 = each.map(|log| if *log < highest - 60.0 { 0.0 } else { (log - highest).exp() }).sum();
    (highest + sum.ln(), squared)
}

/// Logarithm of the sum of exponentials.
pub(crate) fn log_sum(logs: &[f64]) -> f64 {
    let highest = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if highest == f64::NEG_INFINITY {
        return highest;
    }
    highest + logs.iter().map(|log| (log - highest).exp()).sum::<f64>().ln()
}

/// Distribution function of the standard normal distribution, to 1.5e-7 (Abramowitz and Stegun 7.1.26, number from memory).
pub(crate) fn normal(x: f64) -> f64 {
    let z = x.abs() / std::f64::consts::SQRT_2;
    let t = 1.0 / (1.0 + 0.327_591_1 * z);
    let series = t
        * (0.254_829_592
            + t * (-0.284_496_736 + t * (1.421_413_741 + t * (-1.453_152_027 + t * 1.061_405_429))));
    let half = 0.5 * series * (-z * z).exp();
    if x > 0.0 { 1.0 - half } else { half }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_correlated_readings_have_the_density_of_the_textbook() {
        // Bivariate normal with deviations 1 and 2, correlation 0.6, at (1, -1): the closed form.
        let (a, b, rho): (f64, f64, f64) = (1.0, -1.0 / 2.0, 0.6);
        let quadratic = (a * a - 2.0 * rho * a * b + b * b) / (1.0 - rho * rho);
        let expected = -0.5 * quadratic - (2.0 * std::f64::consts::PI * 2.0 * (1.0 - rho * rho).sqrt()).ln();
        let errors = Errors::new(&[0.1; 2], &[1e-9; 2], 1e-9, 0.0);
        let found = likelihood(&[1.0, -1.0], &[1.0, 1.2, 1.2, 4.0], &errors);
        assert!((found.log - expected).abs() < 1e-6, "{} {expected}", found.log);
        assert!((found.squared - quadratic).abs() < 1e-12);
    }

    #[test]
    fn the_reading_that_does_not_fit_is_the_wrong_one() {
        let covariance = [1.0, 0.9, 0.9, 0.9, 1.0, 0.9, 0.9, 0.9, 1.0];
        let errors = Errors::new(&[0.1; 3], &[0.01; 3], 0.01, 0.03);
        let found = likelihood(&[0.1, 0.2, 30.0], &covariance, &errors);
        assert!(found.wrong[2] > 0.999);
        assert!(found.wrong[0] < 1e-3);
    }

    #[test]
    fn a_careless_reading_has_the_density_of_a_wider_meter() {
        // Surely careless, one of one: the normal density of the tolerance with 25 times the meter's variance (closed form).
        let errors = Errors::new(&[0.25], &[1e-12], 1e-12, 1.0 - 2e-12);
        let found = likelihood(&[1.5], &[1.0], &errors);
        let variance = 0.75 + 25.0 * 0.25;
        let expected = -0.5 * (1.5 * 1.5 / variance + (2.0 * std::f64::consts::PI * variance).ln());
        assert!((found.log - expected).abs() < 1e-9, "{} {expected}", found.log);
    }

    #[test]
    fn the_normal_distribution_has_its_known_quantile() {
        assert!((normal(1.959_964) - 0.975).abs() < 1e-6);
        assert!((normal(-1.0) - 0.158_655).abs() < 1e-6);
    }
}
