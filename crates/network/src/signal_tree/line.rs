//! A cable as a line.

use crate::resistance::conductor_ohm_per_m;
use latchline_circuit::signal::{Line, LineLaw, PlainLine};
use latchline_site::model::{Run, Site};

/// The line of a run's cable with the most loss that its tolerances allow; `None` without line constants or with
/// values that no line has.
///
/// `R(f) = R (1 + (f/fc)²)^¼` with the skin corner `fc`; L and C constant; `G = w C tan d`. The resistance is that
/// at the hottest temperature and upper tolerance, or the measured loop corrected to the hottest temperature.
pub(super) fn line_of(site: &Site, run: &Run) -> Option<Line> {
    let cable = site.cable(run);
    let constants = cable.line.as_ref()?;
    let conditions = &site.conditions;
    let hot = conductor_ohm_per_m(cable, conditions.hottest_temperature.value.as_celsius());
    let length_m: f64 = run.sections.iter().map(|section| section.length.value.as_metres()).sum();
    let pairs = run.pairs.value.max(1);
    let one_pair_ohm_per_m = match &run.measured.loop_resistance {
        Some(measured) if length_m > 0.0 => {
            let usual = conductor_ohm_per_m(cable, conditions.usual_temperature.value.as_celsius());
            measured.value.as_ohms() * f64::from(pairs) / length_m * (hot / usual)
        }
        _ => 2.0 * hot * (1.0 + cable.resistance_tolerance.value.as_fraction()),
    };
    let measured_f = run.measured.capacitance.as_ref().filter(|_| length_m > 0.0);
    let capacitance = measured_f.map_or(constants.capacitance.value.as_farads_per_metre(), |measured| {
        measured.value.as_farads() / (length_m * f64::from(pairs))
    });
    let law = LineLaw::Plain(PlainLine {
        r_ohm_per_m: one_pair_ohm_per_m,
        l_h_per_m: constants.inductance.value.as_henries_per_metre(),
        c_f_per_m: capacitance,
        g_s_per_m: 0.0,
        skin_corner_hz: Some(constants.skin_corner.value.as_hertz()),
        loss_tangent: constants.loss_tangent.value.as_fraction(),
    });
    Line::new(law).and_then(|line| line.with_pairs(pairs)).ok()
}
