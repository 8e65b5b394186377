//! `lock-output-overloaded`

use super::limit::ROUNDING;
use crate::door::circuit::peak_current;
use crate::door::{Assumptions, LockAt};
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::model::LockFeed;

rule! {
    /// # What it checks
    /// For locks that the door station feeds: the larger of the lock's current and its inrush against
    /// the current of the station's lock output. A station that does not state it is not judged.
    ///
    /// # Why it matters
    /// The output is often a capacitor behind a small converter: overloaded, the strike clicks once and
    /// the station restarts in the middle of the call.
    ///
    /// # Example
    /// A motor lock starts with 1.6 A on an output of 0.6 A.
    ///
    /// # What to do
    /// Give the lock a supply of its own and use the station's relay, or take a lock that draws less.
    pub static LOCK_OUTPUT_OVERLOADED: "lock-output-overloaded", Error,
        "A lock draws more than the door station's output gives", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for at in LockAt::all(context.site) {
        // Without an output at all `lock-feed-missing` speaks.
        if at.used.feed.value != LockFeed::Station || at.station.lock_output_voltage.is_none() {
            continue;
        }
        let Some((peak_a, key, value)) = peak_current(&at) else {
            report.not_judged(doc.code, at.entrance.id.clone(), format!("{} current", at.lock.head.name));
            continue;
        };
        let Some(limit) = &at.station.lock_output_current else {
            let missing = format!("{} lock_output_current", at.station.head.name);
            report.not_judged(doc.code, at.entrance.id.clone(), missing);
            continue;
        };
        let limit_a = limit.value.as_amps();
        if peak_a <= limit_a * (1.0 + ROUNDING) {
            continue;
        }
        let mut assumed = Assumptions::default();
        assumed.note(&at.lock.head.name, key, &value);
        assumed.note(&at.station.head.name, "lock_output_current", limit);
        let found = at
            .describe(finding(doc, at.used.model.origin.clone()))
            .figures(peak_a, limit_a, Unit::Ampere)
            .with("which", key.replace('_', " "))
            .with("station", at.station.head.name.as_str())
            .also_at("limit", limit.origin.clone())
            .graded(assumed.grade());
        report.push(found);
    }
}
