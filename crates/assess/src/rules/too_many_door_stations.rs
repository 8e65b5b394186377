//! `too-many-door-stations`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use std::collections::BTreeMap;

rule! {
    pub static TOO_MANY_DOOR_STATIONS: "too-many-door-stations", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let family = site.family();
    let Some(limit) = &family.door_stations else { return };
    // Buses that no wire joins know nothing of each other; stations that hang on nothing count as one bus.
    let mut by_bus: BTreeMap<_, Vec<_>> = BTreeMap::new();
    for entrance in &site.entrances {
        by_bus.entry(context.topology.signal.station[entrance.station]).or_default().push(entrance);
    }
    for entrances in by_bus.values() {
        // The first one beyond the limit is where the user sees it.
        let Some(first_beyond) = entrances.get(limit.value as usize) else { continue };
        let found = finding(doc, first_beyond.origin.clone())
            .about(first_beyond.id.clone())
            .figures(entrances.len() as f64, f64::from(limit.value), Unit::Count)
            .with("family", family.head.name.as_str())
            .also_at("limit", limit.origin.clone())
            .graded(grade(&family.head.name, "door_stations", limit));
        report.push(found);
    }
}
