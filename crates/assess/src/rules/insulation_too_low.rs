//! `insulation-too-low`

use crate::rule::{Context, Report, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity, Unit};

rule! {
    /// # What it checks
    /// The measured insulation resistance of a run, between its conductors or to earth, whichever is
    /// lower. Below 0.5 Mohm is an error: the least for SELV and PELV circuits at a test voltage of 250 V DC
    /// (IEC 60364-6 table 6.1, BS 7671 table 64; quoted from memory). Below 1 Mohm is a warning (common
    /// practice, no source).
    ///
    /// # Why it matters
    /// Sound cable has hundreds of megohms. What is lower is damp, crushed or has a nail in it, and will
    /// not get better; the leakage also damps speech and shifts readings.
    ///
    /// # Example
    /// A-R3 has 0.3 Mohm to earth.
    ///
    /// # What to do
    /// Make sure that all electronics were disconnected, as they pull the reading down and 250 V destroys
    /// them. Then divide the run at a joint, measure both parts, and replace the bad one.
    pub static INSULATION_TOO_LOW: "insulation-too-low", Error,
        "The insulation of a run is too low", check
}

const LEAST_OHM: f64 = 0.5e6;
const DOUBTFUL_OHM: f64 = 1e6;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
