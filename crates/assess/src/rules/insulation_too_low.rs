//! `insulation-too-low`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static INSULATION_TOO_LOW: "insulation-too-low", Error, check
}

/// Insulation below which a cable must not be used, in ohms.
pub const LEAST_OHM: f64 = 0.5e6;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for run in &context.site.runs {
        let Some(measured) = &run.measured.insulation else { continue };
        let ohm = measured.value.as_ohms();
        if ohm < LEAST_OHM {
            let found = finding(doc, measured.origin.clone());
            report.push(found.about(run.id.clone()).figures(ohm, LEAST_OHM, Unit::Ohm));
        }
    }
}
