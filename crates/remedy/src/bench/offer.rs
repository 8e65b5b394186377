//! What is told of a change that mends a finding.

use super::Bench;
use super::cheapest::Mending;
use crate::candidate::Candidate;
use crate::mains_lost::MainsLostAt;
use crate::outcome::{Key, Outcome, key};
use latchline_finding::{Brought, Edit, Finding, MainsLost, Remedy};

impl Bench<'_> {
    /// What a change makes of the site while the mains are lost.
    fn mains_lost_by(&self, change: &Edit) -> Vec<MainsLost> {
        let now = self.mains_lost.get_or_init(|| MainsLostAt::of(self.site, self.layout()));
        self.sketch(change).map_or(Vec::new(), |sketch| now.changed_on(&sketch.site))
    }

    /// The remedy that a candidate stands for which mends a finding. Where a lesser form of the finding stays, that is told as what comes in
    /// its place.
    pub(crate) fn remedy(&self, candidate: &Candidate, mending: &Mending, finding: &Finding) -> Remedy {
        let Outcome { found, severity, .. } = &*mending.outcome;
        let key = key(finding);
        let mut clears: Vec<Key> = self.known.difference(found).cloned().collect();
        let mut brings = mending.outcome.brought(&self.known);
        if let Some(left) = severity.get(&key) {
            let (code, element) = key.clone();
            brings.insert(0, Brought { code, severity: *left, element });
            clears.push(key);
            clears.sort();
        }
        Remedy {
            kind: candidate.kind,
            edit: candidate.edit.clone(),
            parts: candidate.parts.clone(),
            value_after: mending.outcome.value_after(finding),
            cost: mending.price.material,
            buys: mending.price.buys,
            priced: mending.price.material.is_none().then_some(mending.price.priced),
            // What is bought without a price and takes no work that is known has none stated either: that nothing is to do is not known.
            minutes: Some(mending.price.minutes).filter(|minutes| {
                minutes.is_finite() && (*minutes > 0.0 || mending.price.material.is_some())
            }),
            clears,
            brings,
            mains_lost: self.mains_lost_by(&candidate.edit),
            measure: None,
        }
    }
}
