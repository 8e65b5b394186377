//! `box-without-runs`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static BOX_WITHOUT_RUNS: "box-without-runs", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for (item, runs) in site.boxes.iter().zip(&context.topology.runs_from_box) {
        if runs.is_empty() {
            let found = finding(doc, item.origin.clone())
                .about(item.id.clone())
                .with("model", item.model.value.as_str())
                .with("ports", site.box_model(item).ports.value as usize);
            report.push(found);
        }
    }
}
