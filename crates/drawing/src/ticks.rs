//! Good numbers for the marks of an axis.
//!
//! A search over steps 1, 5, 2, 2.5, 4 and 3 times a power of ten, as Talbot, Lin and Hanrahan
//! describe it ("An extension of Wilkinson's algorithm for positioning tick labels on axes", IEEE
//! TVCG 16(6), 2010), with their score of simplicity, coverage and density; legibility is left out,
//! since the lettering here has one size and is never turned.

/// Step mantissas, the simplest first, as in the paper.
const STEPS: [f64; 6] = [1.0, 5.0, 2.0, 2.5, 4.0, 3.0];
/// Weights of simplicity, coverage and density, from the paper, with legibility's share given up.
const WEIGHTS: [f64; 3] = [0.25, 0.2, 0.5];

/// Marks of an axis that spans `low` to `high`, about `wanted` of them; all within or just outside
/// the span. Empty if the span is not finite.
pub fn ticks(low: f64, high: f64, wanted: usize) -> Vec<f64> {
    let span = high - low;
    if !(low.is_finite() && high.is_finite()) || span <= 0.0 || !span.is_finite() {
        return if low.is_finite() && low == high { vec![low] } else { Vec::new() };
    }
    let wanted = wanted.clamp(2, 50);
    let mut best: Option<(f64, f64, i64, i64)> = None;
    for skip in 1..=2i64 {
        for (rank, mantissa) in STEPS.iter().enumerate() {
            for count in 2..=2 * wanted {
                let ideal = span / (count - 1) as f64 / (mantissa * skip as f64);
                let power = ideal.log10().ceil();
                for power in [power - 1.0, power] {
                    let step = mantissa * skip as f64 * 10f64.powf(power);
                    let first = (low / step).floor() as i64;
                    for start in first..=first + 1 {
                        let end = start + count as i64 - 1;
                        let score = score(rank, skip, (start, end), step, (low, high), wanted);
                        if best.is_none_or(|(known, ..)| score > known + 1e-12) {
                            best = Some((score, step, start, end));
                        }
                    }
                }
            }
        }
    }
    let Some((_, step, start, end)) = best else { return Vec::new() };
    (start..=end).map(|multiple| multiple as f64 * step).collect()
}

fn score(
    rank: usize,
    skip: i64,
    (start, end): (i64, i64),
    step: f64,
    (low, high): (f64, f64),
    wanted: usize,
) -> f64 {
    let (first, last) = (start as f64 * step, end as f64 * step);
    let zero = if start <= 0 && end >= 0 { 1.0 } else { 0.0 };
    let simplicity = 1.0 - rank as f64 / (STEPS.len() - 1) as f64 - skip as f64 + 1.0 + zero;
    let span = high - low;
    let coverage = 1.0 - 0.5 * ((high - last).powi(2) + (low - first).powi(2)) / (0.1 * span).powi(2);
    let found = (end - start) as f64 / (last - first).max(f64::MIN_POSITIVE);
    let asked = (wanted - 1) as f64 / (last.max(high) - first.min(low));
    let density = 2.0 - (found / asked).max(asked / found);
    WEIGHTS[0] * simplicity + WEIGHTS[1] * coverage + WEIGHTS[2] * density
}

/// Decimals that tell marks with this step apart.
pub fn decimals(ticks: &[f64]) -> usize {
    let step = ticks.windows(2).map(|pair| pair[1] - pair[0]).fold(f64::INFINITY, f64::min);
    (0..6)
        .find(|decimals| {
            let scaled = step * 10f64.powi(*decimals);
            (scaled - scaled.round()).abs() < 1e-6
        })
        .unwrap_or(0) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_round_and_span_the_data() {
        // By hand: what one would write on squared paper.
        assert_eq!(ticks(0.0, 100.0, 5), [0.0, 25.0, 50.0, 75.0, 100.0]);
        assert_eq!(ticks(0.0, 10.0, 6), [0.0, 2.0, 4.0, 6.0, 8.0, 10.0]);
        assert_eq!(decimals(&[0.0, 2.5, 5.0]), 1);
        assert_eq!(decimals(&[0.0, 20.0]), 0);
    }

    #[test]
    fn nothing_hangs_or_panics_on_strange_spans() {
        for (low, high) in
            [(0.0, 0.0), (1.0, 0.0), (f64::NAN, 1.0), (0.0, f64::INFINITY), (-1e300, 1e300), (1e-300, 2e-300)]
        {
            assert!(ticks(low, high, 6).len() <= 100, "{low} {high}");
        }
        let marks = ticks(35.3, 48.9, 6);
        assert!(marks.len() >= 3 && marks.windows(2).all(|pair| pair[1] > pair[0]), "{marks:?}");
    }
}
