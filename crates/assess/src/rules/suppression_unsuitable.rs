//! `suppression-unsuitable`

use crate::door::LockAt;
use crate::door::circuit::feed;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::CodeDoc;
use latchline_site::model::Suppression;

rule! {
    pub static SUPPRESSION_UNSUITABLE: "suppression-unsuitable", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let Some(stated) = &at.used.suppression else { continue };
        let Ok(feed) = feed(context, &at) else { continue };
        if stated.value == Suppression::Diode && feed.is_ac {
            let found = at.describe(finding(doc, stated.origin.clone())).also_at("feed", feed.origin.clone());
            report.push(found);
        }
    }
}
