//! `fire-release-through-station`

use crate::door::LockAt;
use crate::door::alarm::fire_input;
use crate::rule::{Context, Report, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity};
use latchline_site::catalogue::LockKind;

rule! {
    /// # What it checks
    /// Entrances whose fire alarm acts on an input of the door station only, with no contact in the lock's own
    /// circuit (`fire_interlock`). On an escape route this is an error, unless a handle or bar opens every lock.
    ///
    /// # Why it matters
    /// The release then asks a processor, a relay and, for a lock that needs power to open, the bus. Fire takes
    /// the mains first. Egress must never depend on the bus.
    ///
    /// # Example
    /// The fire alarm's contact on the door station's input, the door held by a magnet.
    ///
    /// # What to do
    /// Have the fire alarm open a contact in the lock's own supply as well (`fire_interlock = true`); the input may
    /// stay, to tell people. The responsible person and the local code decide.
    pub static FIRE_RELEASE_THROUGH_STATION: "fire-release-through-station", Error,
        "The fire alarm releases a door through its station only", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for entrance in &context.site.entrances {
        let Some((number, kind)) = fire_input(entrance) else { continue };
        let powered: Vec<LockAt<'_>> =
            LockAt::of_entrance(context.site, entrance).filter(|at| !at.takes_dry_contact()).collect();
        if entrance.fire_interlock.value || powered.is_empty() {
            continue;
        }
        // A handle retracts a strike's or motor lock's latch, but does not move a magnet.
        let by_hand = |at: &LockAt<'_>| at.has_mechanical_escape() && at.lock.kind.value != LockKind::Magnet;
        let is_error = entrance.escape_route.value && !powered.iter().all(by_hand);
        let origin = kind.origin.clone();
        let start = if is_error { finding(doc, origin) } else { finding_as(doc, Severity::Warning, origin) };
        let mut locks: Vec<String> = powered.iter().map(|at| at.lock.head.name.clone()).collect();
        locks.dedup();
        let found = start
            .about(entrance.id.clone())
            .with("number", number)
            .with("locks", locks)
            .also_at("escape-route", entrance.escape_route.origin.clone());
        report.push(found);
    }
}
