//! What a cause changes of all readings, as a few straight pieces.
//!
//! Readings stand in the order of their places along the runs, so that what a fault does to them is nearly a straight line up to it and another behind
//! it. A piece holds the first and the last of such a line in steps; what lies between differs from it by [`MOST_OFF`] at most.

/// A change of consecutive readings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Piece {
    /// Index of the first reading.
    pub first: u32,
    /// How many readings; 1 at least.
    pub count: u32,
    /// Difference of the first from the site without a fault, in steps.
    pub from_steps: i32,
    /// That of the last.
    pub to_steps: i32,
    /// The own deviation of each, in steps.
    pub own_steps: u32,
}

/// What is changed of all readings: pieces in order, and nothing between them.
pub(super) type Pattern = Vec<Piece>;

/// How far a change may lie off its piece, in steps.
pub(super) const MOST_OFF: f64 = 0.75;
/// Variance of a change that is only known from its piece, in steps: rounding to whole steps, and any place up to [`MOST_OFF`] to either side
/// (rectangular distributions).
pub(super) const PIECE_VARIANCE: f64 = 1.0 / 12.0 + MOST_OFF * MOST_OFF / 3.0;

impl Piece {
    /// The change of a reading in it, in steps.
    fn at(&self, reading: u32) -> f64 {
        let share = match self.count {
            0 | 1 => 0.0,
            count => f64::from(reading - self.first) / f64::from(count - 1),
        };
        f64::from(self.from_steps) + share * (f64::from(self.to_steps) - f64::from(self.from_steps))
    }
}

/// The change of a reading and its own deviation, in steps.
pub(super) fn change_of(pattern: &[Piece], reading: usize) -> (f64, f64) {
    let after = pattern.partition_point(|piece| piece.first as usize <= reading);
    let piece = after.checked_sub(1).map(|place| pattern[place]);
    match piece {
        Some(piece) if reading - (piece.first as usize) < piece.count as usize => {
            (piece.at(reading as u32), f64::from(piece.own_steps))
        }
        _ => (0.0, 0.0),
    }
}

/// The pattern of changes, each in steps with its own deviation: as few pieces as going on as far as each reaches makes of them.
pub(super) fn pattern_of(changes: &[(i32, u32)]) -> Pattern {
    let mut pattern = Vec::new();
    let mut first = 0;
    while first < changes.len() {
        if changes[first] == (0, 0) {
            first += 1;
            continue;
        }
        let last = reach(changes, first);
        let own = changes[first..=last].iter().map(|(_, own)| *own).max().unwrap_or(0);
        pattern.push(Piece {
            first: first as u32,
            count: (last + 1 - first) as u32,
            from_steps: changes[first].0,
            to_steps: changes[last].0,
            own_steps: own,
        });
        first = last + 1;
    }
    pattern
}

/// How far one piece reaches from a reading: as long as a straight line goes near all of it (the narrowing cone of slopes of Williams 1978,
/// number from memory), ends at a change itself, and what is its own differs by a step at most.
fn reach(changes: &[(i32, u32)], first: usize) -> usize {
    let (start, own) = (f64::from(changes[first].0), changes[first].1);
    let (mut least, mut most) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut last = first;
    for (place, (steps, its_own)) in changes.iter().enumerate().skip(first + 1) {
        let away = (place - first) as f64;
        let slope = (f64::from(*steps) - start) / away;
        if (*steps, *its_own) == (0, 0) || own.abs_diff(*its_own) > 1 || !(least..=most).contains(&slope) {
            break;
        }
        last = place;
        least = least.max(slope - MOST_OFF / away);
        most = most.min(slope + MOST_OFF / away);
    }
    last
}

#[cfg(test)]
mod tests {
    use super::*;

    fn nearest(changes: &[(i32, u32)]) -> f64 {
        let pattern = pattern_of(changes);
        let off = |(reading, (steps, _)): (usize, &(i32, u32))| {
            (change_of(&pattern, reading).0 - f64::from(*steps)).abs()
        };
        changes.iter().enumerate().map(off).fold(0.0, f64::max)
    }

    #[test]
    fn a_straight_line_is_one_piece_and_a_step_makes_another() {
        let line: Vec<(i32, u32)> = (1..=9).map(|step| (-3 * step, 0)).collect();
        assert_eq!(pattern_of(&line).len(), 1);
        let mut stepped = line.clone();
        stepped.extend([(-200, 4); 5]);
        stepped.extend([(0, 0); 3]);
        assert_eq!(pattern_of(&stepped).len(), 2);
        assert_eq!(change_of(&pattern_of(&stepped), 10), (-200.0, 4.0));
        assert_eq!(change_of(&pattern_of(&stepped), 15), (0.0, 0.0));
    }

    #[test]
    fn nothing_lies_further_off_than_it_may() {
        // The rounded samples of smooth curves, of which none is straight.
        for bend in 1..40 {
            let curve: Vec<(i32, u32)> = (0..60)
                .map(|place| ((f64::from(bend) * (f64::from(place) / 9.0).sin() * 3.0).round() as i32, 0))
                .collect();
            assert!(nearest(&curve) <= MOST_OFF + 1e-9, "{bend}: {}", nearest(&curve));
        }
    }
}
