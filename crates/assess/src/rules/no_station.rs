//! `no-station`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static NO_STATION: "no-station", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    if site.stations.is_empty() {
        report.push(finding(doc, site.family.origin.clone()));
    }
}
