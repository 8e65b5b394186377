//! `acceptance-without-match`

use crate::rule::{Context, Judgement, rule};
use latchline_finding::CodeDoc;

rule! {
    pub static ACCEPTANCE_WITHOUT_MATCH: "acceptance-without-match", Warning, check
}

/// Acceptances are matched after all rules have run, in `acceptance`.
fn check(_: &CodeDoc, _: &Context<'_>, _: &mut Judgement) {}
