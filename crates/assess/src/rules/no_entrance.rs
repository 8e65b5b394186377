//! `no-entrance`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static NO_ENTRANCE: "no-entrance", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    // A site without any station has a finding of its own.
    if site.entrances.is_empty() && !site.stations.is_empty() {
        report.push(finding(doc, site.family.origin.clone()).with("dwellings", site.dwellings.len()));
    }
}
