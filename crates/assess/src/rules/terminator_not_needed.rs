//! `terminator-not-needed`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    /// # What it checks
    /// Terminators in a family that knows none: that does not ask for them and gives no resistance of one. Where it gives one
    /// without asking for it, a terminator may be set wherever the signal is better for it.
    ///
    /// # Why it matters
    /// It takes signal level from everyone on the chain for nothing.
    ///
    /// # Example
    /// A-R3 says `terminator = true`; the family's datasheet knows no terminators.
    ///
    /// # What to do
    /// Leave it out, unless the family's maker advised one for this chain.
    pub static TERMINATOR_NOT_NEEDED: "terminator-not-needed", Advice,
        "A terminator in a family that needs none", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let family = context.site.family();
    if family.terminator_required.value || family.terminator_resistance.is_some() {
        return;
    }
    for run in &context.site.runs {
        let Some(terminator) = run.terminator.as_ref().filter(|terminator| terminator.value) else {
            continue;
        };
        let found = finding(doc, terminator.origin.clone())
            .about(run.id.clone())
            .with("family", family.head.name.as_str())
            .also_at("limit", family.terminator_required.origin.clone());
        report.push(found);
    }
}
