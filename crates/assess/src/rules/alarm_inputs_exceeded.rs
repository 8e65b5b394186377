//! `alarm-inputs-exceeded`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static ALARM_INPUTS_EXCEEDED: "alarm-inputs-exceeded", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        let station = site.station_model(&site.stations[entrance.station]);
        let limit = &station.alarm_inputs;
        // The first input beyond the limit is where the user sees it.
        let Some(first_beyond) = entrance.alarm_inputs.get(limit.value as usize) else { continue };
        let found = finding(doc, first_beyond.origin.clone())
            .about(entrance.id.clone())
            .figures(entrance.alarm_inputs.len() as f64, f64::from(limit.value), Unit::Count)
            .with("station", station.head.name.as_str())
            .also_at("limit", limit.origin.clone())
            .graded(grade(&station.head.name, "alarm_inputs", limit));
        report.push(found);
    }
}
