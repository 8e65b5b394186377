//! `accessory-chain-too-long`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static ACCESSORY_CHAIN_TOO_LONG: "accessory-chain-too-long", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        let model = site.station_model(&site.stations[entrance.station]);
        let Some(limit) = &model.accessory_modules else { continue };
        // The first module beyond the limit is where the user sees it.
        let Some(first_beyond) = entrance.accessories.get(limit.value as usize) else { continue };
        let found = finding(doc, first_beyond.origin.clone())
            .about(entrance.id.clone())
            .figures(entrance.accessories.len() as f64, f64::from(limit.value), Unit::Count)
            .with("model", model.head.name.as_str())
            .also_at("limit", limit.origin.clone())
            .graded(grade(&model.head.name, "accessory_modules", limit));
        report.push(found);
    }
}
