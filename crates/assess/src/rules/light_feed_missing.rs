//! `light-feed-missing`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::model::LightFeed;

rule! {
    pub static LIGHT_FEED_MISSING: "light-feed-missing", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        let station = site.station_model(&site.stations[entrance.station]);
        if station.light_output_voltage.is_some() {
            continue;
        }
        for (index, used) in entrance.lights.iter().enumerate() {
            if used.feed.value != LightFeed::Station {
                continue;
            }
            let found = finding(doc, used.origin.clone())
                .about(entrance.id.clone())
                .with("light", used.model.value.as_str())
                .with("number", index + 1)
                .with("station", station.head.name.as_str());
            report.push(found);
        }
    }
}
