//! `line-constants-missing`

use crate::rule::{Judgement, rule};
use crate::stage::WithSignal;
use latchline_finding::CodeDoc;
use latchline_network::signal_tree::MissingKind;

rule! {
    pub static LINE_CONSTANTS_MISSING: "line-constants-missing", Warning, reads Signal, check
}

fn check(doc: &CodeDoc, context: &WithSignal<'_>, report: &mut Judgement) {
    for missing in &context.signal.missing {
        if missing.kind == MissingKind::Line {
            report.not_judged(doc.code, missing.element.clone(), missing.missing.clone());
        }
    }
}
