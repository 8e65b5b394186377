//! `cascade-too-deep`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::catalogue::BoxRole;
use latchline_site::model::{RunStart, RunStop, Site};

rule! {
    pub static CASCADE_TOO_DEEP: "cascade-too-deep", Error, check
}

/// How deep each box stands in the cascade; a branch box stands as deep as what it hangs on.
fn depths(site: &Site, context: &Context<'_>) -> Vec<u32> {
    let mut depth = vec![0; site.boxes.len()];
    // Trees may come in any order; each pass settles at least one more distributor of every cascade.
    for _ in 0..=site.boxes.len() {
        let mut changed = false;
        for tree in &context.topology.port_trees {
            let above = match tree.start {
                RunStart::Port { box_index, .. } => depth[box_index],
                RunStart::Supply(_) | RunStart::Station(_) => 0,
            };
            for node in &tree.nodes {
                let (RunStop::BoxInput(index) | RunStop::BoxLink(index)) = node.stop else { continue };
                let is_distributor = site.box_model(&site.boxes[index]).role.value == BoxRole::Distributor;
                let own = above + u32::from(is_distributor);
                if own > depth[index] {
                    depth[index] = own;
                    changed = true;
                }
            }
        }
        if !changed {
            break;
        }
    }
    depth
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let family = site.family();
    let Some(limit) = &family.cascade_depth else { return };
    let depth = depths(site, context);
    for (index, item) in site.boxes.iter().enumerate() {
        let is_distributor = site.box_model(item).role.value == BoxRole::Distributor;
        if is_distributor && depth[index] > limit.value {
            let found = finding(doc, context.wiring_origin(latchline_network::Device::Box(index)))
                .about(item.id.clone())
                .figures(f64::from(depth[index]), f64::from(limit.value), Unit::Count)
                .with("family", family.head.name.as_str())
                .also_at("limit", limit.origin.clone())
                .graded(grade(&family.head.name, "cascade_depth", limit));
            report.push(found);
        }
    }
}
