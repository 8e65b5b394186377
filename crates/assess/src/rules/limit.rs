//! What the rules that hold a figure against one catalogue value have in common. Not a rule.

use latchline_finding::{DataGrade, Provenance, Sourced};

/// Sums of stated lengths that pass a limit by less than this are at the limit: decimal fractions
/// do not add up exactly in binary.
pub(super) const LENGTH_ROUNDING_M: f64 = 1e-6;

/// The same for ratios, currents and resistances, as a fraction.
pub(super) const ROUNDING: f64 = 1e-9;

/// The grade of a judgement that rests on one value of a part.
pub(super) fn grade<T>(part: &str, key: &str, value: &Sourced<T>) -> DataGrade {
    match value.provenance {
        Provenance::Assumed => DataGrade::Assumed(vec![format!("{part} {key}")]),
        _ => DataGrade::Known,
    }
}
