//! `too-many-stations-in-dwelling`

use super::limit::grade;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    /// # What it checks
    /// The stations of each dwelling, its main one included, against the family's
    /// `stations_per_dwelling`. A family that states no such limit is not held to one.
    ///
    /// # Why it matters
    /// All stations of a dwelling ring at once. What is beyond the limit has no number of its own, does not
    /// ring, or cannot take the call.
    ///
    /// # Example
    /// The penthouse has a main station and four extensions; the family allows four stations.
    ///
    /// # What to do
    /// Leave an extension out. Where the family allows it, an additional bell can take its place.
    pub static TOO_MANY_STATIONS_IN_DWELLING: "too-many-stations-in-dwelling", Error,
        "More stations in one dwelling than the family allows", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
