//! `prices-left-out`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::bill::Bill;
use std::collections::BTreeMap;

rule! {
    pub static PRICES_LEFT_OUT: "prices-left-out", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let mut by_currency: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for line in Bill::of(site).lines {
        if let Some(currency) = line.price_left_out_in {
            by_currency.entry(currency).or_default().push(line.name);
        }
    }
    for (currency, parts) in by_currency {
        let found = finding(doc, site.family.origin.clone())
            .figures(parts.len() as f64, 0.0, Unit::Count)
            .with("listed", currency.as_str())
            .with("currency", site.catalogue.currency.as_str())
            .with("parts", parts.join(", "));
        report.push(found);
    }
}
