//! `bus-voltage-wet`

use super::limit::ROUNDING;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_network::{Corner, Device, NodeRef};

rule! {
    /// # What it checks
    /// Stations and boxes outdoors or in the wet on a bus of more than 30 V DC, by the nominal voltage of
    /// their supply as set.
    ///
    /// By BS 7671 regulation 414.4.5 (IEC 60364-4-41 likewise) basic protection is generally not needed for SELV
    /// and PELV circuits up to 60 V DC where it is dry and no large area of skin touches, and up to 30 V DC in all
    /// other cases, ripple-free; with more than 10 % of ripple, 12 V as for alternating current. "Basic protection" is insulation or an enclosure that keeps fingers off live parts.
    ///
    /// # Why it matters
    /// A door station's housing usually is that enclosure. A junction box that stands open, or terminals behind a
    /// front that can be taken off without a tool, are not.
    ///
    /// # Example
    /// The gate's door station hangs on a bus of 48 V.
    ///
    /// # What to do
    /// See that terminals and joints outdoors sit in closed enclosures with the right degree of
    /// protection. The code that holds on site, and who is responsible there, decide.
    pub static BUS_VOLTAGE_WET: "bus-voltage-wet", Advice,
        "More than 30 V DC outdoors", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
