//! `lock-duty-exceeded`

use super::limit::ROUNDING;
use crate::door::LockAt;
use crate::door::times::lock_times;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_circuit::lock::{Energised, HoldWinner};
use latchline_finding::{CodeDoc, Figure, Origin, Unit};
use latchline_words::terms::Term;

rule! {
    pub static LOCK_DUTY_EXCEEDED: "lock-duty-exceeded", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let (Some(limit), Some(times)) = (&at.lock.duty_limit, lock_times(&at)) else { continue };
        if at.takes_dry_contact() || times.duty_s <= limit.value.as_seconds() * (1.0 + ROUNDING) {
            continue;
        }
        // The station's own setting wins over the plan's, but only the plan is the user's to edit.
        let by_plan = times.energised == Energised::WhileReleased && at.used.hold_time.origin != Origin::None;
        let origin = if by_plan { &at.used.hold_time.origin } else { &at.used.model.origin };
        let setting = match (times.hold.winner, &at.station.release_time) {
            (HoldWinner::Station, Some(own)) if times.energised == Energised::WhileReleased => {
                own.origin.clone()
            }
            _ => Origin::None,
        };
        let mut found = at
            .describe(finding(doc, origin.clone()))
            .also_at("setting", setting)
            .also_at("limit", limit.origin.clone())
            .graded(super::limit::grade(&at.lock.head.name, "duty_limit", limit));
        // Energised without end is no figure.
        found.limit = Some(Figure::new(limit.value.as_seconds(), Unit::Second));
        found = match times.energised {
            Energised::WhileReleased => {
                found.value = Some(Figure::new(times.duty_s, Unit::Second));
                found.with("when", Term::WhileItIsReleased.both())
            }
            Energised::WhileShut => found.with("when", Term::AllTheTimeItIsShut.both()),
        };
        report.push(found);
    }
}
