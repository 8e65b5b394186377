//! `relay-on-unsecure-side`

use crate::door::LockAt;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static RELAY_ON_UNSECURE_SIDE: "relay-on-unsecure-side", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let Some(stated) = at.used.relay_on_secure_side.as_ref().filter(|stated| !stated.value) else {
            continue;
        };
        report.push(at.describe(finding(doc, stated.origin.clone())));
    }
}
