//! Lower bounds on the total length bought.

use super::problem::StockProblem;

/// The pieces' total length, raised to the next sum of stock lengths.
///
/// The stock that is bought holds every piece whole, so its total is at least the pieces' total.
pub fn material_bound(problem: &StockProblem) -> u64 {
    next_sum(&problem.stock, problem.needed())
}

/// The bound that a list of prices proves, one price for each of the problem's pieces.
///
/// Let `v(W)` be the greatest worth of pieces that fit into `W` together (each as often as one likes:
/// a relaxation, so still a bound). Scaled by the least of `W / v(W)` over the stock lengths, no
/// pattern is worth more than its stock length, and by weak duality the worth of all pieces is a lower
/// bound. Prices are taken as whole numbers, so every step is exact; any prices prove something, bad
/// ones prove little.
pub fn dual_bound(problem: &StockProblem, prices: &[u64]) -> u64 {
    let longest = problem.stock.last().copied().unwrap_or(0) as usize;
    // best[w]: greatest worth of pieces that fit into w.
    let mut best = vec![0_u64; longest + 1];
    for room in 1..=longest {
        let mut value = best[room - 1];
        for (piece, price) in problem.pieces.iter().zip(prices) {
            if let Some(rest) = room.checked_sub(piece.length as usize) {
                value = value.max(best[rest].saturating_add(*price));
            }
        }
        best[room] = value;
    }
    let worth: u128 = problem
        .pieces
        .iter()
        .zip(prices)
        .map(|(piece, price)| u128::from(piece.count) * u128::from(*price))
        .sum();
    let bounds = problem.stock.iter().filter(|stock| best[**stock as usize] > 0).map(|stock| {
        // ceil(worth * W / v(W)): the total bought is a whole number.
        (worth * u128::from(*stock)).div_ceil(u128::from(best[*stock as usize]))
    });
    let least = bounds.min().unwrap_or(0);
    next_sum(&problem.stock, u64::try_from(least).unwrap_or(u64::MAX))
}

/// The least sum of stock lengths (each as often as one likes) that is not below `least`.
pub fn next_sum(stock: &[u32], least: u64) -> u64 {
    let divisor = u64::from(stock.iter().copied().fold(0, greatest_divisor)).max(1);
    let reduced: Vec<u64> = stock.iter().map(|length| u64::from(*length) / divisor).collect();
    let Some((smallest, largest)) = reduced.first().zip(reduced.last()) else { return least };
    let target = least.div_ceil(divisor);
    // Beyond (smallest - 1)(largest - 1) every multiple of the common divisor is a sum (Schur's bound for
    // the Frobenius number of the reduced lengths).
    let from_here_all = (smallest - 1) * (largest - 1);
    if target >= from_here_all {
        return target * divisor;
    }
    let limit = (target + smallest) as usize;
    let mut is_sum = vec![false; limit + 1];
    is_sum[0] = true;
    for sum in 1..=limit {
        is_sum[sum] =
            reduced.iter().any(|length| (*length as usize) <= sum && is_sum[sum - *length as usize]);
    }
    let found = (target as usize..=limit).find(|sum| is_sum[*sum]).unwrap_or(target as usize);
    found as u64 * divisor
}

fn greatest_divisor(a: u32, b: u32) -> u32 {
    let (mut a, mut b) = (a, b);
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}
