//! `lock-contact-wiring`

use crate::door::LockAt;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{Both, CodeDoc};
use latchline_site::model::RelayContact;
use latchline_wiring::lock::required_contact;
use latchline_words::terms::Term;

rule! {
    pub static LOCK_CONTACT_WIRING: "lock-contact-wiring", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    for at in LockAt::all(context.site) {
        if at.takes_dry_contact() {
            continue;
        }
        let required = required_contact(at.lock.power_loss.value);
        let stated = at.used.contact.value;
        if stated == required {
            continue;
        }
        let kind = match required {
            RelayContact::NormallyClosed => Term::OpensWithoutPower.both(),
            RelayContact::NormallyOpen => Term::StaysShutWithoutPower.both(),
        };
        let found = at
            .describe(finding(doc, at.used.contact.origin.clone()))
            .with("stated", contact_words(stated))
            .with("required", contact_words(required))
            .with("kind", kind)
            .also_at("limit", at.lock.power_loss.origin.clone())
            .graded(super::limit::grade(&at.lock.head.name, "power_loss", &at.lock.power_loss));
        report.push(found);
    }
}

fn contact_words(contact: RelayContact) -> Both {
    match contact {
        RelayContact::NormallyOpen => Term::NormallyOpen.both(),
        RelayContact::NormallyClosed => Term::NormallyClosed.both(),
    }
}
