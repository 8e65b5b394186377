//! `measured-capacitance-differs`

use super::limit::{ROUNDING, grade};
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{Both, CodeDoc, Figure, Unit};
use latchline_network::readings::capacitance_f_per_m;
use latchline_site::catalogue::Cable;
use latchline_site::model::Run;
use latchline_words::candidates::Candidate;
use latchline_words::missing::Missing;
use latchline_words::terms::Term;

rule! {
    pub static MEASURED_CAPACITANCE_DIFFERS: "measured-capacitance-differs", Warning, check
}

/// What is let pass: the larger of these (common practice, no source).
const TOLERANCE: f64 = 0.15;
const TOLERANCE_M: f64 = 5.0;

/// The length of a run by its capacitance.
pub(super) struct Implied {
    implied_m: f64,
    stated_m: f64,
}

impl Implied {
    fn allowed_m(&self) -> f64 {
        (TOLERANCE * self.stated_m).max(TOLERANCE_M)
    }

    /// Whether it is another length than the stated one.
    pub(super) fn differs(&self) -> bool {
        (self.implied_m - self.stated_m).abs() > self.allowed_m() * (1.0 + ROUNDING)
    }

    /// Whether it differs and is longer.
    pub(super) fn is_longer(&self) -> bool {
        self.differs() && self.implied_m > self.stated_m
    }
}

/// The length of a run by its capacitance, where it was measured and the cable's is known.
pub(super) fn implied_length(run: &Run, cable: &Cable) -> Option<Implied> {
    let measured_f = run.measured.capacitance.as_ref()?.value.as_farads();
    let per_m = capacitance_f_per_m(run, cable)?;
    let stated_m = run.length().as_metres();
    (per_m > 0.0).then(|| Implied { implied_m: measured_f / per_m, stated_m })
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for run in &site.runs {
        let Some(measured) = &run.measured.capacitance else { continue };
        let cable = site.cable(run);
        let (Some(implied), Some(line)) = (implied_length(run, cable), &cable.line) else {
            let missing = Missing::key(&cable.head.name, "line.capacitance");
            report.not_judged(doc.code, run.id.clone(), missing);
            continue;
        };
        if !implied.differs() {
            continue;
        }
        let candidates: &[Candidate] = if implied.is_longer() {
            &[Candidate::Branch, Candidate::LongerCable, Candidate::DampCable]
        } else {
            &[Candidate::ShorterCable, Candidate::OpenConductor]
        };
        let candidates: Vec<Both> = candidates.iter().map(|cause| cause.argument()).collect();
        let direction = implied.implied_m - implied.stated_m;
        let limit_m = implied.stated_m + implied.allowed_m().copysign(direction);
        let found = finding(doc, measured.origin.clone())
            .about(run.id.clone())
            .figures(implied.implied_m, limit_m, Unit::Metre)
            .with("capacitance", Figure::new(measured.value.as_farads(), Unit::Farad))
            .with("length", Figure::new(implied.stated_m, Unit::Metre))
            .with("direction", if direction > 0.0 { Term::Longer } else { Term::Shorter }.both())
            .with("candidates", candidates)
            .with("cable", cable.head.name.as_str())
            .also_at("cable", line.capacitance.origin.clone())
            .graded(grade(&cable.head.name, "line.capacitance", &line.capacitance));
        report.push(found);
    }
}
