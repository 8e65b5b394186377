//! `end-station-looped`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::catalogue::LoopThrough;
use latchline_site::model::RunStop;

rule! {
    pub static END_STATION_LOOPED: "end-station-looped", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for tree in &context.topology.port_trees {
        for (index, node) in tree.nodes.iter().enumerate() {
            let RunStop::Station(station) = node.stop else { continue };
            let model = site.station_model(&site.stations[station]);
            let Some(next) = tree.beyond(index).next() else { continue };
            if model.loop_through.value != LoopThrough::End {
                continue;
            }
            let found = finding(doc, site.runs[node.run].sections[node.section].to_origin.clone())
                .about(site.stations[station].id.clone())
                .with("model", model.head.name.as_str())
                .with("next", site.stop_id(next.stop))
                .with("run", &site.runs[next.run].id)
                .also_at("goes-on-here", site.runs[next.run].sections[next.section].to_origin.clone())
                .also_at("limit", model.loop_through.origin.clone())
                .graded(grade(&model.head.name, "loop_through", &model.loop_through));
            report.push(found);
        }
    }
}
