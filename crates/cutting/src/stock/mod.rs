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

pub use bound::{dual_bound, material_bound, next_sum};

/// Pieces of one length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece {
    /// Length; at least 1.
    pub length: u32,
    /// How many.
    pub count: u32,
}

/// What is to be cut, and from what.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StockProblem {
    /// Stock lengths in ascending order, no two alike.
    pub stock: Vec<u32>,
    /// Pieces in descending order of length, no two of one length; none longer than the longest stock.
    pub pieces: Vec<Piece>,
}

/// Why there is no plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum CuttingError {
    /// No stock length is given, or one is zero.
    #[error("no usable stock length")]
    NoStock,
    /// A piece is longer than every stock length.
    #[error("a piece of {piece} is longer than the longest stock length, {longest}")]
    TooLong {
        /// The piece.
        piece: u32,
        /// The longest stock length.
        longest: u32,
    },
    /// A length is beyond what is counted exactly.
    #[error("a length of {length} is more than {most}")]
    TooLarge {
        /// The length.
        length: u32,
        /// The most.
        most: u32,
    },
}

/// Longest stock length that is dealt with: 10 km in decimetres.
pub const LONGEST_STOCK: u32 = 100_000;

impl StockProblem {
    /// A problem from stock lengths and pieces in any order; pieces of length zero are left out.
    ///
    /// # Errors
    /// If there is no stock, or a piece does not fit.
    pub fn new(stock: &[u32], pieces: impl IntoIterator<Item = u32>) -> Result<StockProblem, CuttingError> {
        let mut stock: Vec<u32> = stock.iter().copied().filter(|length| *length > 0).collect();
        stock.sort_unstable();
        stock.dedup();
        let longest = *stock.last().ok_or(CuttingError::NoStock)?;
        if longest > LONGEST_STOCK {
            return Err(CuttingError::TooLarge { length: longest, most: LONGEST_STOCK });
        }
        let mut lengths: Vec<u32> = pieces.into_iter().filter(|length| *length > 0).collect();
        lengths.sort_unstable_by(|a, b| b.cmp(a));
        if let Some(piece) = lengths.first().copied().filter(|piece| *piece > longest) {
            return Err(CuttingError::TooLong { piece, longest });
        }
        let mut pieces: Vec<Piece> = Vec::new();
        for length in lengths {
            match pieces.last_mut() {
                Some(last) if last.length == length => last.count += 1,
                _ => pieces.push(Piece { length, count: 1 }),
            }
        }
        Ok(StockProblem { stock, pieces })
    }

    /// Total length of all pieces.
    pub fn needed(&self) -> u64 {
        self.pieces.iter().map(|piece| u64::from(piece.length) * u64::from(piece.count)).sum()
    }
}

/// One stock length with what is cut from it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Drum {
    /// Its length.
    pub stock: u32,
    /// Lengths cut from it, longest first.
    pub cuts: Vec<u32>,
}

impl Drum {
    /// What is left of it.
    pub fn left(&self) -> u32 {
        self.stock - self.cuts.iter().sum::<u32>()
    }
}

/// A cutting plan with its proof.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CuttingPlan {
    /// The drums, longest first.
    pub drums: Vec<Drum>,
    /// No plan buys less than this.
    pub bound: u64,
}

impl CuttingPlan {
    /// Total length bought.
    pub fn bought(&self) -> u64 {
        self.drums.iter().map(|drum| u64::from(drum.stock)).sum()
    }

    /// Whether no plan buys less.
    pub fn is_proved_least(&self) -> bool {
        self.bought() == self.bound
    }
}

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

fn total(drums: &[Drum]) -> u64 {
    drums.iter().map(|drum| u64::from(drum.stock)).sum()
}

#[cfg(test)]
mod tests;
