//! `suppression-missing`

use crate::door::LockAt;
use crate::door::times::lock_times;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Figure, Unit};
use latchline_site::model::{LockFeed, Suppression};
use latchline_words::terms::Term;

rule! {
    pub static SUPPRESSION_MISSING: "suppression-missing", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let switched = matches!(at.used.feed.value, LockFeed::OwnSupply | LockFeed::Bus);
        let fitted = at.used.suppression.as_ref().is_some_and(|stated| stated.value != Suppression::None);
        if !switched || fitted || at.is_of_another_system() {
            continue;
        }
        let origin =
            at.used.suppression.as_ref().map_or(at.used.origin.clone(), |stated| stated.origin.clone());
        let is_ac = at.used.feed.value == LockFeed::OwnSupply && at.used.supply_ac.value;
        let mut found = at
            .describe(finding(doc, origin))
            .with("suitable", if is_ac { Term::Varistor } else { Term::DiodeOrClamp }.both());
        if let (false, Some(delay_s)) = (is_ac, lock_times(&at).and_then(|times| times.decay_with_diode_s)) {
            found = found.with("diode_delay", Figure::new(delay_s, Unit::Second));
        }
        report.push(found);
    }
}
