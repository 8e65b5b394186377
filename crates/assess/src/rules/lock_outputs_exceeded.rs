//! `lock-outputs-exceeded`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static LOCK_OUTPUTS_EXCEEDED: "lock-outputs-exceeded", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        let model = site.station_model(&site.stations[entrance.station]);
        let outputs = &model.lock_outputs;
        let beyond = entrance.locks.get(outputs.value as usize);
        let Some(first_beyond) = beyond else { continue };
        let found = finding(doc, first_beyond.origin.clone())
            .about(entrance.id.clone())
            .figures(entrance.locks.len() as f64, f64::from(outputs.value), Unit::Count)
            .with("station", model.head.name.as_str())
            .also_at("limit", outputs.origin.clone())
            .graded(super::limit::grade(&model.head.name, "lock_outputs", outputs));
        report.push(found);
    }
}
