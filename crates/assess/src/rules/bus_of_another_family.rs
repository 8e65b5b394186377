//! `bus-of-another-family`

use super::mixed_families::buses;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, ElementId, Origin};
use std::collections::BTreeSet;

rule! {
    pub static BUS_OF_ANOTHER_FAMILY: "bus-of-another-family", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for bus in buses(context).into_iter().filter(|bus| bus.family != site.family.value) {
        let first = &bus.parts[0];
        let devices: BTreeSet<&ElementId> = bus.parts.iter().map(|part| part.id).collect();
        let origin = match &first.model.origin {
            Origin::None => site.family.origin.clone(),
            origin => origin.clone(),
        };
        let found = finding(doc, origin)
            .about(first.id.clone())
            .with("family", bus.family)
            .with("expected", site.family.value.as_str())
            .with("devices", devices.len())
            .also_at("family-of-the-site", site.family.origin.clone());
        report.push(found);
    }
}
