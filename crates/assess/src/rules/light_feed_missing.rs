//! `light-feed-missing`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::model::LightFeed;

rule! {
    /// # What it checks
    /// Lights fed from a door station (`feed = "station"`, which is the default) whose model has no output for
    /// lights: its `light_output_voltage` is not stated.
    ///
    /// # Why it matters
    /// The light is then hung on whatever terminal has voltage, which is the bus or the lock output, and takes
    /// what others need.
    ///
    /// # Example
    /// A porch light at a door station that has a lock output and nothing else.
    ///
    /// # What to do
    /// Give it a supply of its own (`feed = "own-supply"`), a light for the bus voltage on the bus (`feed =
    /// "bus"`), or take a door station with an output for lights.
    pub static LIGHT_FEED_MISSING: "light-feed-missing", Error,
        "Nothing feeds a light", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
