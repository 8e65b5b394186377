//! `lock-current-kind`

use crate::door::LockAt;
use crate::door::circuit::feed;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::CodeDoc;
use latchline_site::catalogue::Feed;
use latchline_words::terms::Term;

rule! {
    pub static LOCK_CURRENT_KIND: "lock-current-kind", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let Ok(feed) = feed(context, &at) else { continue };
        let (needs, gets) = match (at.lock.feed.value, feed.is_ac) {
            (Feed::Dc, true) => (Term::DirectCurrent, Term::AlternatingCurrent),
            (Feed::Ac, false) => (Term::AlternatingCurrent, Term::DirectCurrent),
            _ => continue,
        };
        let found = at
            .describe(finding(doc, at.used.model.origin.clone()))
            .with("needs", needs.both())
            .with("gets", gets.both())
            .also_at("limit", at.lock.feed.origin.clone())
            .also_at("feed", feed.origin.clone())
            .graded(super::limit::grade(&at.lock.head.name, "feed", &at.lock.feed));
        report.push(found);
    }
}
