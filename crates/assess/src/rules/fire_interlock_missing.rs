//! `fire-interlock-missing`

use crate::door::LockAt;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity};
use latchline_site::catalogue::{LockKind, PowerLoss};
use latchline_words::terms::Term;

rule! {
    pub static FIRE_INTERLOCK_MISSING: "fire-interlock-missing", Error or Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let escape = at.entrance.is_escape_route();
        let is_magnet = at.lock.kind.value == LockKind::Magnet;
        // A handle retracts a strike's or motor lock's latch, but does not move a magnet.
        let held = at.lock.power_loss.value == PowerLoss::Opens && !at.has_mechanical_escape();
        if at.takes_dry_contact() || at.entrance.is_released_on_fire() || !(is_magnet || escape && held) {
            continue;
        }
        let origin = at.used.model.origin.clone();
        let start = if escape { finding(doc, origin) } else { finding_as(doc, Severity::Warning, origin) };
        let found = at
            .describe(start)
            .with("role", if escape { Term::OnAnEscapeRoute } else { Term::AtADoor }.both())
            .also_at("escape-route", at.entrance.escape_origin());
        report.push(found);
    }
}
