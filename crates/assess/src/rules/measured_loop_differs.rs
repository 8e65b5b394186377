//! `measured-loop-differs`

use super::limit::ROUNDING;
use super::measured_capacitance_differs::{Implied, implied_length};
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{Argument, Both, CodeDoc, Figure, Finding, Severity, Unit};
use latchline_network::Corner;
use latchline_network::resistance::{conductor_ohm_per_m, section_resistances};
use latchline_site::model::{Run, Site};
use latchline_words::candidates::Candidate;
use latchline_words::terms::Term;

rule! {
    pub static MEASURED_LOOP_DIFFERS: "measured-loop-differs", Warning or Error, check
}

/// What is let pass: this share of what is expected, or more where an ohm decides (common practice, no source).
const TOLERANCE: f64 = 0.15;
/// More by this is nothing but a joint (common practice, no source).
const JOINT_OHM: f64 = 1.0;
/// Less by this is the meter with its leads (common practice, no source); nothing else than better joints makes a loop of the right cable smaller.
const METER_OHM: f64 = 0.2;

/// No cable that is mistaken for another has less than this share of its loop: two sizes of bell wire apart are two fifths (0.5 and 0.8 mm, by
/// the squares of their diameters).
const IMPOSSIBLE_SHARE: f64 = 0.2;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for run in &site.runs {
        let Some(measured) = &run.measured.loop_resistance else { continue };
        let measured_ohm = measured.value.as_ohms();
        let expected_ohm = expected_loop_ohm(site, run);
        let celsius = site.conditions.usual_temperature.value.as_celsius();
        let cable = site.cable(run);
        let per_m = 2.0 * conductor_ohm_per_m(cable, celsius) / run.pairs_in_parallel();
        let stated_m = run.length().as_metres();
        let joints_ohm = (expected_ohm - per_m * stated_m).max(0.0);
        let excess_ohm = measured_ohm - expected_ohm;
        let least_ohm = if excess_ohm > 0.0 { JOINT_OHM } else { joints_ohm + METER_OHM };
        let allowed_ohm = (TOLERANCE * expected_ohm).max(least_ohm);
        if excess_ohm.abs() <= allowed_ohm * (1.0 + ROUNDING) {
            continue;
        }
        let limit_ohm = expected_ohm + allowed_ohm.copysign(excess_ohm);
        // Voltages are reckoned with what was measured: a reading that no cable can have makes them all look well.
        // The joints alone have more, or a cable a fifth of what is stated.
        let is_impossible =
            excess_ohm < 0.0 && measured_ohm < joints_ohm.max(IMPOSSIBLE_SHARE * expected_ohm);
        let start = if is_impossible {
            finding_as(doc, Severity::Error, measured.origin.clone())
        } else {
            finding(doc, measured.origin.clone())
        };
        let mut all_candidates = candidates(run, cable, excess_ohm > 0.0);
        if measured_ohm > SLIP_OF_THE_UNIT * expected_ohm {
            all_candidates.insert(0, Candidate::SlipOfTheUnit.argument());
        }
        let mut found = start
            .about(run.id.clone())
            .figures(measured_ohm, limit_ohm, Unit::Ohm)
            .with("expected", Figure::new(expected_ohm, Unit::Ohm))
            .with("excess", Figure::new(excess_ohm, Unit::Ohm))
            .with("direction", if excess_ohm > 0.0 { Term::Higher } else { Term::Lower }.both())
            .with("candidates", all_candidates)
            .with("cable", cable.head.name.as_str())
            .with("length", Figure::new(stated_m, Unit::Metre))
            .also_at("cable", run.cable.origin.clone());
        if expected_ohm > 0.0 {
            found = found.with("ratio", Figure::new(measured_ohm / expected_ohm, Unit::Ratio));
        }
        let implied_m = stated_m + excess_ohm / per_m;
        if per_m > 0.0 && implied_m > 0.0 {
            found = found.with("implied_length", Figure::new(implied_m, Unit::Metre));
        }
        report.push(found);
    }
}

/// So many times what is due looks like a slip of the unit rather than like a joint (common practice, no source).
const SLIP_OF_THE_UNIT: f64 = 100.0;

/// Whether a loop was read that is so far from its cable's that the figure itself is in doubt.
pub fn is_far_off(found: &Finding) -> bool {
    let Some(Argument::Figure(expected)) = found.argument("expected") else { return false };
    found.code == MEASURED_LOOP_DIFFERS.doc.code
        && found.value.is_some_and(|value| value.value > SLIP_OF_THE_UNIT * expected.value)
}

/// What can make the loop so, likeliest first.
fn candidates(run: &Run, cable: &latchline_site::catalogue::Cable, is_higher: bool) -> Vec<Both> {
    let by_capacitance = implied_length(run, cable);
    let length_is_right = by_capacitance.as_ref().is_some_and(|implied| !implied.differs());
    let is_longer = by_capacitance.as_ref().is_some_and(Implied::is_longer);
    let causes: &[Candidate] = match (is_higher, length_is_right) {
        (true, true) => &[Candidate::Joint, Candidate::ThinnerConductor],
        (true, false) if is_longer => {
            &[Candidate::LongerCable, Candidate::Joint, Candidate::ThinnerConductor]
        }
        (true, false) => &[Candidate::Joint, Candidate::ThinnerConductor, Candidate::LongerCable],
        (false, true) => {
            &[Candidate::ThickerConductor, Candidate::PairsInParallel, Candidate::ShortCircuitOnTheWay]
        }
        (false, false) => &[
            Candidate::ShorterCable,
            Candidate::ThickerConductor,
            Candidate::PairsInParallel,
            Candidate::ShortCircuitOnTheWay,
        ],
    };
    causes.iter().map(|cause| cause.argument()).collect()
}

/// Nominal loop resistance of a run as stated, without its measurement and surge protectors.
pub(crate) fn expected_loop_ohm(site: &Site, run: &Run) -> f64 {
    let mut stated = run.clone();
    stated.measured.loop_resistance = None;
    section_resistances(site, &stated).iter().map(|section| section.bare_ohm(Corner::Nominal)).sum()
}
