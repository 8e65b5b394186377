//! `too-many-stations-in-dwelling`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static TOO_MANY_STATIONS_IN_DWELLING: "too-many-stations-in-dwelling", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let family = site.family();
    let Some(limit) = &family.stations_per_dwelling else { return };
    for dwelling in &site.dwellings {
        let Some(&first_beyond) = dwelling.stations.get(limit.value as usize) else { continue };
        let found = finding(doc, site.stations[first_beyond].origin.clone())
            .about(dwelling.id.clone())
            .figures(dwelling.stations.len() as f64, f64::from(limit.value), Unit::Count)
            .with("family", family.head.name.as_str())
            .also_at("limit", limit.origin.clone())
            .graded(grade(&family.head.name, "stations_per_dwelling", limit));
        report.push(found);
    }
}
