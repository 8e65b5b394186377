//! Readings of a run alone, without power.

use super::predictor::Predictor;
use super::{Basis, NoPrediction, Prediction};
use crate::corner::Corner;
use crate::resistance::MEASUREMENT_TOLERANCE;
use latchline_finding::Provenance;
use latchline_site::catalogue::{Cable, LineConstants};
use latchline_site::model::{Run, Site};

/// Loop resistance with the far end short-circuited, at the temperatures of the corners.
pub(super) fn loop_resistance(from: &Predictor<'_>, run: usize) -> Prediction {
    let sections = &from.layout.sections[run];
    let total = |corner: Corner| -> f64 { sections.iter().map(|section| section.bare_ohm(corner)).sum() };
    let is_measured = from.site.runs[run].measured.loop_resistance.is_some();
    let basis = if is_measured { Basis::Measured } else { Basis::Cable };
    Prediction::of_corners(Corner::ALL.map(|corner| (total(corner), false)), basis)
}

/// How far the capacitance of a metre may lie above or below one that is assumed, as a fraction (common practice, no source: pairs of
/// one size run from some 45 to 65 nF/km).
const ASSUMED_CAPACITANCE_TOLERANCE: f64 = 0.2;

/// Capacitance with the far end open. Where it was not measured the tolerance is that of the length, and where the capacitance of a
/// metre is assumed that of such a guess too: catalogues give none for what they state.
pub(super) fn capacitance(site: &Site, run: usize) -> Result<Prediction, NoPrediction> {
    let run = &site.runs[run];
    let (nominal_f, tolerance, of_metre, basis) = match &run.measured.capacitance {
        Some(measured) => (measured.value.as_farads(), MEASUREMENT_TOLERANCE, 0.0, Basis::Measured),
        None => {
            let cable = site.cable(run);
            let per_m = capacitance_f_per_m(run, cable).ok_or(NoPrediction::CapacitanceUnknown)?;
            let is_assumed = |line: &LineConstants| line.capacitance.provenance == Provenance::Assumed;
            let (of_metre, basis) = match cable.line.as_ref().is_some_and(is_assumed) {
                true => (ASSUMED_CAPACITANCE_TOLERANCE, Basis::AssumedCable),
                false => (0.0, Basis::Cable),
            };
            let of_length = site.conditions.length_tolerance.value.as_fraction();
            (per_m * run.length().as_metres(), of_length, of_metre, basis)
        }
    };
    let figures = Corner::ALL.map(|corner| match corner {
        Corner::Nominal => nominal_f,
        Corner::Adverse => nominal_f * (1.0 + tolerance) * (1.0 + of_metre),
        Corner::Light => nominal_f * (1.0 - tolerance).max(0.0) * (1.0 - of_metre),
    });
    Ok(Prediction::of_corners(figures.map(|figure| (figure, false)), basis))
}

/// Capacitance of a metre of a run in farads, its pairs in parallel adding theirs; `None` where the cable's is not known.
pub fn capacitance_f_per_m(run: &Run, cable: &Cable) -> Option<f64> {
    let per_m = cable.line.as_ref()?.capacitance.value.as_farads_per_metre();
    Some(per_m * run.pairs_in_parallel())
}
