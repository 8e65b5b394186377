//! `terminator-without-capacitor`

use super::limit::ROUNDING;
use crate::rule::{Context, Report, finding, finding_as, rule};
use latchline_finding::{CodeDoc, DataGrade, Figure, Provenance, Severity, Unit};
use latchline_network::Corner;

rule! {
    /// # What it checks
    /// Terminators without the series capacitor that keeps the bus voltage away from their resistor: the
    /// power U²/R that the nominal voltage of the bus turns into heat there (Joule's law). Above 0.5 W it
    /// is an error (what a small resistor in a wall box stands: common practice, no source), below it a piece
    /// of advice, since the direct current of the terminator is not part of the computed voltages.
    ///
    /// Judged where `terminator_capacitor = false`; where the run does not say, and the family states
    /// a resistance but no capacitance for its terminator, it is not judged.
    ///
    /// # Why it matters
    /// 100 ohm across 48 V takes 0.48 A and burns 23 W: more than the rest of the chain together, in a wall
    /// box, day and night. A data-cable or aerial terminator has no capacitor.
    ///
    /// # Example
    /// A-R3 is closed with a plain resistor of 100 ohm on a bus of 48 V.
    ///
    /// # What to do
    /// Use the family's own terminator, or put its capacitor in series with the resistor.
    pub static TERMINATOR_WITHOUT_CAPACITOR: "terminator-without-capacitor", Error,
        "The bus voltage heats a terminator", check
}

/// What a small resistor in a closed wall box stands (common practice, no source).
const MOST_POWER_W: f64 = 0.5;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    let family = site.family();
    for (index, run) in site.runs.iter().enumerate() {
        if !run.terminator.as_ref().is_some_and(|terminator| terminator.value) {
            continue;
        }
        let capacitor = &run.terminator_capacitor;
        if capacitor.value {
            let nobody_says = capacitor.provenance == Provenance::Assumed
                && family.terminator_resistance.is_some()
                && family.terminator_capacitance.is_none();
            if nobody_says {
                let missing = format!("{} terminator_capacitance", family.head.name);
                report.not_judged(doc.code, run.id.clone(), missing);
            }
            continue;
        }
        let Some(resistance) = &family.terminator_resistance else {
            let missing = format!("{} terminator_resistance", family.head.name);
            report.not_judged(doc.code, run.id.clone(), missing);
            continue;
        };
        let Some(at) = context.layout.run_end[index] else { continue };
        let voltage_v = context.layout.stages[at.stage].voltage_v[Corner::Nominal.index()];
        let resistance_ohm = resistance.value.as_ohms();
        let power_w = voltage_v * voltage_v / resistance_ohm;
        let found = if power_w > MOST_POWER_W * (1.0 + ROUNDING) {
            finding(doc, capacitor.origin.clone())
        } else {
            finding_as(doc, Severity::Advice, capacitor.origin.clone())
        };
        let assumed = match resistance.provenance {
            Provenance::Assumed => {
                DataGrade::Assumed(vec![format!("{} terminator_resistance", family.head.name)])
            }
            _ => DataGrade::Known,
        };
        let found = found
            .about(run.id.clone())
            .figures(power_w, MOST_POWER_W, Unit::Watt)
            .with("resistance", Figure::new(resistance_ohm, Unit::Ohm))
            .with("voltage", Figure::new(voltage_v, Unit::Volt))
            .with("current", Figure::new(voltage_v / resistance_ohm, Unit::Ampere))
            .also_at("resistance", resistance.origin.clone())
            .graded(assumed);
        report.push(found);
    }
}
