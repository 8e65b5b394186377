//! What published rules say about locks on escape routes, by country, in short. Advice: the local code
//! and the responsible person decide, and the text of the rule itself holds, not this summary.

use crate::door::LockAt;
use latchline_site::model::{Entrance, Site};
use latchline_words::publications::{EscapeDemand, Publication};

/// A published rule in a sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EscapeRule {
    /// The publication.
    pub source: Publication,
    /// What it asks for, in short.
    pub summary: EscapeDemand,
}

/// Countries whose standards body takes over European standards (members of CEN).
const EUROPEAN_STANDARDS: &[&str] = &[
    "AT", "BE", "BG", "CH", "CY", "CZ", "DE", "DK", "EE", "ES", "FI", "FR", "GB", "GR", "HR", "HU", "IE",
    "IS", "IT", "LT", "LU", "LV", "MK", "MT", "NL", "NO", "PL", "PT", "RO", "RS", "SE", "SI", "SK", "TR",
];

const EUROPE: &[EscapeRule] = &[
    EscapeRule { source: Publication::En179, summary: EscapeDemand::KnownDoor },
    EscapeRule { source: Publication::En1125, summary: EscapeDemand::Panic },
    EscapeRule { source: Publication::En13637, summary: EscapeDemand::ElectricallyControlled },
];

const UNITED_STATES: &[EscapeRule] = &[
    EscapeRule { source: Publication::IbcSensor, summary: EscapeDemand::SensorReleased },
    EscapeRule { source: Publication::Nfpa101Delay, summary: EscapeDemand::Delayed },
];

const ELSEWHERE: &[EscapeRule] =
    &[EscapeRule { source: Publication::CommonPractice, summary: EscapeDemand::OneAction }];

/// The rules to look at in a country (ISO 3166-1 alpha-2).
pub fn escape_rules(country: Option<&str>) -> &'static [EscapeRule] {
    match country {
        Some("US") => UNITED_STATES,
        Some(country) if EUROPEAN_STANDARDS.contains(&country) => EUROPE,
        _ => ELSEWHERE,
    }
}

/// Whether anything is known here for a country.
pub fn has_rules(country: &str) -> bool {
    country == "US" || EUROPEAN_STANDARDS.contains(&country)
}

/// Longest delays of delayed egress in a country, in seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DelayLimits {
    /// Without a particular permission.
    pub usual_s: f64,
    /// At the utmost, with the authority's permission.
    pub utmost_s: f64,
    /// The publication.
    pub source: Publication,
}

/// The limits where a published rule allows a delay at all; `None` where none is known here.
pub fn delay_limits(country: Option<&str>) -> Option<DelayLimits> {
    match country {
        Some("US") => Some(DelayLimits { usual_s: 15.0, utmost_s: 30.0, source: Publication::Nfpa101Delay }),
        Some(country) if EUROPEAN_STANDARDS.contains(&country) => {
            Some(DelayLimits { usual_s: 15.0, utmost_s: 180.0, source: Publication::En13637 })
        }
        _ => None,
    }
}

/// Whether an entrance is judged as a way out. A door without a lock keeps nobody in. A gate drive outside the buildings has its own ways of
/// being opened by hand; whoever owns it answers for them. On a floor of a building it shuts a door like any other lock.
pub fn is_judged_as_way_out(site: &Site, entrance: &Entrance) -> bool {
    let is_in_building = entrance.place.building.is_some() && !entrance.place.outdoors;
    LockAt::of_entrance(site, entrance).any(|at| is_in_building || !at.is_of_another_system())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NFPA 101 7.2.1.6.1: 15 s, 30 s where the authority approves. EN 13637: 15 s and 180 s (from
    /// memory, not yet confirmed).
    #[test]
    fn delays_by_country() {
        let states = delay_limits(Some("US")).map(|limits| (limits.usual_s, limits.utmost_s));
        assert_eq!(states, Some((15.0, 30.0)));
        let britain = delay_limits(Some("GB")).map(|limits| (limits.usual_s, limits.utmost_s));
        assert_eq!(britain, Some((15.0, 180.0)));
        assert_eq!(delay_limits(None), None);
    }

    #[test]
    fn every_country_gets_some_rule() {
        for country in [None, Some("US"), Some("GB"), Some("ZZ")] {
            assert!(!escape_rules(country).is_empty());
        }
        assert!(escape_rules(Some("DK")).iter().any(|rule| rule.source == Publication::En1125));
    }
}
