//! How long a lock is held released, and how long its coil is energised for it.
//!
//! Two settings give a release time: the door station's own and the one that the plan states. A station
//! that has a setting of its own switches its relay by it, whatever the plan says.
//!
//! A lock that opens with power is energised while it is released. A lock that opens without power is
//! energised all the time it is shut, so that only a lock rated for continuous duty serves.

use crate::range::{RangeError, positive};

/// Which of the two settings acts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum HoldWinner {
    /// The door station's own setting.
    Station,
    /// The plan's, because the station has none.
    Plan,
}

/// The release time that acts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoldTime {
    /// Seconds.
    pub time_s: f64,
    /// Whose setting it is.
    pub winner: HoldWinner,
}

/// The release time that acts, from the station's own setting, if it has one, and the plan's, in seconds.
pub fn hold_time(station_s: Option<f64>, plan_s: f64) -> Result<HoldTime, RangeError> {
    positive("plan_s", plan_s)?;
    match station_s {
        Some(station_s) => {
            positive("station_s", station_s)?;
            Ok(HoldTime { time_s: station_s, winner: HoldWinner::Station })
        }
        None => Ok(HoldTime { time_s: plan_s, winner: HoldWinner::Plan }),
    }
}

/// When a lock has power.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Energised {
    /// While it is released.
    WhileReleased,
    /// While it is shut.
    WhileShut,
}

/// Longest time the coil is energised at a stretch, in seconds; infinite for a lock that is energised
/// while shut.
pub fn duty_s(energised: Energised, hold: &HoldTime) -> f64 {
    match energised {
        Energised::WhileReleased => hold.time_s,
        Energised::WhileShut => f64::INFINITY,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stations_own_setting_wins() {
        let hold = hold_time(Some(3.0), 8.0).unwrap();
        assert_eq!(hold, HoldTime { time_s: 3.0, winner: HoldWinner::Station });
        assert_eq!(hold_time(None, 8.0).unwrap(), HoldTime { time_s: 8.0, winner: HoldWinner::Plan });
        assert_eq!(hold_time(None, f64::NAN).unwrap_err().quantity, "plan_s");
    }

    #[test]
    fn a_lock_that_power_keeps_shut_is_energised_without_end() {
        let hold = hold_time(None, 5.0).unwrap();
        assert_eq!(duty_s(Energised::WhileReleased, &hold), 5.0);
        assert_eq!(duty_s(Energised::WhileShut, &hold), f64::INFINITY);
    }
}
