//! Cutting plans.

use super::columns::Pattern;
use super::plan::{Drum, total};
use super::problem::StockProblem;

/// Best fit decreasing, once for each stock length that new drums are opened in; every drum is then
/// exchanged for the shortest that holds its cuts. The best of these plans.
pub(super) fn best_fit(problem: &StockProblem) -> Vec<Drum> {
    let needed: Vec<u32> = problem.pieces.iter().map(|piece| piece.count).collect();
    best_of(problem, Vec::new(), &needed)
}

/// Plans from the patterns of the linear program: each cut as often as its whole part says, the rest by
/// best fit and by fullest fill; and, where the bound is not met, again with some of the patterns once
/// more often, those with the greatest remainder first.
pub(super) fn from_patterns(problem: &StockProblem, patterns: &[Pattern], bound: u64) -> Vec<Vec<Drum>> {
    let mut by_remainder: Vec<usize> = (0..patterns.len()).collect();
    let remainder = |index: &usize| patterns[*index].times.fract();
    by_remainder.sort_by(|a, b| remainder(b).total_cmp(&remainder(a)).then(a.cmp(b)));
    let mut plans = Vec::new();
    for extra in 0..=by_remainder.len().min(64) {
        let mut needed: Vec<u32> = problem.pieces.iter().map(|piece| piece.count).collect();
        let mut drums = Vec::new();
        let mut cut = |index: usize, times: u32, needed: &mut Vec<u32>| {
            for _ in 0..times {
                if !cut_once(problem, &patterns[index], needed, &mut drums) {
                    break;
                }
            }
        };
        for (index, pattern) in patterns.iter().enumerate() {
            // A real number a hair below a whole one is that whole number.
            cut(index, (pattern.times + 1e-9).floor() as u32, &mut needed);
        }
        for index in by_remainder.iter().take(extra) {
            cut(*index, 1, &mut needed);
        }
        let plan = best_of(problem, drums, &needed);
        let is_least = total(&plan) <= bound;
        plans.push(plan);
        if is_least {
            break;
        }
    }
    plans
}

/// Cuts a pattern once, leaving out what is no longer needed; false if nothing of it is.
fn cut_once(problem: &StockProblem, pattern: &Pattern, needed: &mut [u32], drums: &mut Vec<Drum>) -> bool {
    let mut cuts = Vec::new();
    for (piece, (count, needed)) in problem.pieces.iter().zip(pattern.counts.iter().zip(needed)) {
        let taken = (*count).min(*needed);
        *needed -= taken;
        cuts.extend(std::iter::repeat_n(piece.length, taken as usize));
    }
    if cuts.is_empty() {
        return false;
    }
    drums.push(Drum { stock: pattern.stock, cuts });
    true
}

/// The best completion of a plan.
fn best_of(problem: &StockProblem, drums: Vec<Drum>, needed: &[u32]) -> Vec<Drum> {
    let mut best: Option<Vec<Drum>> = None;
    let longest = problem.pieces.iter().zip(needed).find(|(_, needed)| **needed > 0);
    let least = longest.map_or(0, |(piece, _)| piece.length);
    for stock in problem.stock.iter().copied().filter(|stock| *stock >= least) {
        for fill in [fit_decreasing, fill_fullest] {
            let mut plan = drums.clone();
            fill(problem, needed, stock, &mut plan);
            shorten(problem, &mut plan);
            if best.as_ref().is_none_or(|known| total(&plan) < total(known)) {
                best = Some(plan);
            }
        }
    }
    best.unwrap_or(drums)
}

/// Each piece, longest first, into the drum where least is left; a new drum of `stock` where none
/// has room.
fn fit_decreasing(problem: &StockProblem, needed: &[u32], stock: u32, drums: &mut Vec<Drum>) {
    let mut left: Vec<u32> = drums.iter().map(Drum::left).collect();
    for (piece, count) in problem.pieces.iter().zip(needed) {
        for _ in 0..*count {
            let with_room = (0..drums.len()).filter(|drum| left[*drum] >= piece.length);
            let chosen = with_room.min_by_key(|drum| left[*drum]).unwrap_or_else(|| {
                drums.push(Drum { stock, cuts: Vec::new() });
                left.push(stock);
                drums.len() - 1
            });
            left[chosen] -= piece.length;
            drums[chosen].cuts.push(piece.length);
        }
    }
}

/// Drum by drum, the set of remaining pieces that leaves least (a bounded subset sum).
fn fill_fullest(problem: &StockProblem, needed: &[u32], stock: u32, drums: &mut Vec<Drum>) {
    let mut needed = needed.to_vec();
    // Room in drums that are there already is used first.
    for drum in drums.iter_mut() {
        for (piece, needed) in problem.pieces.iter().zip(&mut needed) {
            while *needed > 0 && drum.left() >= piece.length {
                drum.cuts.push(piece.length);
                *needed -= 1;
            }
        }
    }
    while needed.iter().any(|count| *count > 0) {
        let cuts = fullest(problem, &mut needed, stock);
        drums.push(Drum { stock, cuts });
    }
}

/// Takes the longest remaining piece and with it the pieces that fill `stock` best.
fn fullest(problem: &StockProblem, needed: &mut [u32], stock: u32) -> Vec<u32> {
    let Some(first) = needed.iter().position(|count| *count > 0) else { return Vec::new() };
    let mut cuts = vec![problem.pieces[first].length];
    needed[first] -= 1;
    let room = (stock - problem.pieces[first].length) as usize;
    // reached[w]: the last piece of a sum w and how many of it were taken to get there.
    let mut reached: Vec<Option<(u32, u32)>> = vec![None; room + 1];
    let mut is_sum = vec![false; room + 1];
    is_sum[0] = true;
    for (index, piece) in problem.pieces.iter().enumerate() {
        let length = piece.length as usize;
        if needed[index] == 0 || length > room {
            continue;
        }
        for sum in length..=room {
            if is_sum[sum] || !is_sum[sum - length] {
                continue;
            }
            let taken = match reached[sum - length] {
                Some((last, taken)) if last == index as u32 => taken + 1,
                _ => 1,
            };
            if taken <= needed[index] {
                is_sum[sum] = true;
                reached[sum] = Some((index as u32, taken));
            }
        }
    }
    let mut sum = (0..=room).rev().find(|sum| is_sum[*sum]).unwrap_or(0);
    while let Some((index, _)) = reached[sum] {
        let piece = problem.pieces[index as usize];
        cuts.push(piece.length);
        needed[index as usize] -= 1;
        sum -= piece.length as usize;
    }
    cuts
}

/// Exchanges every drum for the shortest that holds its cuts.
fn shorten(problem: &StockProblem, drums: &mut [Drum]) {
    for drum in drums {
        let used: u32 = drum.cuts.iter().sum();
        if let Some(shortest) = problem.stock.iter().find(|stock| **stock >= used) {
            drum.stock = *shortest;
        }
    }
}
