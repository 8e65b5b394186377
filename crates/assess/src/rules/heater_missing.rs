//! `heater-missing`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    /// # What it checks
    /// Entrances with `heater = true` whose door station's model states no `heater_extra`: it has no heater, or
    /// what the heater draws is not known.
    ///
    /// # Why it matters
    /// A heater is the largest load of many a door station, and it is on in the night that decides over the
    /// battery. Without its figure it is in no load, and the verdict is too good.
    ///
    /// # Example
    /// `heater = true` at an audio door station without a heater.
    ///
    /// # What to do
    /// Take a model with a heater, state the `heater_extra` of the model, or leave `heater` out.
    pub static HEATER_MISSING: "heater-missing", Warning,
        "A heater that is in no load", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
