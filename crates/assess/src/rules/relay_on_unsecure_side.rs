//! `relay-on-unsecure-side`

use crate::door::LockAt;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    /// # What it checks
    /// Locks whose plan says that their relay does not sit on the secure side of the door
    /// (`relay_on_secure_side = false`).
    ///
    /// # Why it matters
    /// Whoever takes the door station off the wall has the lock's two wires in hand: joined or cut, they
    /// open the door.
    ///
    /// # Example
    /// The relay inside the outdoor door station switches a strike on its own supply.
    ///
    /// # What to do
    /// The family's relay module, or a relay driven over the bus, mounted inside.
    pub static RELAY_ON_UNSECURE_SIDE: "relay-on-unsecure-side", Warning,
        "The lock's relay can be reached from outside", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for at in LockAt::all(context.site) {
        let Some(stated) = at.used.relay_on_secure_side.as_ref().filter(|stated| !stated.value) else {
            continue;
        };
        report.push(at.describe(finding(doc, stated.origin.clone())));
    }
}
