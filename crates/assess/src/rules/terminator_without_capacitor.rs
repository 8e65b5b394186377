//! `terminator-without-capacitor`

use super::limit::ROUNDING;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{CodeDoc, DataGrade, Figure, Provenance, Severity, Unit};
use latchline_network::Corner;
use latchline_words::missing::Missing;

rule! {
    pub static TERMINATOR_WITHOUT_CAPACITOR: "terminator-without-capacitor", Error or Advice, check
}

/// What a small resistor in a closed wall box stands (common practice, no source).
const MOST_POWER_W: f64 = 0.5;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
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
                let missing = Missing::key(&family.head.name, "terminator_capacitance");
                report.not_judged(doc.code, run.id.clone(), missing);
            }
            continue;
        }
        let Some(resistance) = &family.terminator_resistance else {
            let missing = Missing::key(&family.head.name, "terminator_resistance");
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
