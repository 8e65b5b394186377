//! `supply-without-load`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static SUPPLY_WITHOUT_LOAD: "supply-without-load", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for (index, supply) in site.supplies.iter().enumerate() {
        if site.runs_from_supply(index).next().is_none() {
            report.push(finding(doc, supply.origin.clone()).about(supply.id.clone()));
        }
    }
}
