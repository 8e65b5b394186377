//! `alarm-loop-too-long`

use super::limit::ROUNDING;
use crate::door::alarm::{alarm_sheets, kind_word};
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    /// # What it checks
    /// The resistance of the cable to every contact at an alarm input, both conductors with their joints, hot,
    /// long and at the upper end of tolerance, against the greatest at which the door station still reads a closed
    /// loop (`alarm_loop_resistance`). Without cable, length or that figure it is not judged.
    ///
    /// # Why it matters
    /// A loop that is read as open is an alarm that stands for ever and is switched off in the end; a contact
    /// that closes on alarm is never seen.
    ///
    /// # Example
    /// 150 m of 0.5 mm pair, 27 ohm, on an input that reads up to 20 ohm.
    ///
    /// # What to do
    /// Thicker conductors, a shorter way, or an input that reads more.
    pub static ALARM_LOOP_TOO_LONG: "alarm-loop-too-long", Error,
        "The loop of an alarm input has too much resistance", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    for entrance in &site.entrances {
        let station = site.station_model(&site.stations[entrance.station]);
        // What is beyond the station's inputs is told by `alarm-inputs-exceeded`.
        for sheet in alarm_sheets(context, entrance).into_iter().take(station.alarm_inputs.value as usize) {
            let Some(limit_ohm) = sheet.limit_ohm else {
                let missing = format!("{} alarm_loop_resistance", station.head.name);
                report.not_judged(doc.code, entrance.id.clone(), missing);
                continue;
            };
            let cable = match &sheet.cable {
                Ok(cable) => cable,
                Err(missing) => {
                    report.not_judged(doc.code, entrance.id.clone(), missing.join(", "));
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
                .with("kind", kind_word(sheet.kind))
                .with("number", sheet.number)
                .with("station", station.head.name.as_str())
                .graded(sheet.assumed.grade());
            report.push(found);
        }
    }
}
