//! `fire-interlock-without-effect`

use crate::door::LockAt;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::catalogue::PowerLoss;

rule! {
    pub static FIRE_INTERLOCK_WITHOUT_EFFECT: "fire-interlock-without-effect", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for entrance in &context.site.entrances {
        let opens = |at: LockAt<'_>| at.lock.power_loss.value == PowerLoss::Opens || at.takes_dry_contact();
        let nothing = !LockAt::of_entrance(context.site, entrance).any(opens);
        if !entrance.fire_interlock.value || entrance.locks.is_empty() || !nothing {
            continue;
        }
        let locks: Vec<String> = entrance.locks.iter().map(|used| used.model.value.clone()).collect();
        let found = finding(doc, entrance.fire_interlock.origin.clone())
            .about(entrance.id.clone())
            .with("locks", locks);
        report.push(found);
    }
}
