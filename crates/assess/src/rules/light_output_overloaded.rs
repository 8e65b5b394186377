//! `light-output-overloaded`

use super::limit::ROUNDING;
use crate::door::light::light_output;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::model::LightFeed;
use latchline_words::missing::Missing;

rule! {
    pub static LIGHT_OUTPUT_OVERLOADED: "light-output-overloaded", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        let station = site.station_model(&site.stations[entrance.station]);
        // Without an output at all `light-feed-missing` speaks.
        let Some(output) = light_output(context, entrance).filter(|_| station.light_output_voltage.is_some())
        else {
            continue;
        };
        let Some(limit) = &station.light_output_current else {
            let missing = Missing::key(&station.head.name, "light_output_current");
            report.not_judged(doc.code, entrance.id.clone(), missing);
            continue;
        };
        let limit_a = limit.value.as_amps();
        if output.current_a <= limit_a * (1.0 + ROUNDING) {
            continue;
        }
        let first = entrance.lights.iter().find(|used| used.feed.value == LightFeed::Station);
        let found = finding(doc, first.map_or(entrance.origin.clone(), |used| used.origin.clone()))
            .about(entrance.id.clone())
            .figures(output.current_a, limit_a, Unit::Ampere)
            .with("lights", output.lights)
            .with("station", station.head.name.as_str())
            .also_at("limit", limit.origin.clone())
            .graded(output.assumed.grade());
        report.push(found);
    }
}
