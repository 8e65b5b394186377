//! What is lost within the best share of a band.
//!
//! The gain is taken as the cubic through the points that rises and falls with them (slopes of Fritsch and Carlson 1980, as Fritsch and
//! Butland 1984 weigh them; both from memory). The level that is reached on the share is then found by halving, on pieces of these cubics.

/// A level that moves by no more than this with the points between is settled, in decibel: less than the 0.05 dB that a loss may be off.
const SETTLED_DB: f64 = 0.02;
/// Intervals whose gains come this near to a level decide on it, in decibel.
const NEAR_DB: f64 = 3.0;
/// Receivers whose loss is as near as this to the greatest, and as this to the budget, are settled, in decibel.
const NEAR_THE_WEAKEST_DB: f64 = 1.0;
const NEAR_THE_BUDGET_DB: f64 = 3.0;
/// A level is as good as found within this, in decibel.
const SOLVED_DB: f64 = 1e-9;
/// A first look finds it within this, in decibel.
const ROUGH_DB: f64 = 1.0;
/// Halvings on whole cubics before those on their pieces.
const WHOLE_ROUNDS: usize = 5;
/// Pieces of a cubic.
const PIECES: usize = 8;
/// Least gain that counts, in decibel: a notch without bottom is as good as one of this depth.
const LEAST_GAIN_DB: f64 = -400.0;
/// Times that points are put between, and most points.
const MOST_ROUNDS: usize = 5;
const MOST_POINTS: usize = 2048;

/// The gain that is kept on the share of a band, in decibel, and the lowest frequency at which it is met, in hertz.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ShareLevel {
    pub gain_db: f64,
    pub at_hz: f64,
}

/// A stretch of the response, straight.
#[derive(Clone, Copy)]
struct Piece {
    from_hz: f64,
    to_hz: f64,
    from_db: f64,
    to_db: f64,
}

impl Piece {
    fn width_hz(self) -> f64 {
        self.to_hz - self.from_hz
    }

    fn low_db(self) -> f64 {
        self.from_db.min(self.to_db)
    }

    fn high_db(self) -> f64 {
        self.from_db.max(self.to_db)
    }

    /// How much of it reaches a level, in hertz.
    fn above_hz(self, level_db: f64) -> f64 {
        let width_hz = self.width_hz();
        if self.low_db() >= level_db {
            width_hz
        } else if self.high_db() < level_db {
            0.0
        } else {
            width_hz * (self.high_db() - level_db) / (self.high_db() - self.low_db())
        }
    }
}

/// The level at frequencies that rise, two at least: it, or up to so many decibel below it.
fn share_level(frequencies_hz: &[f64], gains_db: &[f64], share: f64, within_db: f64) -> ShareLevel {
    let response = Response { frequencies_hz, gains_db };
    let last = response.last();
    let wanted_hz = share * (frequencies_hz[last] - frequencies_hz[0]);
    let mut low_db = (0..=last).map(|k| response.gain_db(k)).fold(f64::INFINITY, f64::min);
    let mut high_db = (0..=last).map(|k| response.gain_db(k)).fold(f64::NEG_INFINITY, f64::max);
    // A cubic stays between its ends, so that only those that a level cuts are looked into. What is above all that is left is
    // counted once, what is below never.
    let mut cut = Cut { pieces: Vec::new(), of_interval: vec![None; last] };
    let (mut open, mut counted_hz): (Vec<Interval>, f64) =
        ((0..last).map(|k| response.interval(k)).collect(), 0.0);
    for _ in 0..WHOLE_ROUNDS {
        if high_db - low_db <= within_db {
            break;
        }
        let level_db = 0.5 * (low_db + high_db);
        let mut above_hz = counted_hz;
        for interval in &open {
            if interval.low_db >= level_db {
                above_hz += interval.width_hz;
            } else if interval.high_db >= level_db {
                let pieces = cut.pieces_of(response, interval.k);
                above_hz += pieces.iter().map(|piece| piece.above_hz(level_db)).sum::<f64>();
            }
        }
        if above_hz >= wanted_hz {
            low_db = level_db;
        } else {
            high_db = level_db;
        }
        open.retain(|interval| {
            let is_above = interval.low_db >= high_db;
            if is_above {
                counted_hz += interval.width_hz;
            }
            !is_above && interval.high_db >= low_db
        });
    }
    // Few are left, and of these few pieces.
    let mut pieces: Vec<Piece> =
        open.iter().flat_map(|interval| *cut.pieces_of(response, interval.k)).collect();
    while high_db - low_db > within_db {
        pieces.retain(|piece| {
            let is_above = piece.low_db() >= high_db;
            if is_above {
                counted_hz += piece.width_hz();
            }
            !is_above && piece.high_db() >= low_db
        });
        if pieces.iter().all(|piece| piece.low_db() <= low_db && piece.high_db() >= high_db) {
            // Straight all the way between.
            let per_db = |piece: &Piece| piece.width_hz() / (piece.high_db() - piece.low_db());
            let hz_per_db: f64 = pieces.iter().map(per_db).sum();
            let at_low_hz = counted_hz + pieces.iter().map(|piece| piece.above_hz(low_db)).sum::<f64>();
            let level_db = (low_db + (at_low_hz - wanted_hz) / hz_per_db).clamp(low_db, high_db);
            (low_db, high_db) = (level_db, level_db);
            break;
        }
        let level_db = 0.5 * (low_db + high_db);
        let above_hz = counted_hz + pieces.iter().map(|piece| piece.above_hz(level_db)).sum::<f64>();
        if above_hz >= wanted_hz {
            low_db = level_db;
        } else {
            high_db = level_db;
        }
    }
    let gain_db = low_db;
    let meets = |low: f64, high: f64| low <= high_db && high >= gain_db;
    let first = (0..last).find(|&k| {
        let Interval { low_db, high_db, .. } = response.interval(k);
        meets(low_db, high_db)
    });
    let met = first.and_then(|k| {
        cut.pieces_of(response, k).iter().find(|piece| meets(piece.low_db(), piece.high_db())).copied()
    });
    let at_hz = met.map_or(frequencies_hz[0], |piece| {
        let way = (gain_db - piece.from_db) / (piece.to_db - piece.from_db);
        let way = if way.is_finite() { way.clamp(0.0, 1.0) } else { 0.0 };
        piece.from_hz + way * piece.width_hz()
    });
    ShareLevel { gain_db, at_hz }
}

/// What lies between a frequency and the next.
struct Interval {
    k: usize,
    low_db: f64,
    high_db: f64,
    width_hz: f64,
}

/// The cubics that were looked into, as pieces.
struct Cut {
    pieces: Vec<[Piece; PIECES]>,
    /// Where among them those of an interval are.
    of_interval: Vec<Option<usize>>,
}

impl Cut {
    fn pieces_of(&mut self, response: Response<'_>, k: usize) -> &[Piece; PIECES] {
        let at = *self.of_interval[k].get_or_insert_with(|| {
            self.pieces.push(response.pieces(k));
            self.pieces.len() - 1
        });
        &self.pieces[at]
    }
}

/// Gains at frequencies that rise, two at least, and the cubics between them.
#[derive(Clone, Copy)]
struct Response<'a> {
    frequencies_hz: &'a [f64],
    gains_db: &'a [f64],
}

impl Response<'_> {
    fn last(self) -> usize {
        self.frequencies_hz.len() - 1
    }

    fn gain_db(self, k: usize) -> f64 {
        self.gains_db[k].max(LEAST_GAIN_DB)
    }

    fn interval(self, k: usize) -> Interval {
        let (from_db, to_db) = (self.gain_db(k), self.gain_db(k + 1));
        Interval { k, low_db: from_db.min(to_db), high_db: from_db.max(to_db), width_hz: self.width_hz(k) }
    }

    fn width_hz(self, k: usize) -> f64 {
        self.frequencies_hz[k + 1] - self.frequencies_hz[k]
    }

    fn slope(self, k: usize) -> f64 {
        let rise = |k: usize| (self.gain_db(k + 1) - self.gain_db(k)) / self.width_hz(k);
        let last = self.last();
        if k == 0 || k == last {
            return rise(k.saturating_sub(1).min(last - 1));
        }
        let (before, after) = (self.width_hz(k - 1), self.width_hz(k));
        let (rise_before, rise_after) = (rise(k - 1), rise(k));
        // Level at a turn, so that a notch throws up no bump beside it.
        if rise_before * rise_after <= 0.0 {
            return 0.0;
        }
        let (weight_before, weight_after) = (2.0 * after + before, after + 2.0 * before);
        (weight_before + weight_after) / (weight_before / rise_before + weight_after / rise_after)
    }

    /// The cubic of an interval, in Hermite's form, as pieces.
    fn pieces(self, k: usize) -> [Piece; PIECES] {
        let width_hz = self.width_hz(k);
        let (from_slope, to_slope) = (self.slope(k) * width_hz, self.slope(k + 1) * width_hz);
        let (from_db, to_db) = (self.gain_db(k), self.gain_db(k + 1));
        let at = |x: f64| {
            let (left, x2) = (1.0 - x, x * x);
            from_db * (1.0 + 2.0 * x) * left * left
                + from_slope * x * left * left
                + to_db * x2 * (3.0 - 2.0 * x)
                - to_slope * x2 * left
        };
        let mut here_db = from_db;
        std::array::from_fn(|piece| {
            let (x, next) = (piece as f64 / PIECES as f64, (piece + 1) as f64 / PIECES as f64);
            let next_db = if piece + 1 == PIECES { to_db } else { at(next) };
            let from_db = std::mem::replace(&mut here_db, next_db);
            Piece {
                from_hz: self.frequencies_hz[k] + x * width_hz,
                to_hz: self.frequencies_hz[k] + next * width_hz,
                from_db,
                to_db: next_db,
            }
        })
    }
}

/// What is wanted of the receivers of a band.
#[derive(Clone, Copy)]
pub(super) struct Wanted {
    /// The share of the band on which a level is kept.
    pub share: f64,
    /// The greatest loss allowed, in decibel.
    pub budget_db: f64,
    /// Whether it is enough to know on which side of the budget each is. Levels away from it are then left up to `ROUGH_DB` too low.
    pub is_side_enough: bool,
}

impl Wanted {
    /// How near the levels on the points given are wanted at first, in decibel.
    fn first_within_db(self) -> f64 {
        if self.is_side_enough { ROUGH_DB } else { SOLVED_DB }
    }

    /// Which levels decide: the weakest, and those near the budget; with levels up to so much too low, those that may.
    fn deciding(self, levels: &[ShareLevel], slack_db: f64) -> Vec<usize> {
        let weakest_db = levels.iter().map(|level| level.gain_db).fold(f64::INFINITY, f64::min);
        let decides = |level: &ShareLevel| {
            !self.is_side_enough && level.gain_db <= weakest_db + NEAR_THE_WEAKEST_DB + slack_db
                || (level.gain_db + self.budget_db).abs() <= NEAR_THE_BUDGET_DB + slack_db
        };
        (0..levels.len()).filter(|one| decides(&levels[*one])).collect()
    }

    /// Those that decide and have moved by more than what is settled since the levels before, if there are any.
    fn moving(self, levels: &[ShareLevel], before: Option<&[ShareLevel]>) -> Vec<usize> {
        let moved = |one: &usize| {
            before.is_none_or(|before| (levels[*one].gain_db - before[*one].gain_db).abs() > SETTLED_DB)
        };
        self.deciding(levels, 0.0).into_iter().filter(moved).collect()
    }
}

/// Responses of several receivers at the same frequencies, with their levels.
pub(super) struct SettledShare {
    pub frequencies_hz: Vec<f64>,
    /// By receiver.
    pub gains: Vec<Vec<f64>>,
    /// By receiver.
    pub levels: Vec<ShareLevel>,
    /// How many of the levels still moved when no more points were added.
    pub unsettled: usize,
}

/// Adds points between those given until the levels are settled of those receivers that decide: the weakest, and those near the
/// budget. `look` gives the gains of all receivers at further frequencies. `None` where it cannot be looked at.
pub(super) fn settled(
    mut frequencies_hz: Vec<f64>,
    mut gains: Vec<Vec<f64>>,
    wanted: Wanted,
    mut look: impl FnMut(&[f64]) -> Option<Vec<Vec<f64>>>,
) -> Option<SettledShare> {
    let level_of = |frequencies_hz: &[f64], gains: &[f64], within_db: f64| {
        share_level(frequencies_hz, gains, wanted.share, within_db)
    };
    let mut levels: Vec<ShareLevel> =
        gains.iter().map(|gains| level_of(&frequencies_hz, gains, wanted.first_within_db())).collect();
    // Where the side is enough, those that are away from the budget on the points given are left.
    let followed: Vec<usize> =
        if wanted.is_side_enough { wanted.deciding(&levels, ROUGH_DB) } else { (0..levels.len()).collect() };
    let solve = |levels: &mut [ShareLevel], frequencies_hz: &[f64], gains: &[Vec<f64>]| {
        for one in &followed {
            levels[*one] = level_of(frequencies_hz, &gains[*one], SOLVED_DB);
        }
    };
    if wanted.is_side_enough {
        solve(&mut levels, &frequencies_hz, &gains);
    }
    let mut before: Option<Vec<ShareLevel>> = None;
    let mut moving = wanted.moving(&levels, None);
    for _ in 0..MOST_ROUNDS {
        // There is one finer look at least; where nothing moves, nothing is between.
        let between = between(&frequencies_hz, &gains, &levels, &moving);
        if between.is_empty() || frequencies_hz.len() + between.len() > MOST_POINTS {
            break;
        }
        let further_hz: Vec<f64> = between.iter().map(|(_, hz)| *hz).collect();
        let further = look(&further_hz)?;
        gains = gains.iter().zip(&further).map(|(gains, new)| merged(&between, gains, new)).collect();
        frequencies_hz = merged(&between, &frequencies_hz, &further_hz);
        before = Some(levels.clone());
        solve(&mut levels, &frequencies_hz, &gains);
        moving = wanted.moving(&levels, before.as_deref());
    }
    // Where no finer look could be had, the points are compared with every second of them.
    let unsettled = if before.is_some() || moving.is_empty() {
        moving.len()
    } else {
        let sparse_hz = every_second(&frequencies_hz);
        let sparse: Vec<ShareLevel> =
            gains.iter().map(|gains| level_of(&sparse_hz, &every_second(gains), SOLVED_DB)).collect();
        wanted.moving(&levels, Some(&sparse)).len()
    };
    Some(SettledShare { frequencies_hz, gains, levels, unsettled })
}

/// The middles of the intervals that decide on the levels that move, each with the interval.
fn between(
    frequencies_hz: &[f64],
    gains: &[Vec<f64>],
    levels: &[ShareLevel],
    moving: &[usize],
) -> Vec<(usize, f64)> {
    let last = frequencies_hz.len() - 1;
    let decides = |k: usize| {
        moving.iter().any(|&one| {
            let near = &gains[one][k.saturating_sub(1)..=(k + 2).min(last)];
            let lowest = near.iter().copied().fold(f64::INFINITY, f64::min);
            let highest = near.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            let level_db = levels[one].gain_db;
            lowest - NEAR_DB <= level_db && level_db <= highest + NEAR_DB
        })
    };
    (0..last)
        .filter(|&k| decides(k))
        .map(|k| (k, 0.5 * (frequencies_hz[k] + frequencies_hz[k + 1])))
        .collect()
}

/// Values at points with those between them put in.
fn merged(between: &[(usize, f64)], values: &[f64], new: &[f64]) -> Vec<f64> {
    let mut all = Vec::with_capacity(values.len() + new.len());
    let mut next = between.iter().map(|(k, _)| *k).zip(new).peekable();
    for (k, value) in values.iter().enumerate() {
        all.push(*value);
        if let Some((_, new)) = next.next_if(|(at, _)| *at == k) {
            all.push(*new);
        }
    }
    all
}

/// Every second of them and the last.
fn every_second(values: &[f64]) -> Vec<f64> {
    let last = values.len() - 1;
    let kept = values.iter().enumerate().filter(|(k, _)| k % 2 == 0 || *k == last);
    kept.map(|(_, value)| *value).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn level(share: f64, points: usize, gain_db: impl Fn(f64) -> f64) -> f64 {
        let frequencies_hz: Vec<f64> = (0..=points).map(|k| 1e6 * k as f64 / points as f64).collect();
        let gains: Vec<Vec<f64>> = vec![frequencies_hz.iter().map(|hz| gain_db(*hz)).collect()];
        let look = |hz: &[f64]| Some(vec![hz.iter().map(|hz| gain_db(*hz)).collect()]);
        let wanted = Wanted { share, budget_db: 1e3, is_side_enough: false };
        let settled = settled(frequencies_hz, gains, wanted, look).expect("it can be looked at");
        assert_eq!(settled.unsettled, 0);
        settled.levels[0].gain_db
    }

    /// A straight fall of 10 dB: on the share s of the band the loss is at most 10 s.
    #[test]
    fn a_straight_fall() {
        for share in [0.1, 0.5, 0.9, 0.99] {
            let found_db = level(share, 8, |hz| -hz * 1e-5);
            assert!((found_db + 10.0 * share).abs() < 1e-6, "{share}: {found_db}");
        }
    }

    /// A sine of 10 dB in whole periods reaches the level L on the share 1/2 - asin(L/10)/pi.
    #[test]
    fn a_ripple_of_eight_points_a_period() {
        for share in [0.1_f64, 0.5, 0.8, 0.95] {
            let found_db = level(share, 64, |hz| 10.0 * (std::f64::consts::TAU * 8e-6 * hz).sin());
            let expected_db = 10.0 * (std::f64::consts::PI * (0.5 - share)).sin();
            assert!((found_db - expected_db).abs() < 0.05, "{share}: {found_db}, not {expected_db}");
        }
    }

    /// Which of two receivers are beyond the budget is the same whether or not their levels are solved, at budgets on both sides of them
    /// and all the way between.
    #[test]
    fn the_side_of_the_budget_needs_no_level() {
        let frequencies_hz: Vec<f64> = (0..=64).map(|k| 1e6 * f64::from(k) / 64.0).collect();
        let ripple_db = |hz: f64| 10.0 * (std::f64::consts::TAU * 8e-6 * hz).sin();
        let responses: [&dyn Fn(f64) -> f64; 2] =
            [&|hz| ripple_db(hz) - 12.0, &|hz| ripple_db(hz) - hz * 1e-5 - 20.0];
        let look = |hz: &[f64]| {
            let of = |response: &dyn Fn(f64) -> f64| hz.iter().map(|hz| response(*hz)).collect::<Vec<f64>>();
            Some(responses.iter().map(|response| of(*response)).collect::<Vec<_>>())
        };
        let mut sides = Vec::new();
        for budget_db in (0..250).map(|step| 0.2 * f64::from(step)) {
            let beyond = |is_side_enough: bool| -> Vec<bool> {
                let wanted = Wanted { share: 0.8, budget_db, is_side_enough };
                let gains = look(&frequencies_hz).expect("it can be looked at");
                let settled =
                    settled(frequencies_hz.clone(), gains, wanted, look).expect("it can be looked at");
                settled.levels.iter().map(|level| -level.gain_db > budget_db).collect()
            };
            let solved = beyond(false);
            assert_eq!(beyond(true), solved, "{budget_db} dB");
            sides.push(solved.iter().filter(|one| **one).count());
        }
        // All, one and none of them.
        sides.dedup();
        assert_eq!(sides, [2, 1, 0]);
    }

    /// Notches without bottom, `20 lg |cos|`: on the share s it loses at most `-20 lg cos(pi s / 2)`.
    #[test]
    fn notches_without_bottom() {
        for share in [0.5_f64, 0.8, 0.95] {
            let gain_db = |hz: f64| 20.0 * (std::f64::consts::PI * 4e-6 * hz).cos().abs().max(1e-30).log10();
            let found_db = level(share, 32, gain_db);
            let expected_db = 20.0 * (std::f64::consts::FRAC_PI_2 * share).cos().log10();
            assert!((found_db - expected_db).abs() < 0.05, "{share}: {found_db}, not {expected_db}");
        }
    }
}
