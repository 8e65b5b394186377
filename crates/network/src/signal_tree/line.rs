//! A cable as a line.

use super::lengths::CableLengths;
use crate::resistance::conductor_ohm_per_m;
use latchline_circuit::signal::fit::{Known, LossRow, fit_loss_table};
use latchline_circuit::signal::{Line, LineLaw, PlainLine};
use latchline_site::catalogue::{Cable, LineRest};
use latchline_site::model::{Run, Site};

/// What a pair of a cable is besides its resistance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PairConstants {
    /// Capacitance in farad per metre.
    pub c_f_per_m: f64,
    /// Inductance of the loop in henry per metre.
    pub l_h_per_m: f64,
    /// Frequency in hertz above which the resistance grows with its square root.
    pub skin_corner_hz: f64,
    /// Loss tangent of the insulation.
    pub loss_tangent: f64,
}

/// A fit that misses a loss by more than this is none.
const WORST_FIT: f64 = 0.1;

/// The constants of a cable's pair, as stated, or fitted to its losses
/// ([`fit_loss_table`]) with its resistance at 20 °C; `None` without either, or where a fit misses a
/// loss by more than a tenth.
pub fn pair_constants(cable: &Cable) -> Option<PairConstants> {
    let line = cable.line.as_ref()?;
    let c_f_per_m = line.capacitance.value.as_farads_per_metre();
    match &line.rest {
        LineRest::Constants { inductance, skin_corner, loss_tangent } => Some(PairConstants {
            c_f_per_m,
            l_h_per_m: inductance.value.as_henries_per_metre(),
            skin_corner_hz: skin_corner.value.as_hertz(),
            loss_tangent: loss_tangent.value.as_fraction(),
        }),
        LineRest::Losses { inductance, rows } => {
            let table: Vec<LossRow> = rows
                .iter()
                .map(|row| LossRow {
                    frequency_hz: row.frequency.value.as_hertz(),
                    loss_db_per_m: row.loss_per_100_m.value.as_decibels() / 100.0,
                })
                .collect();
            let known = Known {
                r_ohm_per_m: 2.0 * conductor_ohm_per_m(cable, 20.0),
                c_f_per_m,
                l_h_per_m: inductance.as_ref().map(|value| value.value.as_henries_per_metre()),
            };
            let fit = fit_loss_table(&table, known).ok().filter(|fit| fit.greatest_relative <= WORST_FIT)?;
            Some(PairConstants {
                c_f_per_m,
                l_h_per_m: fit.line.l_h_per_m,
                skin_corner_hz: fit.line.skin_corner_hz?,
                loss_tangent: fit.line.loss_tangent,
            })
        }
    }
}

/// The line of a run's cable at the lengths that are taken; `None` without line constants or with values that no line has.
///
/// `R(f) = R (1 + (f/fc)²)^¼` with the skin corner `fc`; L and C constant; `G = w C tan d`. A measured loop or capacitance
/// is that of the whole run, however long it is, within the error of measuring.
pub(super) fn line_of(
    site: &Site,
    run: &Run,
    constants: PairConstants,
    lengths: CableLengths,
) -> Option<Line> {
    let (conditions, pairs) = (&site.conditions, run.pairs.value.max(1));
    let law = LineLaw::Plain(PlainLine {
        r_ohm_per_m: lengths.one_pair_ohm_per_m(conditions, site.cable(run), run),
        l_h_per_m: constants.l_h_per_m,
        c_f_per_m: lengths.one_pair_f_per_m(conditions, constants.c_f_per_m, run),
        g_s_per_m: 0.0,
        skin_corner_hz: Some(constants.skin_corner_hz),
        loss_tangent: constants.loss_tangent,
    });
    Line::new(law).and_then(|line| line.with_pairs(pairs)).ok()
}
