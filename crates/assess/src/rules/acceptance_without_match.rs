//! `acceptance-without-match`

use crate::rule::{Context, Report, rule};
use latchline_finding::CodeDoc;

rule! {
    /// # What it checks
    /// That every `[[accept]]` entry of the site file still matches a finding.
    ///
    /// # Why it matters
    /// An acceptance that matches nothing hides nothing today, but it would hide the next finding of
    /// its code and element unread. It is also a sign that a name was changed.
    ///
    /// # Example
    /// `A-R1` was renamed `A-W1`; its accepted finding shows up again and the old acceptance stands idle.
    ///
    /// # What to do
    /// Remove the entry, or correct its code or element.
    pub static ACCEPTANCE_WITHOUT_MATCH: "acceptance-without-match", Warning,
        "An accepted finding that does not occur", check
}

/// Acceptances are matched after all rules have run, in `acceptance`.
fn check(_: &CodeDoc, _: &Context<'_>, _: &mut Report) {}
