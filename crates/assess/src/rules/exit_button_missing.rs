//! `exit-button-missing`

use crate::door::LockAt;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::catalogue::{LockKind, PowerLoss};

rule! {
    /// # What it checks
    /// Locks that hold a door shut for those inside too, without an exit button: magnets, and every lock
    /// for which neither a handle or bar (`mechanical_escape`) nor an exit button is stated and which
    /// opens without power.
    ///
    /// # Why it matters
    /// Whoever is inside cannot get out without ringing somebody.
    ///
    /// # Example
    /// A magnet at the back door, released from the flats only.
    ///
    /// # What to do
    /// An exit button inside that acts on the lock's own circuit; on an escape route an emergency
    /// release besides.
    pub static EXIT_BUTTON_MISSING: "exit-button-missing", Warning,
        "No way to open from inside", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for at in LockAt::all(context.site) {
        let opens = at.lock.power_loss.value == PowerLoss::Opens;
        let holds = at.lock.kind.value == LockKind::Magnet || opens && !at.has_mechanical_escape();
        if at.used.exit_button.value || at.is_gate() || !holds {
            continue;
        }
        let found = at
            .describe(finding(doc, at.used.origin.clone()))
            .also_at("escape-route", at.entrance.escape_route.origin.clone());
        report.push(found);
    }
}
