//! `no-spare-ports`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::catalogue::BoxRole;
use latchline_site::model::{RunStart, StationOwner};

rule! {
    pub static NO_SPARE_PORTS: "no-spare-ports", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let Some(wanted) = &site.policy.spare_ports else { return };
    let mut feeds_dwellings = vec![false; site.boxes.len()];
    for tree in &context.topology.port_trees {
        let RunStart::Port { box_index, .. } = tree.start else { continue };
        let is_of_dwelling =
            |station: usize| matches!(site.stations[station].owner, StationOwner::Dwelling { .. });
        feeds_dwellings[box_index] |= tree.stations(0..tree.nodes.len()).any(is_of_dwelling);
    }
    for (index, item) in site.boxes.iter().enumerate() {
        let runs = &context.topology.runs_from_box[index];
        let model = site.box_model(item);
        if model.role.value != BoxRole::Distributor || !feeds_dwellings[index] {
            continue;
        }
        let free = (model.ports.value as usize).saturating_sub(runs.len());
        if free < wanted.value as usize {
            let found = finding(doc, item.model.origin.clone())
                .about(item.id.clone())
                .figures(free as f64, f64::from(wanted.value), Unit::Count)
                .with("model", model.head.name.as_str())
                .with("ports", model.ports.value as usize)
                .also_at("limit", wanted.origin.clone());
            report.push(found);
        }
    }
}
