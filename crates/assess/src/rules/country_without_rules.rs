//! `country-without-rules`

use crate::door::escape::has_rules;
use crate::door::heights::height_range;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static COUNTRY_WITHOUT_RULES: "country-without-rules", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let Some(country) = &context.site.country else { return };
    let code = country.value.as_str();
    if has_rules(code) || height_range(Some(code)) != height_range(None) {
        return;
    }
    let found = finding(doc, country.origin.clone())
        .with("country", code)
        .with("source", height_range(None).source.both());
    report.push(found);
}
