//! `link-not-wired`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::catalogue::BoxKind;
use latchline_site::model::RunStop;

rule! {
    pub static LINK_NOT_WIRED: "link-not-wired", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for (index, item) in site.boxes.iter().enumerate() {
        let mut stops = site.runs.iter().flat_map(|run| &run.sections).map(|section| section.to);
        if site.box_model(item).kind.value == BoxKind::Isolating
            && !stops.any(|stop| stop == RunStop::BoxLink(index))
        {
            report.push(finding(doc, item.origin.clone()).about(item.id.clone()));
        }
    }
}
