//! How little staggering lets the system start.

use super::{Options, Outcome, StartUp, StartupError, System, boots_together_fit, simulate};

/// What a search found.
#[derive(Debug, Clone, PartialEq)]
pub struct Search {
    /// The smallest value found at which the system reaches its operating point.
    pub value: f64,
    /// The largest value at which it does not: tried, ruled out by [`boots_together_fit`], or 0, which is not tried.
    pub fails_at: f64,
    /// The simulation at `value`, which is what vouches for it.
    pub start_up: StartUp,
    /// Simulations made.
    pub simulations: usize,
}

/// Why a search has no result.
#[derive(Debug, Clone, PartialEq)]
pub enum SearchError {
    /// The case itself is refused.
    Case(StartupError),
    /// The range is empty or not finite.
    Range {
        /// Upper end.
        high: f64,
        /// How closely to search.
        resolution: f64,
    },
    /// There must be one group for every device.
    Groups {
        /// Groups given.
        given: usize,
        /// Devices.
        devices: usize,
    },
    /// Even with the upper end of the range more boots together than can be fed, so that nothing was simulated.
    TooMuchTogether {
        /// Upper end.
        high: f64,
    },
    /// Even the upper end of the range does not start.
    NoneStarts {
        /// Upper end.
        high: f64,
        /// What happens there.
        outcome: Outcome,
    },
}

impl std::fmt::Display for SearchError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Case(error) => error.fmt(f),
            Self::Range { high, resolution } => {
                write!(f, "search up to {high} to within {resolution}: both must be finite and above 0")
            }
            Self::Groups { given, devices } => {
                write!(f, "{given} groups for {devices} devices, must be one for each")
            }
            Self::TooMuchTogether { high } => {
                write!(f, "even with {high} s more boots together than can be fed")
            }
            Self::NoneStarts { high, .. } => {
                write!(f, "the system does not start even with {high}")
            }
        }
    }
}

impl std::error::Error for SearchError {}

impl From<StartupError> for SearchError {
    fn from(error: StartupError) -> Self {
        Self::Case(error)
    }
}

/// Finds the smallest uniform stagger in s, up to `high_s`, to within `resolution_s`, for a system that does not start
/// without one: the converters of group `g` start `g` staggers later than their own delay. Each simulation lasts
/// `options.end_s` longer than the last group waits.
///
/// A stagger with which more boots together than can be fed is not simulated ([`boots_together_fit`]).
///
/// Bisection: *assumes* that more staggering never hurts. What is verified is that the returned
/// value starts and that [`Search::fails_at`] does not, where it was simulated; smaller values that also start are not
/// excluded.
///
/// # Errors
/// [`SearchError`] if there is nothing to search or even `high_s` does not start.
pub fn smallest_stagger(
    system: &System,
    groups: &[u32],
    high_s: f64,
    resolution_s: f64,
    options: &Options,
) -> Result<Search, SearchError> {
    if groups.len() != system.devices.len() {
        return Err(SearchError::Groups { given: groups.len(), devices: system.devices.len() });
    }
    let positive = |value: f64| value.is_finite() && value > 0.0;
    if !positive(high_s) || !positive(resolution_s) {
        return Err(SearchError::Range { high: high_s, resolution: resolution_s });
    }
    let last = f64::from(groups.iter().copied().max().unwrap_or(0));
    let mut simulations = 0;
    let mut run = |stagger_s: f64| -> Result<Option<StartUp>, StartupError> {
        let staggered = staggered(system, groups, stagger_s);
        if !boots_together_fit(&staggered) {
            return Ok(None);
        }
        simulations += 1;
        let options = Options { end_s: options.end_s + last * stagger_s, ..options.clone() };
        simulate(&staggered, &options).map(Some)
    };
    let starts = |s: &StartUp| matches!(s.outcome, Outcome::OperatingPoint { .. });
    let mut best = run(high_s)?.ok_or(SearchError::TooMuchTogether { high: high_s })?;
    if !starts(&best) {
        return Err(SearchError::NoneStarts { high: high_s, outcome: best.outcome });
    }
    let (mut value, mut fails_at) = (high_s, 0.0);
    // 60 halvings exhaust the digits of any range.
    for _ in 0..60 {
        if value - fails_at <= resolution_s {
            break;
        }
        let middle = 0.5 * (value + fails_at);
        match run(middle)?.filter(starts) {
            Some(tried) => {
                best = tried;
                value = middle;
            }
            None => fails_at = middle,
        }
    }
    Ok(Search { value, fails_at, start_up: best, simulations })
}

/// The system with every converter's delay longer by its group's staggers.
fn staggered(system: &System, groups: &[u32], stagger_s: f64) -> System {
    let mut staggered = system.clone();
    for (device, &group) in staggered.devices.iter_mut().zip(groups) {
        if let Some(converter) = &mut device.converter {
            converter.delay_s += f64::from(group) * stagger_s;
        }
    }
    staggered
}
