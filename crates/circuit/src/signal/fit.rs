//! Line constants from a table of insertion loss.
//!
//! A data sheet gives the loss of a matched length at a few frequencies, the DC resistance and the
//! capacitance. With `R0` and `C` fixed by those, the skin corner, the inductance and the loss tangent
//! of the insulation follow by least squares on the relative error of `Re sqrt((R + jwL)(G + jwC))`
//! (Levenberg-Marquardt on the logarithms of corner and inductance, several starts). The loss at high
//! frequency alone fixes only `R / Z0`, so a table without rows near `R = wL` leaves corner and
//! inductance poorly separated; then fix the inductance.

use super::line::{DB_PER_NEPER, LineLaw, PlainLine};
use super::value::{ValueError, check_frequency_hz, positive};

/// One row: loss of a matched length, per metre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LossRow {
    /// Frequency in hertz.
    pub frequency_hz: f64,
    /// Loss in decibel per metre.
    pub loss_db_per_m: f64,
}

/// What is known besides the losses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// DC loop resistance, ohm per metre.
    pub r_ohm_per_m: f64,
    /// Capacitance, farad per metre.
    pub c_f_per_m: f64,
    /// Inductance in henry per metre where it is known; `None` fits it.
    pub l_h_per_m: Option<f64>,
}

/// A fitted line and how well it meets the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// The line.
    pub line: PlainLine,
    /// Root mean square of the relative errors of the loss.
    pub rms_relative: f64,
    /// Greatest relative error of the loss.
    pub greatest_relative: f64,
}

/// Number of parameters: logarithm of the corner, of the inductance, loss tangent.
const PARAMETERS: usize = 3;

/// Fits a line to a table of at least three rows.
pub fn fit_loss_table(table: &[LossRow], known: Known) -> Result<Fit, ValueError> {
    positive("r_ohm_per_m", known.r_ohm_per_m)?;
    positive("c_f_per_m", known.c_f_per_m)?;
    if let Some(l_h_per_m) = known.l_h_per_m {
        positive("l_h_per_m", l_h_per_m)?;
    }
    if table.len() < PARAMETERS {
        let value = table.len() as f64;
        return Err(ValueError { quantity: "rows of loss table", value, limit: "at least 3" });
    }
    for row in table {
        check_frequency_hz(row.frequency_hz)?;
        positive("loss_db_per_m", row.loss_db_per_m)?;
    }
    let mut best: Option<([f64; PARAMETERS], f64)> = None;
    for corner_hz in [1e4, 1e5, 1e6] {
        // 100 ohm at high frequency is a fair start for any pair.
        let l_h_per_m = known.l_h_per_m.unwrap_or(known.c_f_per_m * 1e4);
        let found = descend(table, known, [libm::log(corner_hz), libm::log(l_h_per_m), 0.0]);
        if best.is_none_or(|(_, sum)| found.1 < sum) {
            best = Some(found);
        }
    }
    let (parameters, _) = best.unwrap_or(([libm::log(1e5), libm::log(known.c_f_per_m * 1e4), 0.0], 0.0));
    let errors = relative_errors(table, known, parameters);
    Ok(Fit {
        line: line_of(known, parameters),
        rms_relative: (sum_of_squares(&errors) / errors.len() as f64).sqrt(),
        greatest_relative: errors.iter().fold(0.0, |greatest, error| error.abs().max(greatest)),
    })
}

fn line_of(known: Known, [log_corner, log_l, loss_tangent]: [f64; PARAMETERS]) -> PlainLine {
    PlainLine {
        r_ohm_per_m: known.r_ohm_per_m,
        l_h_per_m: known.l_h_per_m.unwrap_or_else(|| libm::exp(log_l)),
        c_f_per_m: known.c_f_per_m,
        g_s_per_m: 0.0,
        skin_corner_hz: Some(libm::exp(log_corner)),
        loss_tangent,
    }
}

fn relative_errors(table: &[LossRow], known: Known, parameters: [f64; PARAMETERS]) -> Vec<f64> {
    let law = LineLaw::Plain(line_of(known, parameters));
    table
        .iter()
        .map(|row| {
            let loss = law.at(row.frequency_hz).propagation_per_m(row.frequency_hz).re * DB_PER_NEPER;
            loss / row.loss_db_per_m - 1.0
        })
        .collect()
}

fn sum_of_squares(errors: &[f64]) -> f64 {
    errors.iter().map(|error| error * error).sum()
}

/// Keeps the parameters where a line can be: corner 1 Hz to 10 GHz, inductance 1 nH/m to 1 mH/m, loss
/// tangent 0 to 1.
fn held([log_corner, log_l, loss_tangent]: [f64; PARAMETERS]) -> [f64; PARAMETERS] {
    [log_corner.clamp(0.0, 23.0), log_l.clamp(-20.7, -6.9), loss_tangent.clamp(0.0, 1.0)]
}

fn descend(table: &[LossRow], known: Known, start: [f64; PARAMETERS]) -> ([f64; PARAMETERS], f64) {
    let mut at = held(start);
    let mut errors = relative_errors(table, known, at);
    let mut sum = sum_of_squares(&errors);
    let mut damping = 1e-3;
    for _ in 0..200 {
        let mut slopes = [const { Vec::new() }; PARAMETERS];
        for (k, slope) in slopes.iter_mut().enumerate() {
            // One-sided towards larger values, so that a loss tangent of 0 is not left.
            let step = if k == 2 { 1e-7 } else { 1e-5 };
            let mut moved = at;
            moved[k] += step;
            *slope = relative_errors(table, known, moved)
                .iter()
                .zip(&errors)
                .map(|(there, here)| (there - here) / step)
                .collect();
        }
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
        let mut matrix = [[0.0; PARAMETERS + 1]; PARAMETERS];
        for (row, a) in matrix.iter_mut().zip(&slopes) {
            for (value, b) in row.iter_mut().zip(&slopes) {
                *value = dot(a, b);
            }
            row[PARAMETERS] = -dot(a, &errors);
        }
        for (k, row) in matrix.iter_mut().enumerate() {
            // The second term keeps a parameter that has no influence (a fixed inductance) where it is.
            row[k] += damping * row[k] + 1e-12;
        }
        let step = solve(matrix);
        let next = held(std::array::from_fn(|k| at[k] + step[k]));
        let next_errors = relative_errors(table, known, next);
        let next_sum = sum_of_squares(&next_errors);
        if next_sum < sum {
            let done = sum - next_sum <= 1e-14 * sum;
            (at, errors, sum) = (next, next_errors, next_sum);
            damping = (damping * 0.3).max(1e-12);
            if done {
                break;
            }
        } else {
            damping *= 4.0;
            if damping > 1e12 {
                break;
            }
        }
    }
    (at, sum)
}

/// Gauss elimination of a symmetric positive definite system, right-hand side in the last column.
fn solve(mut m: [[f64; PARAMETERS + 1]; PARAMETERS]) -> [f64; PARAMETERS] {
    for k in 0..PARAMETERS {
        for i in k + 1..PARAMETERS {
            let factor = m[i][k] / m[k][k];
            let pivot_row = m[k];
            for (value, pivot) in m[i].iter_mut().zip(pivot_row).skip(k) {
                *value -= factor * pivot;
            }
        }
    }
    let mut x = [0.0; PARAMETERS];
    for k in (0..PARAMETERS).rev() {
        let known: f64 = (k + 1..PARAMETERS).map(|j| m[k][j] * x[j]).sum();
        x[k] = (m[k][PARAMETERS] - known) / m[k][k];
    }
    x
}
