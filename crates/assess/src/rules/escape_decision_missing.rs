//! `escape-decision-missing`

use crate::door::is_judged_as_way_out;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;
use latchline_words::missing::Missing;

rule! {
    pub static ESCAPE_DECISION_MISSING: "escape-decision-missing", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for (index, entrance) in site.entrances.iter().enumerate() {
        if !is_judged_as_way_out(site, entrance) {
            continue;
        }
        let Some(route) = &site.entrances[index].escape_route else {
            report.not_judged(
                doc.code,
                entrance.id.clone(),
                Missing::EscapeRoute { entrance: entrance.id.as_str().to_string() },
            );
            continue;
        };
        let missing: Vec<&str> = [
            ("escape_decided_by", entrance.decided_by().is_none()),
            ("escape_decided_on", entrance.escape_decided_on.is_none()),
        ]
        .into_iter()
        .filter_map(|(key, is_missing)| is_missing.then_some(key))
        .collect();
        if !missing.is_empty() {
            // A decision of nobody is none: the door is judged by what is stated, and not judged until somebody stands for it.
            report.not_judged(
                doc.code,
                entrance.id.clone(),
                Missing::EscapeDecision {
                    entrance: entrance.id.as_str().to_string(),
                    keys: missing.join(", "),
                },
            );
            let found = finding(doc, route.origin.clone())
                .about(entrance.id.clone())
                .with("missing", missing.join(", "));
            report.push(found);
        }
    }
}
