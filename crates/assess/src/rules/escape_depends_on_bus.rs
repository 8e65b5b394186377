//! `escape-depends-on-bus`

use crate::door::LockAt;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::catalogue::PowerLoss;
use latchline_site::model::LockFeed;

rule! {
    /// # What it checks
    /// Locks on an escape route that open without power, but whose power comes from the door station or
    /// the bus, with neither a mechanical means of escape nor an emergency release that breaks the
    /// lock's own circuit by hand. (Locks that stay shut without power are looked at by
    /// `escape-fail-secure`.)
    ///
    /// # Why it matters
    /// The exit button then asks a processor to open the way out. A station that hangs, or a bus that
    /// browns out just above the lock's drop-out, keeps the door shut. Egress must never depend on the
    /// bus.
    ///
    /// # Example
    /// A magnet fed from the door station, released by a button on the station's input.
    ///
    /// # What to do
    /// An emergency release at the door that breaks the magnet's circuit itself (`emergency_release =
    /// true`), or a handle or bar (`mechanical_escape = true`). The responsible person and the local
    /// code decide.
    pub static ESCAPE_DEPENDS_ON_BUS: "escape-depends-on-bus", Error,
        "The way out depends on the bus", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for at in LockAt::all(context.site) {
        let from_bus = matches!(at.used.feed.value, LockFeed::Station | LockFeed::Bus);
        let opens = at.lock.power_loss.value == PowerLoss::Opens;
        let by_hand = at.has_mechanical_escape() || at.has_emergency_release();
        if !at.entrance.escape_route.value || !from_bus || !opens || by_hand {
            continue;
        }
        let found = at
            .describe(finding(doc, at.used.origin.clone()))
            .also_at("escape-route", at.entrance.escape_route.origin.clone());
        report.push(found);
    }
}
