//! `escape-decision-missing`

use crate::door::LockAt;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity};
use latchline_site::model::EntranceRole;
use latchline_words::missing::Missing;

rule! {
    pub static ESCAPE_DECISION_MISSING: "escape-decision-missing", Advice or Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for (index, entrance) in site.entrances.iter().enumerate() {
        // A gate drive beside other ways in has its own ways of being opened by hand; whoever owns it answers for them. Where it shuts the main way
        // in, people may have to escape through it.
        let is_main = entrance.role.value == EntranceRole::Main;
        if !is_main && LockAt::of_entrance(site, entrance).all(|at| at.is_gate()) {
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
            ("escape_decided_by", entrance.escape_decided_by.is_none()),
            ("escape_decided_on", entrance.escape_decided_on.is_none()),
        ]
        .into_iter()
        .filter_map(|(key, is_missing)| is_missing.then_some(key))
        .collect();
        if !missing.is_empty() {
            // That nobody escapes here makes the lock harmless: nobody to answer for it is worse than for the opposite.
            let start = if route.value {
                finding(doc, route.origin.clone())
            } else {
                finding_as(doc, Severity::Warning, route.origin.clone())
            };
            let found = start
                .about(entrance.id.clone())
                .with("missing", missing.join(", "));
            report.push(found);
        }
    }
}
