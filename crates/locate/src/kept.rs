//! What causes make of an enquiry at the sizes that were looked at, for when it is asked again with another figure.
//!
//! What a cause predicts does not depend on what was read, so that what one figure asked for serves the next. An answer from here is the same as one that is
//! worked out.

use crate::model::Outcome;
use std::collections::BTreeMap;
use std::sync::Mutex;

/// By the number of a cause in the list that is ranked.
pub(crate) struct Kept {
    causes: Vec<Mutex<Cause>>,
}

#[derive(Default)]
struct Cause {
    /// By size, a place of its range as bits: what it makes of all quantities, and the logarithm of the probability of what was told.
    outcomes: BTreeMap<u64, (Outcome, f64)>,
    /// By size and quantity: how it depends on every factor.
    rows: BTreeMap<(u64, usize), Vec<f64>>,
}

impl Kept {
    /// Of so many causes, nothing known of any.
    pub fn new(causes: usize) -> Self {
        Kept { causes: (0..causes).map(|_| Mutex::default()).collect() }
    }

    /// What a cause makes of all quantities.
    pub fn outcome(&self, cause: usize, at: f64, solve: impl FnOnce() -> (Outcome, f64)) -> (Outcome, f64) {
        let Ok(mut known) = self.causes[cause].lock() else { return solve() };
        known.outcomes.entry(at.to_bits()).or_insert_with(solve).clone()
    }

    /// How these quantities depend on every factor.
    pub fn rows(
        &self,
        cause: usize,
        at: f64,
        wanted: &[usize],
        solve: impl FnOnce(&[usize]) -> Vec<Vec<f64>>,
    ) -> Vec<Vec<f64>> {
        let Ok(mut known) = self.causes[cause].lock() else { return solve(wanted) };
        let key = |place: &usize| (at.to_bits(), *place);
        let missing: Vec<usize> =
            wanted.iter().copied().filter(|place| !known.rows.contains_key(&key(place))).collect();
        if !missing.is_empty() {
            let solved = solve(&missing);
            known.rows.extend(missing.iter().map(key).zip(solved));
        }
        wanted.iter().map(|place| known.rows[&key(place)].clone()).collect()
    }
}
