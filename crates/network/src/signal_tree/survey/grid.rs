//! The frequencies that are looked at, and the bottoms of dips between them.

/// Most evenly spaced frequencies a band.
const MOST_POINTS: f64 = 192.0;
/// Frequencies inside a bracket at a time, and how often: the bracket ends a ten-thousandth as wide.
const INSIDE: usize = 16;
const ROUNDS: usize = 4;

/// The frequencies of a band, rising, and whether they are as close as the longest way asks for.
pub(super) fn grid(low_hz: f64, high_hz: f64, longest_way_s: f64) -> (Vec<f64>, bool) {
    let mut frequencies_hz = vec![low_hz, high_hz];
    let decades = (high_hz / low_hz).log10();
    let count = (12.0 * decades).ceil().max(8.0);
    let mut k = 1.0;
    while k < count {
        frequencies_hz.push(low_hz * 10_f64.powf(decades * k / count));
        k += 1.0;
    }
    let wanted = (high_hz - low_hz) * 2.0 * longest_way_s * 8.0;
    let steps = wanted.min(MOST_POINTS).ceil();
    let mut k = 1.0;
    while k < steps {
        frequencies_hz.push(low_hz + (high_hz - low_hz) * (k / steps));
        k += 1.0;
    }
    frequencies_hz.sort_by(f64::total_cmp);
    frequencies_hz.dedup_by(|next, kept| *next - *kept < 1e-6 * *kept);
    (frequencies_hz, wanted <= MOST_POINTS)
}

pub(super) fn lowest(gains_db: &[f64]) -> usize {
    (0..gains_db.len()).min_by(|a, b| gains_db[*a].total_cmp(&gains_db[*b])).unwrap_or(0)
}

/// The bottom of the lowest dip, from the points beside it; `None` where it cannot be looked at.
pub(super) fn narrowed(
    frequencies_hz: &[f64],
    gains_db: &[f64],
    mut look: impl FnMut(&[f64]) -> Option<Vec<f64>>,
) -> Option<(f64, f64)> {
    let lowest = lowest(gains_db);
    let (mut low_hz, mut high_hz) = (
        frequencies_hz[lowest.saturating_sub(1)],
        frequencies_hz[(lowest + 1).min(frequencies_hz.len() - 1)],
    );
    let mut best = (frequencies_hz[lowest], gains_db[lowest]);
    for _ in 0..ROUNDS {
        let step_hz = (high_hz - low_hz) / (INSIDE + 1) as f64;
        let inside: Vec<f64> = (1..=INSIDE).map(|i| low_hz + step_hz * i as f64).collect();
        let found = look(&inside)?;
        for (at_hz, gain_db) in inside.into_iter().zip(found) {
            if gain_db < best.1 {
                best = (at_hz, gain_db);
            }
        }
        // A response that is lowest at an end of the band falls up to it.
        if best.0 == frequencies_hz[0] || best.0 == frequencies_hz[frequencies_hz.len() - 1] {
            break;
        }
        low_hz = low_hz.max(best.0 - step_hz);
        high_hz = high_hz.min(best.0 + step_hz);
    }
    Some(best)
}
