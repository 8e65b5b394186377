//! `hold-time-overridden`

use crate::door::LockAt;
use crate::door::times::lock_times;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_circuit::lock::HoldWinner;
use latchline_finding::{CodeDoc, Origin, Unit};

rule! {
    pub static HOLD_TIME_OVERRIDDEN: "hold-time-overridden", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
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
