//! `entrance-without-lock`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::model::EntranceRole;

rule! {
    pub static ENTRANCE_WITHOUT_LOCK: "entrance-without-lock", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for entrance in &context.site.entrances {
        if entrance.locks.is_empty() {
            let role = match entrance.role.value {
                EntranceRole::Main => "main",
                EntranceRole::Secondary => "secondary",
            };
            report.push(finding(doc, entrance.origin.clone()).about(entrance.id.clone()).with("role", role));
        }
    }
}
