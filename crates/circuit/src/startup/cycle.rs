//! Repeated trips and dropouts, and whether the complete state repeats with them.

use std::collections::BTreeMap;

use super::HiccupCause;
use super::discrete::Discrete;

/// Converters whose dropouts are followed; the first to drop out.
const MOST_CONVERTERS: usize = 8;
/// Two states are the same if no capacitor differs by more than this many tolerances.
const SAME_STATE: f64 = 2.0;
/// Two timers are the same if what is left of them differs by less than this part of the period.
const SAME_TIMER: f64 = 1e-2;
/// Successive repetitions before the run may stop.
const ENOUGH: usize = 2;
/// The run may stop when the drift seen from cycle to cycle, carried on to the end time, stays
/// below this, V: otherwise capacitors that creep up a little each cycle would be missed.
const MOST_DRIFT_V: f64 = 0.05;

/// What was seen at the last trip or dropout of one cause.
struct Section {
    time_s: f64,
    state_v: Vec<f64>,
    marks: Vec<(u8, f64)>,
    times: usize,
    interval_s: f64,
    drift_v: f64,
    repeats: usize,
}

/// All causes seen so far.
#[derive(Default)]
pub(super) struct Cycles {
    sections: BTreeMap<HiccupCause, Section>,
}

impl Cycles {
    /// Notes that `cause` has just happened, with the state after it.
    pub fn mark(
        &mut self,
        cause: HiccupCause,
        time_s: f64,
        state_v: &[f64],
        discrete: &Discrete<'_>,
        tolerance_v: f64,
    ) {
        if !self.sections.contains_key(&cause)
            && matches!(cause, HiccupCause::Converter(_))
            && self.sections.len() >= MOST_CONVERTERS
        {
            return;
        }
        let marks = discrete.fingerprint(time_s);
        let Some(section) = self.sections.get_mut(&cause) else {
            self.sections.insert(
                cause,
                Section {
                    time_s,
                    state_v: state_v.to_vec(),
                    marks,
                    times: 1,
                    interval_s: 0.0,
                    drift_v: f64::INFINITY,
                    repeats: 0,
                },
            );
            return;
        };
        let interval_s = time_s - section.time_s;
        let same_machines = marks.iter().zip(&section.marks).all(|(new, old)| {
            new.0 == old.0 && (new.1 == old.1 || (new.1 - old.1).abs() <= SAME_TIMER * interval_s)
        });
        let drift_v = state_v
            .iter()
            .zip(&section.state_v)
            .fold(0.0, |most: f64, (new, old)| most.max((new - old).abs()));
        let same_interval =
            section.times < 2 || (interval_s - section.interval_s).abs() <= SAME_TIMER * interval_s;
        let same = same_machines && same_interval && drift_v <= SAME_STATE * tolerance_v;
        section.repeats = if same { section.repeats + 1 } else { 0 };
        section.drift_v = drift_v;
        section.interval_s = interval_s;
        section.time_s = time_s;
        section.state_v.copy_from_slice(state_v);
        section.marks = marks;
        section.times += 1;
    }

    /// A cause whose state has repeated often enough to stop, and its period in s.
    pub fn repeating(&self, remaining_s: f64) -> Option<(HiccupCause, f64)> {
        let settled = self.sections.values().find(|s| {
            s.repeats >= ENOUGH
                && s.interval_s > 0.0
                && s.drift_v * remaining_s / s.interval_s <= MOST_DRIFT_V
        })?;
        let since_s = settled.time_s - 1.5 * settled.interval_s;
        let (&cause, section) = self.sections.iter().find(|(_, s)| s.times >= 2 && s.time_s >= since_s)?;
        let period_s = if section.repeats > 0 { section.interval_s } else { settled.interval_s };
        Some((cause, period_s))
    }

    /// A cause that was still repeating when the time ended at `end_s`, and its period if the
    /// last two states agree.
    pub fn recent(&self, end_s: f64, tolerance_v: f64) -> Option<(HiccupCause, Option<f64>)> {
        self.sections.iter().find(|(_, s)| s.times >= 3 && end_s - s.time_s <= 2.0 * s.interval_s).map(
            |(&cause, s)| {
                let settled = s.repeats > 0 && s.drift_v <= SAME_STATE * tolerance_v;
                (cause, settled.then_some(s.interval_s))
            },
        )
    }

    /// Time between the last two occurrences of a cause, s.
    pub fn last_interval_s(&self, cause: HiccupCause) -> f64 {
        self.sections.get(&cause).map_or(0.0, |s| s.interval_s)
    }
}
