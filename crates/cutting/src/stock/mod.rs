//! Cutting stock: pieces onto stock lengths, with a proved bound on what must be bought.
//!
//! Given pieces of length `l_i` (`d_i` of each) and stock lengths `W_k`, of each as many as wanted, find
//! the least total length bought such that no piece is cut in two. Lengths are whole numbers (a cut list
//! counts decimetres), so all that is proved is proved in integers.
//!
//! * `bound`: lower bounds. Material: the stock must hold the pieces. Dual: for any prices `p_i >= 0`
//!   such that no set of pieces that fits a stock length `W` is worth more than `W`, the pieces' total
//!   worth is a lower bound (weak duality of the linear program of Gilmore and Gomory, Operations
//!   Research 9 (1961) 849-859; made feasible by the scaling of Farley, Operations Research 38 (1990)
//!   922-923). The certificate is the price list; that no pattern is worth more is checked by an exact
//!   integer knapsack. Either bound is raised to the next sum of stock lengths, since only such sums can
//!   be bought.
//! * `columns`: prices and patterns by column generation.
//! * `fill`: plans: best fit decreasing, and the patterns rounded down with the rest refilled.
//!
//! A plan is *proved least* when it meets the bound; else the gap is told.

mod bound;
mod columns;
mod fill;
mod plan;
mod problem;

pub use bound::{dual_bound, material_bound, next_sum};
pub use plan::{CuttingPlan, Drum};
pub use problem::{CuttingError, LONGEST_STOCK, Piece, StockProblem};

use plan::total;

/// The best plan found, with the best bound proved.
pub fn solve(problem: &StockProblem) -> CuttingPlan {
    if problem.pieces.is_empty() {
        return CuttingPlan { drums: Vec::new(), bound: 0 };
    }
    let mut plan = CuttingPlan { drums: fill::best_fit(problem), bound: material_bound(problem) };
    if !plan.is_proved_least() {
        let generated = columns::generate(problem);
        plan.bound = plan.bound.max(dual_bound(problem, &generated.prices));
        for drums in fill::from_patterns(problem, &generated.patterns, plan.bound) {
            if total(&drums) < plan.bought() {
                plan.drums = drums;
            }
        }
    }
    for drum in &mut plan.drums {
        drum.cuts.sort_unstable_by(|a, b| b.cmp(a));
    }
    plan.drums.sort_by(|a, b| b.cmp(a));
    plan
}

#[cfg(test)]
mod tests;
