//! `supply-set-too-low`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, ElementId, Unit};
use latchline_network::{Corner, StageNode, StageSource};
use latchline_site::model::Site;

rule! {
    pub static SUPPLY_SET_TOO_LOW: "supply-set-too-low", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for stage in &context.layout.stages {
        let StageSource::Supply(index) = stage.source else { continue };
        let Some(set) = &site.supplies[index].set_voltage else { continue };
        // The device that needs least: where even it cannot run, the setting is what is wrong.
        let needs = stage.terminal.iter().filter_map(|terminal| least_voltage(site, *terminal));
        let Some((device, least_v)) = needs.min_by(|a, b| a.1.total_cmp(&b.1)) else { continue };
        if stage.voltage_v[Corner::Light.index()] >= least_v {
            continue;
        }
        let model = site.supply_model(&site.supplies[index]);
        let found = finding(doc, set.origin.clone())
            .about(stage.id.clone())
            .figures(set.value.as_volts(), least_v, Unit::Volt)
            .with("device", device)
            .with("model", model.head.name.as_str())
            .with("usual", latchline_finding::Figure::new(model.voltage.value.as_volts(), Unit::Volt));
        report.push(found);
    }
}

/// What a device at a terminal needs in use.
fn least_voltage(site: &Site, terminal: StageNode) -> Option<(&ElementId, f64)> {
    match terminal {
        StageNode::Station(index) => {
            let station = &site.stations[index];
            Some((&station.id, site.station_model(station).least_voltage.value.as_volts()))
        }
        StageNode::BoxInput(index) => {
            let least = site.box_model(&site.boxes[index]).least_voltage.as_ref()?;
            Some((&site.boxes[index].id, least.value.as_volts()))
        }
        _ => None,
    }
}
