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
        for row in 0..size {
            for column in 0..=row {
                let known: f64 = (0..column).map(|k| lower[row * size + k] * lower[column * size + k]).sum();
                let left = matrix[row * size + column] - known;
                lower[row * size + column] = if row == column {
                    left.max(1e-12 * matrix[row * size + row].max(1e-18)).sqrt()
                } else {
                    left / lower[column * size + column]
                };
            }
        }
        Cholesky { size, lower }
    }

    /// Logarithm of the determinant.
    pub fn log_determinant(&self) -> f64 {
        2.0 * (0..self.size).map(|row| self.lower[row * self.size + row].ln()).sum::<f64>()
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

    /// Solves with the whole matrix.
    pub fn solve(&self, values: &[f64]) -> Vec<f64> {
        let mut out = self.whiten(values);
        for row in (0..self.size).rev() {
            let known: f64 = (row + 1..self.size).map(|k| self.lower[k * self.size + row] * out[k]).sum();
            out[row] = (out[row] - known) / self.lower[row * self.size + row];
        }
        out
    }

    /// Diagonal of the inverse.
    pub fn inverse_diagonal(&self) -> Vec<f64> {
        (0..self.size)
            .map(|place| {
                let mut unit = vec![0.0; self.size];
                unit[place] = 1.0;
                self.solve(&unit)[place]
            })
            .collect()
    }
}

/// How much wider than its meter's the error of a carelessly taken reading is: a bad contact, a figure that still moved (assumed).
const CARELESS_TIMES: f64 = 5.0;

/// How readings go wrong.
#[derive(Debug, Clone)]
pub(crate) struct Errors<'a> {
    /// Variance of the meter's error of each.
    pub meter: &'a [f64],
    /// Density of each if it is wrong.
    pub outside: &'a [f64],
    /// Probability that a reading is wrong.
    pub wrong: f64,
    /// Probability that it is carelessly taken.
    pub careless: f64,
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

/// `residual` against `covariance`, which has the meters' variances in it.
///
/// The density without reading `i` follows from the conditional density of `i` given the others, whose variance is `1/Q_ii` and
/// whose deviation from its mean `(Q e)_i / Q_ii`, with `Q` the inverse of the covariance. A carelessly taken one has its meter's variance so much
/// larger there.
pub(crate) fn likelihood(residual: &[f64], covariance: &[f64], errors: &Errors<'_>) -> Likelihood {
    let size = residual.len();
    if size == 0 {
        return Likelihood { log: 0.0, wrong: Vec::new(), squared: 0.0 };
    }
    let factor = Cholesky::new(covariance, size);
    let weighted = factor.solve(residual);
    let squared: f64 = residual.iter().zip(&weighted).map(|(e, w)| e * w).sum();
    let log_two_pi = (2.0 * std::f64::consts::PI).ln();
    let log_all = -0.5 * (squared + factor.log_determinant() + size as f64 * log_two_pi);
    let log_right = (1.0 - errors.wrong - errors.careless).ln();
    let (log_wrong, log_careless) = (errors.wrong.ln(), errors.careless.ln());
    let inverse = factor.inverse_diagonal();
    let mut logs = vec![log_all + size as f64 * log_right];
    let mut careless = Vec::new();
    for place in 0..size {
        let log_given_others =
            0.5 * (inverse[place].ln() - log_two_pi - weighted[place] * weighted[place] / inverse[place]);
        let log_others = log_all - log_given_others + (size as f64 - 1.0) * log_right;
        logs.push(log_others + errors.outside[place].ln() + log_wrong);
        if errors.careless > 0.0 {
            let wider = (CARELESS_TIMES * CARELESS_TIMES - 1.0) * errors.meter[place];
            let variance = 1.0 / inverse[place] + wider;
            let off = weighted[place] / inverse[place];
            careless
                .push(log_others + log_careless - 0.5 * (variance.ln() + log_two_pi + off * off / variance));
        }
    }
    let wrong = &logs[1..];
    let log = log_sum(&[log_sum(&logs), log_sum(&careless)]);
    let wrong = wrong.iter().map(|one| (one - log).exp()).collect();
    Likelihood { log, wrong, squared }
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
        let errors = Errors { meter: &[0.1; 2], outside: &[1e-9; 2], wrong: 1e-9, careless: 0.0 };
        let found = likelihood(&[1.0, -1.0], &[1.0, 1.2, 1.2, 4.0], &errors);
        assert!((found.log - expected).abs() < 1e-6, "{} {expected}", found.log);
        assert!((found.squared - quadratic).abs() < 1e-12);
    }

    #[test]
    fn the_reading_that_does_not_fit_is_the_wrong_one() {
        let covariance = [1.0, 0.9, 0.9, 0.9, 1.0, 0.9, 0.9, 0.9, 1.0];
        let errors = Errors { meter: &[0.1; 3], outside: &[0.01; 3], wrong: 0.01, careless: 0.03 };
        let found = likelihood(&[0.1, 0.2, 30.0], &covariance, &errors);
        assert!(found.wrong[2] > 0.999);
        assert!(found.wrong[0] < 1e-3);
    }

    #[test]
    fn a_careless_reading_has_the_density_of_a_wider_meter() {
        // Surely careless, one of one: the normal density of the tolerance with 25 times the meter's variance (closed form).
        let errors = Errors { meter: &[0.25], outside: &[1e-12], wrong: 1e-12, careless: 1.0 - 2e-12 };
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
