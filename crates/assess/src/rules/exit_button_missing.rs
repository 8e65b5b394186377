//! `exit-button-missing`

use crate::door::LockAt;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::catalogue::{LockKind, PowerLoss};

rule! {
    pub static EXIT_BUTTON_MISSING: "exit-button-missing", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let opens = at.lock.power_loss.value == PowerLoss::Opens;
        let holds = at.lock.kind.value == LockKind::Magnet || opens && !at.has_mechanical_escape();
        if at.used.exit_button.value || at.is_of_another_system() || !holds {
            continue;
        }
        let found = at
            .describe(finding(doc, at.used.origin.clone()))
            .also_at("escape-route", at.entrance.escape_origin());
        report.push(found);
    }
}
