//! `hold-time-overridden`

use crate::door::LockAt;
use crate::door::times::lock_times;
use crate::rule::{Context, Report, finding, rule};
use latchline_circuit::lock::HoldWinner;
use latchline_finding::{CodeDoc, Origin, Unit};

rule! {
    /// # What it checks
    /// Locks whose plan states a `hold_time` that differs from the release time set in their door
    /// station. The station's own setting wins.
    ///
    /// # Why it matters
    /// The installer sets what the plan says in the place where it has no effect, and the door is held
    /// shorter or longer than agreed.
    ///
    /// # Example
    /// The plan says 8 s, the door station's setting 3 s: the door is released for 3 s.
    ///
    /// # What to do
    /// Set the door station to the planned time, or change `hold_time` to what the station does.
    pub static HOLD_TIME_OVERRIDDEN: "hold-time-overridden", Advice,
        "The door station's own release time wins", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for at in LockAt::all(context.site) {
        let Some(times) = lock_times(&at) else { continue };
        // A time that nobody wrote is not overridden.
        let is_written = at.used.hold_time.origin != Origin::None;
        if times.hold.winner == HoldWinner::Plan || !is_written || times.hold.time_s == times.plan_s {
            continue;
        }
        let setting = at.station.release_time.as_ref().map(|time| time.origin.clone());
        let found = at
            .describe(finding(doc, at.used.hold_time.origin.clone()))
            .figures(times.hold.time_s, times.plan_s, Unit::Second)
            .with("station", at.station.head.name.as_str())
            .also_at("setting", setting.unwrap_or_default());
        report.push(found);
    }
}
