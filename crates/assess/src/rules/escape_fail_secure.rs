//! `escape-fail-secure`

use crate::door::LockAt;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::catalogue::PowerLoss;

rule! {
    pub static ESCAPE_FAIL_SECURE: "escape-fail-secure", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let stays_shut = at.lock.power_loss.value == PowerLoss::StaysShut;
        if !at.entrance.is_escape_route() || !stays_shut || at.has_mechanical_escape() {
            continue;
        }
        let stated = at.used.mechanical_escape.as_ref();
        let origin = stated.map_or(at.used.model.origin.clone(), |stated| stated.origin.clone());
        let found = at
            .describe(finding(doc, origin))
            .also_at("escape-route", at.entrance.escape_origin())
            .also_at("limit", at.lock.power_loss.origin.clone())
            .graded(super::limit::grade(&at.lock.head.name, "power_loss", &at.lock.power_loss));
        report.push(found);
    }
}
