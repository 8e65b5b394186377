//! What a run and a box may have at most: by the family, and by the survey's policy.

use latchline_site::catalogue::Family;
use latchline_site::model::USUAL_THIN_MARGIN_V;
use latchline_survey::Survey;
use latchline_survey::model::Wiring;

/// Limits of one run and box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Stations on a run.
    pub stations: usize,
    /// Dwellings on a run.
    pub dwellings: usize,
    /// Items that one cable may be looped through.
    pub chain: usize,
    /// Whether a run may have branch boxes.
    pub branches: bool,
    /// Longest run in tenths of a metre.
    pub longest_dm: u64,
    /// All cable of a run in tenths of a metre.
    pub total_dm: u64,
    /// Ports kept free on every distributor that serves dwellings.
    pub spare: usize,
    /// Most distributors one behind the other.
    pub cascade: usize,
    /// What every station and box of a design must have above its limit, in volts.
    pub margin_v: f64,
    /// Most resistance of new cable on runs, per metre of loop; a plan may hold itself to less than every cable has, so that less is
    /// lost in it.
    pub ohm_per_m: f64,
}

impl Limits {
    pub(crate) fn of(survey: &Survey, family: &Family) -> Limits {
        let settings = &survey.settings;
        let count = |limit: u32| limit as usize;
        let metres = |metres: f64| (metres * 10.0 + 1e-6).floor() as u64;
        let stations = family.stations_per_port.as_ref().map_or(usize::MAX, |limit| count(limit.value));
        let chains = family.chains.value && settings.wiring.value == Wiring::Chains;
        let branches = family.branches.value && settings.wiring.value != Wiring::Stars;
        let group = settings.largest_group.as_ref().map_or(usize::MAX, |limit| count(limit.value));
        Limits {
            stations: stations.saturating_sub(count(settings.growth)),
            dwellings: if chains || branches { group } else { group.min(1) },
            chain: if chains { usize::MAX } else { 1 },
            branches,
            longest_dm: family.longest_run.as_ref().map_or(u64::MAX / 2, |run| metres(run.value.as_metres())),
            total_dm: family
                .total_length_per_port
                .as_ref()
                .map_or(u64::MAX / 2, |total| metres(total.value.as_metres())),
            spare: settings.spare_ports.as_ref().map_or(0, |spare| count(spare.value)),
            margin_v: least_margin_v(survey),
            ohm_per_m: f64::INFINITY,
            cascade: family.cascade_depth.as_ref().map_or(usize::MAX, |depth| count(depth.value)),
        }
    }
}

/// What every station and box must have above its limit, in volts: as asked for, and where no warning may be, what is not called thin.
pub fn least_margin_v(survey: &Survey) -> f64 {
    let settings = &survey.settings;
    let asked_v = settings.least_margin_v.as_ref().map_or(0.0, |margin| margin.value);
    let is_strict = settings.no_warnings.as_ref().is_some_and(|strict| strict.value);
    let thin_v = if is_strict { settings.thin_margin_v.unwrap_or(USUAL_THIN_MARGIN_V) } else { 0.0 };
    asked_v.max(thin_v)
}
