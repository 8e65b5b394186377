//! `alarm-inputs-exceeded`

use super::limit::grade;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    /// # What it checks
    /// The number of alarm inputs that an entrance uses against those that its door station's model has
    /// (`alarm_inputs`; a model that states none has none).
    ///
    /// # Why it matters
    /// The contact that finds no terminal is looped in with another one, and nobody knows any more what the
    /// alarm means.
    ///
    /// # Example
    /// A tamper contact and a fire alarm contact at a door station with one input.
    ///
    /// # What to do
    /// Take a door station with more inputs, or bring the contact to the alarm system itself.
    pub static ALARM_INPUTS_EXCEEDED: "alarm-inputs-exceeded", Error,
        "More alarm inputs than a door station has", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
