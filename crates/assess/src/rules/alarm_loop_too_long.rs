//! `alarm-loop-too-long`

use super::limit::ROUNDING;
use crate::door::alarm::{alarm_sheets, kind_word};
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_words::missing::Missing;

rule! {
    pub static ALARM_LOOP_TOO_LONG: "alarm-loop-too-long", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        let station = site.station_model(&site.stations[entrance.station]);
        // What is beyond the station's inputs is told by `alarm-inputs-exceeded`.
        for sheet in alarm_sheets(context, entrance).into_iter().take(station.alarm_inputs.value as usize) {
            let Some(limit_ohm) = sheet.limit_ohm else {
                let missing = Missing::key(&station.head.name, "alarm_loop_resistance");
                report.not_judged(doc.code, entrance.id.clone(), missing);
                continue;
            };
            let cable = match &sheet.cable {
                Ok(cable) => cable,
                Err(missing) => {
                    let all = missing.iter().cloned().reduce(|all, one| all.and(&one));
                    if let Some(missing) = all {
                        report.not_judged(doc.code, entrance.id.clone(), missing);
                    }
                    continue;
                }
            };
            if cable.adverse_ohm <= limit_ohm * (1.0 + ROUNDING) {
                continue;
            }
            let input = &entrance.alarm_inputs[sheet.number - 1];
            let found = finding(doc, input.origin.clone())
                .about(entrance.id.clone())
                .figures(cable.adverse_ohm, limit_ohm, Unit::Ohm)
                .with("kind", kind_word(sheet.kind).both())
                .with("number", sheet.number)
                .with("station", station.head.name.as_str())
                .graded(sheet.assumed.grade());
            report.push(found);
        }
    }
}
