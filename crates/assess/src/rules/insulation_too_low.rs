//! `insulation-too-low`

use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity, Unit};

rule! {
    pub static INSULATION_TOO_LOW: "insulation-too-low", Error or Warning, check
}

/// Insulation below which a cable must not be used, in ohms.
pub const LEAST_OHM: f64 = 0.5e6;
const DOUBTFUL_OHM: f64 = 1e6;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for run in &context.site.runs {
        let Some(measured) = &run.measured.insulation else { continue };
        let ohm = measured.value.as_ohms();
        let (found, limit_ohm) = if ohm < LEAST_OHM {
            (finding(doc, measured.origin.clone()), LEAST_OHM)
        } else if ohm < DOUBTFUL_OHM {
            (finding_as(doc, Severity::Warning, measured.origin.clone()), DOUBTFUL_OHM)
        } else {
            continue;
        };
        report.push(found.about(run.id.clone()).figures(ohm, limit_ohm, Unit::Ohm));
    }
}
