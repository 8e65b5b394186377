//! `fire-interlock-missing`

use crate::door::LockAt;
use crate::rule::{Context, Report, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity};
use latchline_site::catalogue::{LockKind, PowerLoss};

rule! {
    /// # What it checks
    /// Holding magnets, and on escape routes all locks that open without power, for a stated fire
    /// interlock. A fire alarm on an input of the door station is looked at by
    /// `fire-release-through-station`. A magnet beside which a handle or bar is stated is looked at too: a bar does not move
    /// a magnet.
    ///
    /// # Why it matters
    /// When the fire alarm sounds, a powered magnet still holds with hundreds of kilograms. Only a
    /// contact of the alarm system in its own supply lets go.
    ///
    /// # Example
    /// A magnet at the front door of a block whose fire alarm does not know of it.
    ///
    /// # What to do
    /// A normally closed contact of the fire alarm in series with the lock's supply, beyond all
    /// electronics (`fire_interlock = true` at the entrance). Whether it is asked for is decided by the
    /// responsible person and the local code. Off an escape route this is a warning.
    pub static FIRE_INTERLOCK_MISSING: "fire-interlock-missing", Error,
        "A powered lock that the fire alarm does not release", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for at in LockAt::all(context.site) {
        let escape = at.entrance.escape_route.value;
        let is_magnet = at.lock.kind.value == LockKind::Magnet;
        // A handle retracts a strike's or motor lock's latch, but does not move a magnet.
        let held = at.lock.power_loss.value == PowerLoss::Opens && !at.has_mechanical_escape();
        if at.takes_dry_contact() || at.entrance.is_released_on_fire() || !(is_magnet || escape && held) {
            continue;
        }
        let origin = at.used.model.origin.clone();
        let start = if escape { finding(doc, origin) } else { finding_as(doc, Severity::Warning, origin) };
        let found = at
            .describe(start)
            .with("role", if escape { "on an escape route" } else { "at a door" })
            .also_at("escape-route", at.entrance.escape_route.origin.clone());
        report.push(found);
    }
}
