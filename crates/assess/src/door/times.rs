//! Release time, duty of the coil, and the delay that its suppression costs.

use super::LockAt;
use crate::stopwatch::by_stopwatch_s;
use latchline_circuit::lock::{Coil, Suppressor, Varistor, duty_s, hold_time, release_time_s};
pub use latchline_circuit::lock::{Energised, HoldTime, HoldWinner};
use latchline_finding::Provenance;
use latchline_site::catalogue::PowerLoss;
use latchline_site::model::Suppression;

/// Forward voltage of a plain silicon diode.
const DIODE_V: f64 = 0.7;
/// Exponent of a metal-oxide varistor, and the current at which its voltage is given (common practice,
/// no source).
const VARISTOR_EXPONENT: f64 = 0.04;
const VARISTOR_CURRENT_A: f64 = 1e-3;

/// The times of one lock.
#[derive(Debug, Clone, PartialEq)]
pub struct LockTimes {
    /// The release time that acts.
    pub hold: HoldTime,
    /// The plan's own release time in seconds.
    pub plan_s: f64,
    /// Whether the plan states it; else it is a default.
    pub plan_is_stated: bool,
    /// When the coil has power.
    pub energised: Energised,
    /// Longest time it is energised at a stretch, in seconds; infinite while shut.
    pub duty_s: f64,
    /// Longest time it may be; `None` for continuous duty.
    pub duty_limit_s: Option<f64>,
    /// Time the coil's current needs to fall to drop-out with the suppression fitted, in seconds; `None`
    /// where the catalogue does not give the coil's inductance and drop-out current.
    pub decay_s: Option<f64>,
    /// The same with a plain diode.
    pub decay_with_diode_s: Option<f64>,
}

/// How far the timer of a door station may be out, as a fraction (assumed; no source).
const TIMER_TOLERANCE: f64 = 0.1;

impl LockTimes {
    /// What a stopwatch may show of a release, in seconds: least, as set, most. After the time that is set the coil's current dies down.
    pub fn by_stopwatch_s(&self) -> [f64; 3] {
        let [least_s, set_s, most_s] = by_stopwatch_s(self.hold.time_s, TIMER_TOLERANCE);
        [least_s, set_s, most_s + self.decay_s.unwrap_or(0.0)]
    }
}

/// What a stopwatch may show of a delayed egress, in seconds: least, as stated, most. A door that opens sooner than its timer is set keeps
/// nobody in; longer than stated none may, whatever its timer does, but for the hand.
pub fn delayed_egress_by_stopwatch_s(delay_s: f64) -> [f64; 3] {
    let [least_s, ..] = by_stopwatch_s(delay_s, TIMER_TOLERANCE);
    let [.., most_s] = by_stopwatch_s(delay_s, 0.0);
    [least_s, delay_s, most_s]
}

/// When a lock's coil has power.
pub fn energised(power_loss: PowerLoss) -> Energised {
    match power_loss {
        PowerLoss::Opens => Energised::WhileShut,
        PowerLoss::StaysShut => Energised::WhileReleased,
    }
}

/// The times of a lock; `None` only where a stated time is not positive, which parsing refuses.
pub fn lock_times(at: &LockAt<'_>) -> Option<LockTimes> {
    let plan_s = at.used.hold_time.value.as_seconds();
    let station_s = at.station.release_time.as_ref().map(|time| time.value.as_seconds());
    let hold = hold_time(station_s, plan_s).ok()?;
    let energised = energised(at.lock.power_loss.value);
    Some(LockTimes {
        hold,
        plan_s,
        plan_is_stated: at.used.hold_time.provenance != Provenance::Assumed,
        energised,
        duty_s: duty_s(energised, &hold),
        duty_limit_s: at.lock.duty_limit.as_ref().map(|limit| limit.value.as_seconds()),
        decay_s: suppressor(at).and_then(|fitted| decay_s(at, &fitted)),
        decay_with_diode_s: decay_s(at, &Suppressor::Clamp(DIODE_V)),
    })
}

/// The suppressor fitted, if its figures are known.
fn suppressor(at: &LockAt<'_>) -> Option<Suppressor> {
    let voltage_v = || at.used.suppression_voltage.as_ref().map(|voltage| voltage.value.as_volts());
    match at.used.suppression.as_ref().map_or(Suppression::None, |stated| stated.value) {
        Suppression::None => Some(Suppressor::None),
        Suppression::Diode => Some(Suppressor::Clamp(DIODE_V)),
        Suppression::Clamp => voltage_v().map(Suppressor::Clamp),
        Suppression::Varistor => voltage_v().map(|voltage_v| {
            Suppressor::Varistor(Varistor {
                voltage_v,
                at_current_a: VARISTOR_CURRENT_A,
                exponent: VARISTOR_EXPONENT,
            })
        }),
    }
}

/// Time until the coil's current has fallen to drop-out, in seconds.
fn decay_s(at: &LockAt<'_>, suppressor: &Suppressor) -> Option<f64> {
    let lock = at.lock;
    let current_a = lock.current.as_ref()?.value.as_amps();
    let coil = Coil {
        current_a,
        inductance_h: lock.coil_inductance.as_ref()?.value.as_henries(),
        resistance_ohm: lock.voltage.as_ref()?.value.as_volts() / current_a,
    };
    release_time_s(&coil, lock.dropout_current.as_ref()?.value.as_amps(), suppressor).ok()
}
