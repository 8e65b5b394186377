//! `accessory-current-exceeded`

use super::limit::ROUNDING;
use crate::door::modules::ModuleChain;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_words::missing::Missing;

rule! {
    pub static ACCESSORY_CURRENT_EXCEEDED: "accessory-current-exceeded", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        let Some(first) = entrance.accessories.first() else { continue };
        let model = site.station_model(&site.stations[entrance.station]);
        let Some(limit) = &model.accessory_current else {
            report.not_judged(
                doc.code,
                entrance.id.clone(),
                Missing::key(&model.head.name, "accessory_current"),
            );
            continue;
        };
        let chain = ModuleChain::of(site, entrance);
        let current_a = chain.current_a();
        let limit_a = limit.value.as_amps();
        if current_a > limit_a * (1.0 + ROUNDING) {
            let found = finding(doc, first.origin.clone())
                .about(entrance.id.clone())
                .figures(current_a, limit_a, Unit::Ampere)
                .with("model", model.head.name.as_str())
                .with("modules", entrance.accessories.len())
                .also_at("limit", limit.origin.clone())
                .graded(chain.assumed.grade());
            report.push(found);
        }
    }
}
