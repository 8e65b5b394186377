//! Prices and patterns: the linear program of Gilmore and Gomory by column generation.
//!
//! Minimise `sum c_j x_j` over patterns `j` (a stock length `c_j` and how many of each piece are cut from
//! it) so that every piece is cut as often as it is needed. The revised simplex method keeps the
//! inverse of the basis; the prices are `p = c_B B^-1`, and a pattern worth more than its stock length,
//! found by a knapsack, enters.
//!
//! Floating point is good enough here: what is proved from the prices is proved by
//! [`dual_bound`](super::dual_bound) in integers, and plans are counted piece by piece.

use super::problem::StockProblem;

/// How often a pattern of the basis is used in the linear program.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Pattern {
    /// Its stock length.
    pub stock: u32,
    /// How many of each piece.
    pub counts: Vec<u32>,
    /// How often it is cut, as a real number.
    pub times: f64,
}

/// The result of the generation.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Generated {
    /// Prices in whole thousandths of a millionth of a unit of length.
    pub prices: Vec<u64>,
    /// The patterns of the last basis.
    pub patterns: Vec<Pattern>,
}

/// Most rounds; enough for every problem of a building, and an end for the others.
const MOST_ROUNDS: usize = 4000;
/// A pattern must be better than this, relatively, to enter.
const IMPROVEMENT: f64 = 1e-9;
/// Smallest pivot.
const LEAST_PIVOT: f64 = 1e-9;
/// Scale of whole prices.
const PRICE_SCALE: f64 = 1e9;

pub(super) fn generate(problem: &StockProblem) -> Generated {
    let size = problem.pieces.len();
    // To begin with each piece has a pattern of its own, from the stock length that wastes least.
    let mut basis: Vec<Pattern> = (0..size).map(|piece| own_pattern(problem, piece)).collect();
    let mut inverse = vec![vec![0.0; size]; size];
    for (row, pattern) in basis.iter_mut().enumerate() {
        let count = f64::from(pattern.counts[row]);
        inverse[row][row] = 1.0 / count;
        pattern.times = f64::from(problem.pieces[row].count) / count;
    }
    let mut prices = vec![0.0; size];
    let mut knapsack = Knapsack::new(problem);
    for _ in 0..MOST_ROUNDS {
        for (column, price) in prices.iter_mut().enumerate() {
            *price = (0..size).map(|row| f64::from(basis[row].stock) * inverse[row][column]).sum();
        }
        let Some((stock, counts)) = knapsack.best_pattern(problem, &prices) else { break };
        let direction: Vec<f64> = inverse
            .iter()
            .map(|row| row.iter().zip(&counts).map(|(entry, count)| entry * f64::from(*count)).sum())
            .collect();
        let mut leaving: Option<(usize, f64)> = None;
        for row in 0..size {
            if direction[row] > LEAST_PIVOT {
                let ratio = basis[row].times / direction[row];
                if leaving.is_none_or(|(_, least)| ratio < least) {
                    leaving = Some((row, ratio));
                }
            }
        }
        let Some((out, step)) = leaving else { break };
        for row in 0..size {
            basis[row].times = (basis[row].times - step * direction[row]).max(0.0);
        }
        basis[out] = Pattern { stock, counts, times: step };
        let pivot = direction[out];
        let pivot_row: Vec<f64> = inverse[out].iter().map(|entry| entry / pivot).collect();
        for row in 0..size {
            if row != out && direction[row] != 0.0 {
                for (entry, above) in inverse[row].iter_mut().zip(&pivot_row) {
                    *entry -= direction[row] * above;
                }
            }
        }
        inverse[out] = pivot_row;
    }
    let whole = |price: &f64| (price.max(0.0) * PRICE_SCALE).floor().min(1e15) as u64;
    Generated { prices: prices.iter().map(whole).collect(), patterns: basis }
}

/// As many of one piece as fit, from the stock length that wastes least for it.
fn own_pattern(problem: &StockProblem, piece: usize) -> Pattern {
    let length = problem.pieces[piece].length;
    let fitting = problem.stock.iter().copied().filter(|stock| *stock >= length);
    let stock = fitting
        .min_by(|a, b| {
            let waste = |stock: u32| f64::from(stock) / f64::from(stock / length);
            waste(*a).total_cmp(&waste(*b))
        })
        .unwrap_or(length);
    let mut counts = vec![0; problem.pieces.len()];
    counts[piece] = stock / length;
    Pattern { stock, counts, times: 0.0 }
}

/// The unbounded knapsack over all lengths up to the longest stock.
struct Knapsack {
    worth: Vec<f64>,
    taken: Vec<u32>,
}

const NOTHING: u32 = u32::MAX;

impl Knapsack {
    fn new(problem: &StockProblem) -> Self {
        let longest = problem.stock.last().copied().unwrap_or(0) as usize;
        Knapsack { worth: vec![0.0; longest + 1], taken: vec![NOTHING; longest + 1] }
    }

    /// The pattern that gains most over its stock length, relative to it, if one gains.
    fn best_pattern(&mut self, problem: &StockProblem, prices: &[f64]) -> Option<(u32, Vec<u32>)> {
        for room in 1..self.worth.len() {
            let (mut worth, mut taken) = (self.worth[room - 1], NOTHING);
            for (index, piece) in problem.pieces.iter().enumerate() {
                if let Some(rest) = room.checked_sub(piece.length as usize)
                    && self.worth[rest] + prices[index] > worth
                {
                    worth = self.worth[rest] + prices[index];
                    taken = index as u32;
                }
            }
            (self.worth[room], self.taken[room]) = (worth, taken);
        }
        let gain = |stock: u32| self.worth[stock as usize] / f64::from(stock);
        let stock = problem.stock.iter().copied().max_by(|a, b| gain(*a).total_cmp(&gain(*b)))?;
        if gain(stock) <= 1.0 + IMPROVEMENT {
            return None;
        }
        let mut counts = vec![0; problem.pieces.len()];
        let mut room = stock as usize;
        while room > 0 {
            match self.taken[room] {
                NOTHING => room -= 1,
                index => {
                    counts[index as usize] += 1;
                    room -= problem.pieces[index as usize].length as usize;
                }
            }
        }
        Some((stock, counts))
    }
}
