//! `escape-fail-secure`

use crate::door::LockAt;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::catalogue::PowerLoss;

rule! {
    /// # What it checks
    /// Locks on an escape route that stay shut without power (fail-secure) and for which no mechanical
    /// means of escape (handle, push pad, bar) is stated.
    ///
    /// # Why it matters
    /// In a power cut, which is when a building is left in haste, such a door does not open from inside.
    ///
    /// # Example
    /// A fail-secure motor lock on the only way out, with an exit button.
    ///
    /// # What to do
    /// Furniture that retracts the latch mechanically from inside, or a lock that opens without power.
    /// Whether the door is on an escape route and what it needs is decided by the responsible person and
    /// the local code; this is no certificate either way. Where the means are there, state
    /// `mechanical_escape = true`.
    pub static ESCAPE_FAIL_SECURE: "escape-fail-secure", Error,
        "A lock on an escape route stays shut without power", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for at in LockAt::all(context.site) {
        let stays_shut = at.lock.power_loss.value == PowerLoss::StaysShut;
        if !at.entrance.escape_route.value || !stays_shut || at.has_mechanical_escape() {
            continue;
        }
        let stated = at.used.mechanical_escape.as_ref();
        let origin = stated.map_or(at.used.model.origin.clone(), |stated| stated.origin.clone());
        let found = at
            .describe(finding(doc, origin))
            .also_at("escape-route", at.entrance.escape_route.origin.clone())
            .also_at("limit", at.lock.power_loss.origin.clone())
            .graded(super::limit::grade(&at.lock.head.name, "power_loss", &at.lock.power_loss));
        report.push(found);
    }
}
