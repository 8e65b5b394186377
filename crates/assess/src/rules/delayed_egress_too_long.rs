//! `delayed-egress-too-long`

use super::limit::ROUNDING;
use crate::door::LockAt;
use crate::door::escape::delay_limits;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Figure, Severity, Unit};
use latchline_words::terms::Term;

rule! {
    pub static DELAYED_EGRESS_TOO_LONG: "delayed-egress-too-long", Error or Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let country = context.site.country.as_ref().map(|country| country.value.as_str());
    let limits = delay_limits(country);
    for at in LockAt::all(context.site) {
        let Some(delay) = &at.used.delayed_egress else { continue };
        let delay_s = delay.value.as_seconds();
        let (usual_s, utmost_s, source) = match limits {
            Some(limits) => (limits.usual_s, limits.utmost_s, limits.source.both()),
            None => (0.0, f64::INFINITY, Term::NoRuleKnown.both()),
        };
        let over = |limit_s: f64| delay_s > limit_s * (1.0 + ROUNDING);
        let origin = delay.origin.clone();
        let found = if over(utmost_s) {
            finding(doc, origin).figures(delay_s, utmost_s, Unit::Second)
        } else if over(usual_s) {
            let mut found = finding_as(doc, Severity::Warning, origin);
            found.value = Some(Figure::new(delay_s, Unit::Second));
            if usual_s > 0.0 {
                found.limit = Some(Figure::new(usual_s, Unit::Second));
            }
            found
        } else {
            continue;
        };
        report.push(at.describe(found).with("source", source));
    }
}
