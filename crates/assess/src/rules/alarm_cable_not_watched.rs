//! `alarm-cable-not-watched`

use crate::door::alarm::{alarm_sheets, kind_word};
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static ALARM_CABLE_NOT_WATCHED: "alarm-cable-not-watched", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for entrance in &context.site.entrances {
        for sheet in alarm_sheets(context, entrance).into_iter().filter(|sheet| sheet.cut_passes_unnoticed) {
            let input = &entrance.alarm_inputs[sheet.number - 1];
            let found = finding(doc, input.contact.origin.clone())
                .about(entrance.id.clone())
                .with("kind", kind_word(sheet.kind).both())
                .with("number", sheet.number);
            report.push(found);
        }
    }
}
