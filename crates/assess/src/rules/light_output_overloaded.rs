//! `light-output-overloaded`

use super::limit::ROUNDING;
use crate::door::light::light_output;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::model::LightFeed;

rule! {
    /// # What it checks
    /// The current of all lights that hang on a door station's light output, all of them on, against the
    /// `light_output_current` of its model. A model that states no such current is not judged.
    ///
    /// # Why it matters
    /// The output folds back, and all lights go dim together; or it takes the door station down with it.
    ///
    /// # Example
    /// Two porch lights of 3 W at 12 V, 0.5 A in all, on an output of 0.3 A.
    ///
    /// # What to do
    /// Fewer or weaker lights, or a supply of their own (`feed = "own-supply"`).
    pub static LIGHT_OUTPUT_OVERLOADED: "light-output-overloaded", Error,
        "The lights draw more than the door station's output gives", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    for entrance in &site.entrances {
        let station = site.station_model(&site.stations[entrance.station]);
        // Without an output at all `light-feed-missing` speaks.
        let Some(output) = light_output(context, entrance).filter(|_| station.light_output_voltage.is_some())
        else {
            continue;
        };
        let Some(limit) = &station.light_output_current else {
            let missing = format!("{} light_output_current", station.head.name);
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
