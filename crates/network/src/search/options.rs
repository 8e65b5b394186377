//! How hard to search.

/// How hard to search.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SearchOptions {
    /// Sets that cannot be worse by more than this (V or A) are not solved.
    pub tolerance: f64,
    /// Most sets solved for one target before the search gives up.
    pub most_sets: u64,
    /// Most sets solved for all targets of one stage in one state.
    pub most_sets_of_stage: u64,
    /// Most sets solved for all targets of a stage together where no certified bound helps.
    pub most_sets_without_bound: u64,
}

impl Default for SearchOptions {
    fn default() -> Self {
        SearchOptions {
            // A tenth of what the last digit of a site voltmeter shows.
            tolerance: 1e-3,
            most_sets: 20_000,
            most_sets_of_stage: 40_000,
            most_sets_without_bound: 400,
        }
    }
}
