//! `too-many-door-stations`

use super::limit::grade;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    /// # What it checks
    /// The number of door stations on site against the family's `door_stations`. A family that states
    /// no such limit is not held to one.
    ///
    /// # Why it matters
    /// The system tells its door stations apart by number and lets one of them speak at a time; beyond
    /// its limit calls are lost, or two doors answer to one release button.
    ///
    /// # Example
    /// Eleven entrances; the family allows ten door stations.
    ///
    /// # What to do
    /// Divide the site into two systems, or leave a little-used entrance with a key or reader only.
    pub static TOO_MANY_DOOR_STATIONS: "too-many-door-stations", Error,
        "More door stations than the family allows", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    let family = site.family();
    let Some(limit) = &family.door_stations else { return };
    // The first one beyond the limit is where the user sees it.
    let Some(first_beyond) = site.entrances.get(limit.value as usize) else { return };
    let found = finding(doc, first_beyond.origin.clone())
        .about(first_beyond.id.clone())
        .figures(site.entrances.len() as f64, f64::from(limit.value), Unit::Count)
        .with("family", family.head.name.as_str())
        .also_at("limit", limit.origin.clone())
        .graded(grade(&family.head.name, "door_stations", limit));
    report.push(found);
}
