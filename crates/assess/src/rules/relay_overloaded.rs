//! `relay-overloaded`

use super::limit::ROUNDING;
use crate::door::circuit::peak_current;
use crate::door::{Assumptions, LockAt};
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::model::LockFeed;
use latchline_words::missing::Missing;
use latchline_words::terms::Term;

rule! {
    pub static RELAY_OVERLOADED: "relay-overloaded", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        let peak = match at.used.feed.value {
            LockFeed::OwnSupply | LockFeed::Bus => peak_current(&at),
            // What a drive or lift puts through the contact is its owner's to state, and judged where it is.
            LockFeed::DryContact => match &at.used.contact_current {
                Some(stated) => Some((
                    stated.value.as_amps(),
                    "contact_current",
                    stated.clone().map(|value| value.as_amps()),
                )),
                None => continue,
            },
            LockFeed::Station => continue,
        };
        let Some((peak_a, key, value)) = peak else {
            report.not_judged(doc.code, at.entrance.id.clone(), Missing::key(&at.lock.head.name, "current"));
            continue;
        };
        let (holder, limit_key, limit) = match &at.used.relay_between {
            Some(between) => (at.entrance.id.as_str(), "lock relay_between", Some(between)),
            None => (at.station.head.name.as_str(), "relay_current", at.station.relay_current.as_ref()),
        };
        let Some(limit) = limit else {
            let missing = Missing::key(&at.station.head.name, "relay_current");
            report.not_judged(doc.code, at.entrance.id.clone(), missing);
            continue;
        };
        let limit_a = limit.value.as_amps();
        if peak_a <= limit_a * (1.0 + ROUNDING) {
            continue;
        }
        let mut assumed = Assumptions::default();
        assumed.note(&at.lock.head.name, key, &value);
        assumed.note(holder, limit_key, limit);
        let found = at
            .describe(finding(doc, at.used.model.origin.clone()))
            .figures(peak_a, limit_a, Unit::Ampere)
            .with("which", if key == "inrush_current" { Term::InrushCurrent } else { Term::Current }.both())
            .with("station", holder)
            .also_at("limit", limit.origin.clone())
            .graded(assumed.grade());
        report.push(found);
    }
}
