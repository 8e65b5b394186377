//! `escape-depends-on-bus`

use crate::door::LockAt;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::catalogue::PowerLoss;
use latchline_site::model::LockFeed;

rule! {
    pub static ESCAPE_DEPENDS_ON_BUS: "escape-depends-on-bus", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let from_bus = matches!(at.used.feed.value, LockFeed::Station | LockFeed::Bus);
        let opens = at.lock.power_loss.value == PowerLoss::Opens;
        let by_hand = at.has_mechanical_escape() || at.has_emergency_release();
        if !at.entrance.is_escape_route() || !from_bus || !opens || by_hand {
            continue;
        }
        let found = at
            .describe(finding(doc, at.used.origin.clone()))
            .also_at("escape-route", at.entrance.escape_origin());
        report.push(found);
    }
}
