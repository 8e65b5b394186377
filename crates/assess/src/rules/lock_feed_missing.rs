//! `lock-feed-missing`

use crate::door::LockAt;
use crate::door::circuit::{Unknown, feed};
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::CodeDoc;
use latchline_site::model::LockFeed;
use latchline_words::missing::Missing;

rule! {
    pub static LOCK_FEED_MISSING: "lock-feed-missing", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let missing = match at.used.feed.value {
            LockFeed::DryContact if !at.is_of_another_system() && at.lock.current.is_some() => {
                Missing::key(format!("{} lock", at.entrance.id), "supply_voltage")
            }
            _ => match feed(context, &at) {
                Err(Unknown::NoFeed(missing)) => missing,
                _ => continue,
            },
        };
        let found = at
            .describe(finding(doc, at.used.origin.clone()))
            .with("missing", missing.both())
            .with("feed", feed_word(at.used.feed.value))
            .with("station", at.station.head.name.as_str());
        report.push(found);
    }
}

/// The word of the site file.
fn feed_word(feed: LockFeed) -> &'static str {
    match feed {
        LockFeed::Station => "station",
        LockFeed::Bus => "bus",
        LockFeed::OwnSupply => "own-supply",
        LockFeed::DryContact => "dry-contact",
    }
}
