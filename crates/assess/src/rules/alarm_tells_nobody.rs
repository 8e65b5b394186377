//! `alarm-tells-nobody`

use crate::door::alarm::{AlarmSheet, alarm_sheets, kind_word};
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static ALARM_TELLS_NOBODY: "alarm-tells-nobody", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for entrance in &context.site.entrances {
        let is_unheard = |sheet: &AlarmSheet| sheet.tells.is_empty() && !sheet.releases_locks;
        for sheet in alarm_sheets(context, entrance).into_iter().filter(is_unheard) {
            let input = &entrance.alarm_inputs[sheet.number - 1];
            let found = finding(doc, input.origin.clone())
                .about(entrance.id.clone())
                .with("kind", kind_word(sheet.kind).both())
                .with("number", sheet.number);
            report.push(found);
        }
    }
}
