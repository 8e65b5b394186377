//! `light-feed-unsuitable`

use super::limit::ROUNDING;
use crate::door::Assumptions;
use crate::door::light::light_sheets;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::catalogue::Feed;

rule! {
    /// # What it checks
    /// The rated voltage of every light that hangs on a door station or on the bus, with its tolerance, against
    /// the nominal voltage there; and that a light for alternating current only hangs on neither, since both are
    /// direct current. Lights on a supply of their own are left to whoever chooses it.
    ///
    /// # Why it matters
    /// A 12 V light on a bus of 48 V burns out, and may take the bus down as it does; a 24 V light on 12 V stays
    /// dark.
    ///
    /// # Example
    /// A porch light of 12 V with `feed = "bus"` on a bus of 48 V.
    ///
    /// # What to do
    /// Take a light for that voltage, or another feed.
    pub static LIGHT_FEED_UNSUITABLE: "light-feed-unsuitable", Error,
        "A light for another voltage", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
                found = found.with("needs", "alternating current");
            }
            report.push(found);
        }
    }
}
