//! `bus-voltage-wet`

use super::limit::ROUNDING;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_network::{Corner, Device, NodeRef};

rule! {
    pub static BUS_VOLTAGE_WET: "bus-voltage-wet", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let stations = site.stations.iter().enumerate().map(|(index, station)| {
        (Device::Station(index), site.station_place(station), context.layout.station[index])
    });
    let boxes = site
        .boxes
        .iter()
        .enumerate()
        .map(|(index, item)| (Device::Box(index), &item.place, context.layout.box_input[index]));
    for (device, place, at) in stations.chain(boxes) {
        let Some(NodeRef { stage, .. }) = at.filter(|_| place.outdoors) else { continue };
        let stage = &context.layout.stages[stage];
        let voltage_v = stage.voltage_v[Corner::Nominal.index()];
        let limit_v = context.touch_limits(stage.source).wet_v;
        if voltage_v > limit_v * (1.0 + ROUNDING) {
            let found = finding(doc, context.device_origin(device))
                .about(context.device_id(device).clone())
                .figures(voltage_v, limit_v, Unit::Volt)
                .with("source", &stage.id)
                .also_at("voltage", context.source_origin(stage.source));
            report.push(found);
        }
    }
}
