//! `suppression-missing`

use crate::door::LockAt;
use crate::door::times::lock_times;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Figure, Unit};
use latchline_site::model::{LockFeed, Suppression};

rule! {
    /// # What it checks
    /// Locks that the door station's relay switches on a supply of their own or on the bus, without a
    /// stated suppression of the coil's voltage spike. Where the catalogue gives the coil's inductance
    /// and drop-out current, the delay that a plain diode would cost is told.
    ///
    /// # Why it matters
    /// When the contact opens, the coil drives its voltage to hundreds of volts until the arc ends it.
    /// That erodes the contact, resets stations and is heard on the bus.
    ///
    /// # Example
    /// A strike on its own transformer with nothing across its coil.
    ///
    /// # What to do
    /// At the lock, not at the relay: on direct current a diode (cathode to plus; it delays a release by
    /// power loss by some tens of milliseconds) or a clamp, on alternating current a varistor. Many
    /// locks have it built in: then state it.
    pub static SUPPRESSION_MISSING: "suppression-missing", Advice,
        "Nothing kills the voltage spike of a coil", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for at in LockAt::all(context.site) {
        let switched = matches!(at.used.feed.value, LockFeed::OwnSupply | LockFeed::Bus);
        let fitted = at.used.suppression.as_ref().is_some_and(|stated| stated.value != Suppression::None);
        if !switched || fitted || at.is_gate() {
            continue;
        }
        let origin =
            at.used.suppression.as_ref().map_or(at.used.origin.clone(), |stated| stated.origin.clone());
        let is_ac = at.used.feed.value == LockFeed::OwnSupply && at.used.supply_ac.value;
        let mut found = at
            .describe(finding(doc, origin))
            .with("suitable", if is_ac { "a varistor" } else { "a diode or a clamp" });
        if let (false, Some(delay_s)) = (is_ac, lock_times(&at).and_then(|times| times.decay_with_diode_s)) {
            found = found.with("diode_delay", Figure::new(delay_s, Unit::Second));
        }
        report.push(found);
    }
}
