//! What readings share by the tolerances, as a few columns.

/// Columns of the covariance that are kept.
const MOST_COLUMNS: usize = 12;
/// No more are kept where all that is left is less than this share of every variance.
const LEAST_LEFT: f64 = 0.02;

/// Columns `c` of which the sum of `c c'` is nearly the covariance of these rows of derivatives, and what they leave of every variance.
pub(super) fn columns(rows: &[Vec<f64>]) -> (Vec<Vec<f64>>, Vec<f64>) {
    let dot = |a: &[f64], b: &[f64]| -> f64 { a.iter().zip(b).map(|(a, b)| a * b).sum() };
    let whole: Vec<f64> = rows.iter().map(|row| dot(row, row)).collect();
    let mut left = whole.clone();
    let mut columns: Vec<Vec<f64>> = Vec::new();
    // Of what is left as a share of the whole, since readings have different units.
    let share =
        |left: &[f64], place: usize| if whole[place] > 0.0 { left[place] / whole[place] } else { 0.0 };
    while columns.len() < MOST_COLUMNS {
        // The pivot that explains most of all: by its own share and what others share with it.
        let pivot = (0..rows.len())
            .max_by(|a, b| share(&left, *a).total_cmp(&share(&left, *b)).then(b.cmp(a)))
            .filter(|pivot| share(&left, *pivot) > LEAST_LEFT);
        let Some(pivot) = pivot else { break };
        let root = left[pivot].sqrt();
        let of = |place: usize| {
            let known: f64 = columns.iter().map(|column| column[place] * column[pivot]).sum();
            (dot(&rows[place], &rows[pivot]) - known) / root
        };
        let column: Vec<f64> = (0..rows.len()).map(of).collect();
        left.iter_mut().zip(&column).for_each(|(left, value)| *left = (*left - value * value).max(0.0));
        columns.push(column);
    }
    (columns, left)
}
