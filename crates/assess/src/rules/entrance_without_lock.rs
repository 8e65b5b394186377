//! `entrance-without-lock`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::model::EntranceRole;

rule! {
    /// # What it checks
    /// Entrances for which no lock is stated.
    ///
    /// # Why it matters
    /// Residents can answer the door but not open it. Where there is a lock after all, its voltage and its
    /// role as a way of escape are not judged as long as the file does not know of it.
    ///
    /// # Example
    /// The bin store has a door station and an ordinary cylinder lock.
    ///
    /// # What to do
    /// State the lock. If the door is only meant for speaking, accept the finding.
    pub static ENTRANCE_WITHOUT_LOCK: "entrance-without-lock", Advice,
        "An entrance without a lock", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for entrance in &context.site.entrances {
        if entrance.locks.is_empty() {
            let role = match entrance.role.value {
                EntranceRole::Main => "main",
                EntranceRole::Secondary => "secondary",
            };
            report.push(finding(doc, entrance.origin.clone()).about(entrance.id.clone()).with("role", role));
        }
    }
}
