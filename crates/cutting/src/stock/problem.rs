//! What is to be cut, and from what.

/// Longest stock length that is dealt with: 10 km in decimetres.
pub const LONGEST_STOCK: u32 = 100_000;

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
