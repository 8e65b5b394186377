//! `beside-mains`

use super::limit::grade;
use crate::rule::{Context, Report, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity};

rule! {
    /// # What it checks
    /// Runs that share a route with mains cables without separation (`beside_mains = true`) on a cable that is
    /// not insulated for mains voltage: a warning, or a piece of advice if the cable has a screen.
    ///
    /// # Why it matters
    /// If the mains insulation fails there, mains voltage gets onto terminals that people touch, in
    /// every flat at once. BS 7671 regulation 528.1 lets circuits of the two voltage bands share an enclosure
    /// only if all of them are insulated for the highest voltage present, or an earthed screen or a
    /// partition keeps them apart; IEC 60364 and most national codes ask for something of the kind. Besides, mains
    /// hums on the pair: EN 50174-2 gives distances for data cables (200 mm between unscreened cables
    /// without a divider in its edition of 2000; later editions compute them otherwise).
    ///
    /// # Example
    /// A-R2 lies in the trunking of the lighting circuit.
    ///
    /// # What to do
    /// Give it a route of its own, or a partition; let the responsible electrician decide by the code that
    /// holds on site.
    pub static BESIDE_MAINS: "beside-mains", Warning,
        "Extra-low voltage beside mains without separation", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for run in &context.site.runs {
        let cable = context.site.cable(run);
        if !run.beside_mains.value || cable.mains_insulated.value {
            continue;
        }
        let found = if cable.screened.value {
            finding_as(doc, Severity::Advice, run.beside_mains.origin.clone())
        } else {
            finding(doc, run.beside_mains.origin.clone())
        };
        let found = found
            .about(run.id.clone())
            .with("cable", cable.head.name.as_str())
            .with("screen", if cable.screened.value { "screened" } else { "unscreened" })
            .also_at("cable", cable.mains_insulated.origin.clone())
            .graded(grade(&cable.head.name, "mains_insulated", &cable.mains_insulated));
        report.push(found);
    }
}
