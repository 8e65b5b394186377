//! How little staggering, or how large a supply, lets the system start.

use super::{Limit, Options, Outcome, StartUp, StartupError, System, simulate};

/// What a search found.
#[derive(Debug, Clone, PartialEq)]
pub struct Search {
    /// The smallest value found at which the system reaches its operating point.
    pub value: f64,
    /// The largest value tried at which it does not; `None` if the lower end of the range starts.
    pub fails_at: Option<f64>,
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
        /// Lower end.
        low: f64,
        /// Upper end.
        high: f64,
    },
    /// There must be one group for every device.
    Groups {
        /// Groups given.
        given: usize,
        /// Devices.
        devices: usize,
    },
    /// The supply has no limit to vary.
    NoLimit,
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
            Self::Range { low, high } => {
                write!(f, "search from {low} to {high}: the range must be finite and not empty")
            }
            Self::Groups { given, devices } => {
                write!(f, "{given} groups for {devices} devices, must be one for each")
            }
            Self::NoLimit => write!(f, "the supply has no current limit that could be varied"),
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

/// Finds the smallest uniform stagger in s, from 0 to `high_s`, to within `resolution_s`: the
/// converters of group `g` start `g` staggers later than their own delay.
///
/// Bisection: *assumes* that more staggering never hurts. What is verified is that the returned
/// value starts and that [`Search::fails_at`] does not; smaller values that also start are not
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
    bisect(0.0, high_s, resolution_s, |stagger_s| {
        let mut staggered = system.clone();
        for (device, &group) in staggered.devices.iter_mut().zip(groups) {
            if let Some(converter) = &mut device.converter {
                converter.delay_s += f64::from(group) * stagger_s;
            }
        }
        simulate(&staggered, options)
    })
}

/// Finds the smallest supply limit in A, from `low_a` to `high_a`, to within `resolution_a`. The
/// short-circuit limit of a foldback keeps its ratio to the limit.
///
/// Bisection: *assumes* that a larger limit never hurts; see [`smallest_stagger`] for what is
/// verified.
///
/// # Errors
/// [`SearchError`] if there is nothing to search or even `high_a` does not start.
pub fn smallest_limit(
    system: &System,
    low_a: f64,
    high_a: f64,
    resolution_a: f64,
    options: &Options,
) -> Result<Search, SearchError> {
    if system.supply.limit == Limit::None {
        return Err(SearchError::NoLimit);
    }
    bisect(low_a, high_a, resolution_a, |limit_a| {
        let mut limited = system.clone();
        match &mut limited.supply.limit {
            Limit::None => {}
            Limit::ConstantCurrent { current_a } | Limit::Hiccup { current_a, .. } => {
                *current_a = limit_a;
            }
            Limit::Foldback { max_current_a, short_current_a, .. } => {
                *short_current_a *= limit_a / *max_current_a;
                *max_current_a = limit_a;
            }
        }
        simulate(&limited, options)
    })
}

/// Bisection of a range whose upper end must start.
fn bisect(
    low: f64,
    high: f64,
    resolution: f64,
    mut run: impl FnMut(f64) -> Result<StartUp, StartupError>,
) -> Result<Search, SearchError> {
    let finite = low.is_finite() && high.is_finite() && resolution.is_finite();
    if !finite || low < 0.0 || low > high || resolution <= 0.0 {
        return Err(SearchError::Range { low, high });
    }
    let starts = |s: &StartUp| matches!(s.outcome, Outcome::OperatingPoint { .. });
    let mut simulations = 1;
    let mut best = run(high)?;
    if !starts(&best) {
        return Err(SearchError::NoneStarts { high, outcome: best.outcome });
    }
    let mut value = high;
    let mut fails_at = None;
    let mut next = low;
    // 60 halvings exhaust the digits of any range.
    for _ in 0..60 {
        simulations += 1;
        let tried = run(next)?;
        if starts(&tried) {
            best = tried;
            value = next;
        } else {
            fails_at = Some(next);
        }
        let Some(failing) = fails_at else { break };
        if value - failing <= resolution {
            break;
        }
        next = 0.5 * (value + failing);
    }
    Ok(Search { value, fails_at, start_up: best, simulations })
}
