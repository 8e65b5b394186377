//! `lock-current-kind`

use crate::door::LockAt;
use crate::door::circuit::feed;
use crate::rule::{Report, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::CodeDoc;
use latchline_site::catalogue::Feed;

rule! {
    /// # What it checks
    /// That a lock made for direct current gets direct current, and one made for alternating current
    /// alternating.
    ///
    /// # Why it matters
    /// A strike for alternating current has a coil of low resistance that relies on its reactance: on
    /// direct current it draws more than rated and overheats. One for direct current only buzzes on
    /// alternating current.
    ///
    /// # Example
    /// The old 12 V AC strike of the bell system on the door station's 12 V DC output.
    ///
    /// # What to do
    /// Change the lock, or keep its transformer as a supply of its own through the station's relay
    /// (`feed = "own-supply"`, `supply_ac = true`).
    pub static LOCK_CURRENT_KIND: "lock-current-kind", Error,
        "A lock on the wrong kind of current", reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Report) {
    for at in LockAt::all(context.site) {
        let Ok(feed) = feed(context, &at) else { continue };
        let (needs, gets) = match (at.lock.feed.value, feed.is_ac) {
            (Feed::Dc, true) => ("direct current", "alternating current"),
            (Feed::Ac, false) => ("alternating current", "direct current"),
            _ => continue,
        };
        let found = at
            .describe(finding(doc, at.used.model.origin.clone()))
            .with("needs", needs)
            .with("gets", gets)
            .also_at("limit", at.lock.feed.origin.clone())
            .also_at("feed", feed.origin.clone())
            .graded(super::limit::grade(&at.lock.head.name, "feed", &at.lock.feed));
        report.push(found);
    }
}
