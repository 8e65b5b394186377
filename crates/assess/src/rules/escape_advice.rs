//! `escape-advice`

use crate::door::escape::{EscapeRule, escape_rules};
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{Both, CodeDoc, ElementId, Language};

rule! {
    pub static ESCAPE_ADVICE: "escape-advice", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    let doors: Vec<_> = site
        .entrances
        .iter()
        .filter(|entrance| entrance.is_escape_route() && !entrance.locks.is_empty())
        .collect();
    let Some(first) = doors.first() else { return };
    let country = site.country.as_ref();
    let rules = escape_rules(country.map(|country| country.value.as_str()));
    let ids: Vec<ElementId> = doors.iter().map(|door| door.id.clone()).collect();
    let sources: Vec<Both> = rules.iter().map(|rule| rule.source.both()).collect();
    let summaries = |language| {
        let one =
            |rule: &EscapeRule| format!("{}: {}", rule.source.say(language), rule.summary.say(language));
        rules.iter().map(one).collect::<Vec<_>>().join("; ")
    };
    let mut found = finding(doc, first.escape_origin())
        .with("doors", ids)
        .with("sources", sources)
        .with("rules", Both::new(summaries(Language::English), summaries(Language::German)));
    if let Some(country) = country {
        found = found.with("country", country.value.as_str());
    }
    report.push(found);
}
