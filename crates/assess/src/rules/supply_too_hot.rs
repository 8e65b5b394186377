//! `supply-too-hot`

use super::limit::ROUNDING;
use crate::rule::{Judgement, finding_as, rule};
use crate::stage::WithVoltages;
use crate::supply::{hottest_c, mains_figures};
use latchline_finding::{CodeDoc, DataGrade, Figure, Severity, Unit};

rule! {
    pub static SUPPLY_TOO_HOT: "supply-too-hot", Error or Advice, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for (index, supply) in context.site.supplies.iter().enumerate() {
        let limit = &context.site.supply_model(supply).ambient_limit;
        let Some(limit) = limit else { continue };
        let (ambient_c, limit_c) = (hottest_c(supply), limit.value.as_celsius());
        let (grade, origin) = match &supply.ambient {
            Some(ambient) => {
                (super::limit::grade(&supply.model.value, "ambient_limit", limit), ambient.origin.clone())
            }
            None => (DataGrade::Assumed(vec![format!("{} ambient", supply.id)]), supply.origin.clone()),
        };
        let mains = mains_figures(context, index);
        let derated = mains.as_ref().and_then(|mains| Some((mains.derated_w?, mains.output_w)));
        let is_enough = derated.is_some_and(|(derated_w, output_w)| output_w <= derated_w * (1.0 + ROUNDING));
        if ambient_c <= limit_c {
            continue;
        }
        // It gives less there; where that is enough, only the cupboard is told of.
        let severity = if is_enough { Severity::Advice } else { doc.severity };
        let mut found = finding_as(doc, severity, origin)
            .about(supply.id.clone())
            .figures(ambient_c, limit_c, Unit::Celsius)
            .with("model", supply.model.value.as_str())
            .also_at("limit", limit.origin.clone())
            .graded(grade);
        if let Some((derated_w, output_w)) = derated {
            found = found
                .with("derated", Figure::new(derated_w, Unit::Watt))
                .with("load", Figure::new(output_w, Unit::Watt));
        }
        if let Some(heat_w) = mains.and_then(|mains| mains.heat_w) {
            found = found.with("heat", Figure::new(heat_w, Unit::Watt));
        }
        report.push(found);
    }
}
