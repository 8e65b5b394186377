//! `accessory-chain-too-long`

use super::limit::grade;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    /// # What it checks
    /// The number of modules in a door station's chain against its model's `accessory_modules`. A model
    /// that states no such limit is not held to one; the current is judged beside it.
    ///
    /// # Why it matters
    /// Modules are numbered along their chain. Those beyond the limit have no number and do nothing.
    ///
    /// # Example
    /// Five button modules on a door station that takes four.
    ///
    /// # What to do
    /// Take modules with more buttons, or a door station with a directory.
    pub static ACCESSORY_CHAIN_TOO_LONG: "accessory-chain-too-long", Error,
        "More modules than a door station takes", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    for entrance in &site.entrances {
        let model = site.station_model(&site.stations[entrance.station]);
        let Some(limit) = &model.accessory_modules else { continue };
        // The first module beyond the limit is where the user sees it.
        let Some(first_beyond) = entrance.accessories.get(limit.value as usize) else { continue };
        let found = finding(doc, first_beyond.origin.clone())
            .about(entrance.id.clone())
            .figures(entrance.accessories.len() as f64, f64::from(limit.value), Unit::Count)
            .with("model", model.head.name.as_str())
            .also_at("limit", limit.origin.clone())
            .graded(grade(&model.head.name, "accessory_modules", limit));
        report.push(found);
    }
}
