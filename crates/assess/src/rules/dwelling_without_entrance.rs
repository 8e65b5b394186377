//! `dwelling-without-entrance`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static DWELLING_WITHOUT_ENTRANCE: "dwelling-without-entrance", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    if site.entrances.is_empty() {
        return;
    }
    let mut called = vec![false; site.dwellings.len()];
    for entrance in &site.entrances {
        for &dwelling in &entrance.calls.dwellings {
            called[dwelling] = true;
        }
    }
    for (dwelling, called) in site.dwellings.iter().zip(called) {
        if !called {
            let found = finding(doc, dwelling.origin.clone())
                .about(dwelling.id.clone())
                .with("entrances", site.entrances.len());
            report.push(found);
        }
    }
}
