//! `too-many-stations-on-port`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static TOO_MANY_STATIONS_ON_PORT: "too-many-stations-on-port", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let family = site.family();
    let Some(limit) = &family.stations_per_port else { return };
    for tree in &context.topology.port_trees {
        let stations = tree.stations(0..tree.nodes.len()).count();
        if stations > limit.value as usize {
            let run = &site.runs[tree.run];
            let found = finding(doc, run.from_origin.clone())
                .about(tree.id(site))
                .figures(stations as f64, f64::from(limit.value), Unit::Count)
                .with("run", &run.id)
                .with("family", family.head.name.as_str())
                .also_at("limit", limit.origin.clone())
                .graded(grade(&family.head.name, "stations_per_port", limit));
            report.push(found);
        }
    }
}
