//! `mixed-families`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, ElementId, Sourced};
use std::collections::BTreeMap;

rule! {
    pub static MIXED_FAMILIES: "mixed-families", Error, check
}

/// One part on site.
pub(super) struct Part<'a> {
    bus: usize,
    pub(super) id: &'a ElementId,
    pub(super) model: &'a Sourced<String>,
    family: &'a Sourced<String>,
}

/// The family that the parts of one bus are held against.
pub(super) struct Bus<'a> {
    pub(super) parts: Vec<Part<'a>>,
    pub(super) family: &'a str,
}

/// The buses of a site with their parts: supplies, boxes, stations, then modules.
pub(super) fn buses<'a>(context: &Context<'a>) -> Vec<Bus<'a>> {
    let site = context.site;
    let wired = &context.topology.wired;
    let mut by_bus: BTreeMap<usize, Vec<Part<'a>>> = BTreeMap::new();
    let mut add = |part: Part<'a>| by_bus.entry(part.bus).or_default().push(part);
    for (supply, &bus) in site.supplies.iter().zip(&wired.supply) {
        add(Part { bus, id: &supply.id, model: &supply.model, family: &site.supply_model(supply).family });
    }
    for (item, &bus) in site.boxes.iter().zip(&wired.box_input) {
        add(Part { bus, id: &item.id, model: &item.model, family: &site.box_model(item).family });
    }
    for (station, &bus) in site.stations.iter().zip(&wired.station) {
        add(Part {
            bus,
            id: &station.id,
            model: &station.model,
            family: &site.station_model(station).family,
        });
    }
    for entrance in &site.entrances {
        let bus = wired.station[entrance.station];
        for model in &entrance.accessories {
            add(Part { bus, id: &entrance.id, model, family: &site.accessory(model).family });
        }
    }
    by_bus
        .into_values()
        .map(|parts| {
            let wanted = site.family.value.as_str();
            let has_wanted = parts.iter().any(|part| part.family.value == wanted);
            // Supplies come first: where the site's family is absent the supply's speaks for the bus.
            let family = if has_wanted { wanted } else { parts[0].family.value.as_str() };
            Bus { parts, family }
        })
        .collect()
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for bus in buses(context) {
        // One finding a model: forty stations of a wrong default model are one mistake.
        let mut models: Vec<(&Part<'_>, Vec<ElementId>)> = Vec::new();
        for part in bus.parts.iter().filter(|part| part.family.value != bus.family) {
            match models.iter_mut().find(|(first, _)| first.model.value == part.model.value) {
                Some((_, devices)) => devices.push(part.id.clone()),
                None => models.push((part, vec![part.id.clone()])),
            }
        }
        for (first, devices) in models {
            let found = finding(doc, first.model.origin.clone())
                .about(first.id.clone())
                .with("model", first.model.value.as_str())
                .with("family", first.family.value.as_str())
                .with("expected", bus.family)
                .with("devices", devices)
                .also_at("family-of-the-part", first.family.origin.clone());
            report.push(found);
        }
    }
}
