//! Loop resistance of every section of a run, by corner.
//!
//! A section of length `L` has the loop resistance `(2 r L + 4 j) / p + s`: two conductors of `r` ohm
//! per metre, a terminal of `j` ohm at each end of each conductor, `p` pairs in parallel, `s` ohm of the surge protectors at its ends.
//! Extra joints of a run, `2 j` each, are shared out by length.
//!
//! | corner | temperature | length | conductor |
//! |---|---|---|---|
//! | nominal | usual | as stated | as the catalogue says |
//! | adverse | hottest | upper tolerance | upper tolerance |
//! | light | coldest | lower tolerance | lower tolerance |
//!
//! Where the loop resistance of a run was measured it takes the place of all this: shared out by
//! length, corrected from the usual temperature, with [`MEASUREMENT_TOLERANCE`].

use crate::corner::Corner;
pub use latchline_site::catalogue::{conductor, conductor_ohm_per_m, loop_ohm_per_km};
use latchline_site::model::{Run, Site};
use latchline_site::protectors;

/// Error of a loop resistance or capacitance measured on site, either way (common practice, no source).
pub const MEASUREMENT_TOLERANCE: f64 = 0.02;

/// Length and loop resistance of one section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SectionResistance {
    /// Stated length in metres.
    pub length_m: f64,
    /// Loop resistance in ohms, by corner.
    pub ohm: [f64; 3],
    /// Surge protectors in it, in ohms: they are not in the loop that a meter reads of the bare cable.
    pub protection_ohm: f64,
}

impl SectionResistance {
    /// Loop resistance of the cable alone, protectors off, in ohms.
    pub fn bare_ohm(&self, corner: Corner) -> f64 {
        self.ohm[corner.index()] - self.protection_ohm
    }
}

/// Lengths and resistances of the sections of a run.
pub fn section_resistances(site: &Site, run: &Run) -> Vec<SectionResistance> {
    let total_m = run.length().as_metres();
    let corner_values = Corner::ALL.map(|corner| CornerValues::of(site, run, corner, total_m));
    let protectors = protectors::of_sections(site, run);
    run.sections
        .iter()
        .zip(protectors)
        .map(|(section, protectors)| {
            let length_m = section.length.value.as_metres();
            let protection_ohm = protectors.ohm();
            let ohm = corner_values.map(|values| values.section(length_m, total_m) + protection_ohm);
            SectionResistance { length_m, ohm, protection_ohm }
        })
        .collect()
}

/// What a corner needs to know of a run.
#[derive(Clone, Copy)]
struct CornerValues {
    /// Loop resistance per metre of pairs in parallel, at the corner's length.
    per_metre: f64,
    /// Terminals of one section.
    terminals: f64,
    /// Spread over the whole run by length: joints, or a measured loop.
    spread: f64,
}

impl CornerValues {
    fn of(site: &Site, run: &Run, corner: Corner, total_m: f64) -> Self {
        let conditions = &site.conditions;
        let cable = site.cable(run);
        let (temperature, sign) = match corner {
            Corner::Nominal => (&conditions.usual_temperature, 0.0),
            Corner::Adverse => (&conditions.hottest_temperature, 1.0),
            Corner::Light => (&conditions.coldest_temperature, -1.0),
        };
        let celsius = temperature.value.as_celsius();
        let per_metre = conductor_ohm_per_m(cable, celsius);
        if let Some(measured) = &run.measured.loop_resistance {
            let usual = conductor_ohm_per_m(cable, conditions.usual_temperature.value.as_celsius());
            let by_temperature = per_metre / usual;
            let spread = measured.value.as_ohms() * by_temperature * (1.0 + sign * MEASUREMENT_TOLERANCE);
            return CornerValues { per_metre: 0.0, terminals: 0.0, spread };
        }
        let pairs = run.pairs_in_parallel();
        let tolerance = |ratio: f64| (1.0 + sign * ratio).max(0.0);
        let by_tolerance = tolerance(cable.resistance_tolerance.value.as_fraction())
            * tolerance(conditions.length_tolerance.value.as_fraction());
        let joint = conditions.joint_resistance.value;
        CornerValues {
            per_metre: 2.0 * per_metre * by_tolerance / pairs,
            terminals: run.terminals_ohm(joint),
            spread: if total_m > 0.0 { run.joints_ohm(joint) } else { 0.0 },
        }
    }

    fn section(self, length_m: f64, total_m: f64) -> f64 {
        let share = if total_m > 0.0 { length_m / total_m } else { 0.0 };
        self.per_metre * length_m + self.terminals + share * self.spread
    }
}
