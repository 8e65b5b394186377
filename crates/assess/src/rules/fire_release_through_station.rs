//! `fire-release-through-station`

use crate::door::LockAt;
use crate::door::alarm::fire_input;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity};
use latchline_site::catalogue::LockKind;

rule! {
    pub static FIRE_RELEASE_THROUGH_STATION: "fire-release-through-station", Error or Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for entrance in &context.site.entrances {
        let Some((number, kind)) = fire_input(entrance) else { continue };
        let powered: Vec<LockAt<'_>> =
            LockAt::of_entrance(context.site, entrance).filter(|at| !at.takes_dry_contact()).collect();
        if entrance.fire_interlock.value || powered.is_empty() {
            continue;
        }
        // A handle retracts a strike's or motor lock's latch, but does not move a magnet.
        let by_hand = |at: &LockAt<'_>| at.has_mechanical_escape() && at.lock.kind.value != LockKind::Magnet;
        let is_error = entrance.is_escape_route() && !powered.iter().all(by_hand);
        let origin = kind.origin.clone();
        let start = if is_error { finding(doc, origin) } else { finding_as(doc, Severity::Warning, origin) };
        let mut locks: Vec<String> = powered.iter().map(|at| at.lock.head.name.clone()).collect();
        locks.dedup();
        let found = start
            .about(entrance.id.clone())
            .with("number", number)
            .with("locks", locks)
            .also_at("escape-route", entrance.escape_origin());
        report.push(found);
    }
}
