//! `heater-missing`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static HEATER_MISSING: "heater-missing", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in site.entrances.iter().filter(|entrance| entrance.heater.value) {
        let station = site.station_model(&site.stations[entrance.station]);
        if station.heater_extra.is_none() {
            let found = finding(doc, entrance.heater.origin.clone())
                .about(entrance.id.clone())
                .with("station", station.head.name.as_str());
            report.push(found);
        }
    }
}
