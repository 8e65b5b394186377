//! `suppression-unsuitable`

use crate::door::LockAt;
use crate::door::circuit::feed;
use crate::rule::{Report, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::CodeDoc;
use latchline_site::model::Suppression;

rule! {
    /// # What it checks
    /// That no plain diode lies across a lock on alternating current.
    ///
    /// # Why it matters
    /// The diode shorts every second half-wave: the transformer overheats, the fuse blows or the diode does.
    ///
    /// # Example
    /// A 12 V AC strike with a diode across its terminals.
    ///
    /// # What to do
    /// A varistor for the voltage, or a clamp that works both ways.
    pub static SUPPRESSION_UNSUITABLE: "suppression-unsuitable", Error,
        "A diode across a lock on alternating current", reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Report) {
    for at in LockAt::all(context.site) {
        let Some(stated) = &at.used.suppression else { continue };
        let Ok(feed) = feed(context, &at) else { continue };
        if stated.value == Suppression::Diode && feed.is_ac {
            let found = at.describe(finding(doc, stated.origin.clone())).also_at("feed", feed.origin.clone());
            report.push(found);
        }
    }
}
