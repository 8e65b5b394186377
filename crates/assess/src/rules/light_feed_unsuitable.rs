//! `light-feed-unsuitable`

use super::limit::ROUNDING;
use crate::door::Assumptions;
use crate::door::light::light_sheets;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::catalogue::Feed;
use latchline_words::terms::Term;

rule! {
    pub static LIGHT_FEED_UNSUITABLE: "light-feed-unsuitable", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        for sheet in light_sheets(context, entrance) {
            let Some(feed_v) = sheet.feed_v else { continue };
            let used = &entrance.lights[sheet.number - 1];
            let light = site.light(used);
            let tolerance = light.voltage_tolerance.value.as_fraction();
            let is_off = (feed_v - sheet.rated_v).abs() > sheet.rated_v * (tolerance + ROUNDING);
            let is_ac = sheet.current_kind == Feed::Ac;
            if !is_off && !is_ac {
                continue;
            }
            let mut assumed = Assumptions::default();
            assumed.note(&light.head.name, "voltage", &light.voltage);
            if is_off {
                assumed.note(&light.head.name, "voltage_tolerance", &light.voltage_tolerance);
            }
            let mut found = finding(doc, used.model.origin.clone())
                .about(entrance.id.clone())
                .figures(feed_v, sheet.rated_v, Unit::Volt)
                .with("light", light.head.name.as_str())
                .with("number", sheet.number)
                .graded(assumed.grade());
            if is_ac {
                found = found.with("needs", Term::AlternatingCurrent.both());
            }
            report.push(found);
        }
    }
}
