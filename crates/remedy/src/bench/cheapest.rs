//! The cheapest candidates that mend a finding.

use super::Bench;
use super::known::{Sketch, Wanted};
use super::price::Price;
use crate::candidate::Candidate;
use crate::outcome::{Outcome, key};
use latchline_finding::{Edit, Finding, Money, Severity};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Most candidates of a kind tried beyond the cheapest that mends, for one that brings no warning.
const MOST_CLEANER: usize = 3;

/// Most changes looked at at once, on as many processors: those beyond the one that is taken were looked at for nothing.
const MOST_AT_ONCE: usize = 4;

/// How many are wanted.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Most {
    /// Kinds of which the cheapest is kept.
    pub kinds: usize,
    /// What they may cost where one that costs no more is known, if that is all that is asked for.
    pub cost: Option<Money>,
}

impl Most {
    /// So many kinds, whatever they cost.
    pub fn kinds(kinds: usize) -> Self {
        Most { kinds, cost: None }
    }

    fn allows(self, price: &Price) -> bool {
        self.cost.is_none_or(|most| price.material.is_some_and(|material| material <= most))
    }
}

/// A candidate that mends a finding.
pub(crate) struct Mending {
    /// Which of the candidates.
    pub index: usize,
    pub(super) price: Price,
    pub(super) outcome: Arc<Outcome>,
}

/// A candidate with its price, and with its site if that takes time to make again.
struct Priced {
    index: usize,
    price: Price,
    sketch: Option<Sketch>,
}

impl Bench<'_> {
    /// The cheapest candidate of each kind that mends a finding: those that bring no warning first, of these the cheapest; of those that
    /// cost the same the ones that bring no finding, then least labour, then in the order of the candidates. At most so many.
    ///
    /// Costs are known before anything is solved, so all are tried in that order, those of one kind until one of them mends without a
    /// warning or `MOST_CLEANER` more were tried, and none behind the last that is wanted. Where none mends it, those that leave a lesser
    /// form of it do, an advice for a warning. With a most that they may cost, dearer ones are tried only until the first that mends.
    pub(crate) fn cheapest_of_each_kind(
        &self,
        candidates: &[Candidate],
        finding: &Finding,
        most: Most,
    ) -> Vec<Mending> {
        let kept = self.cheapest(candidates, Wanted { finding, may_lessen: false }, most);
        if !kept.is_empty() {
            return kept;
        }
        let key = key(finding);
        let lessens = |candidate: &Candidate| {
            self.known_changes.lock().is_ok_and(|changes| {
                changes.get(&candidate.edit).is_some_and(|known| known.lessens.contains(&key))
            })
        };
        if candidates.iter().any(lessens) {
            self.cheapest(candidates, Wanted { finding, may_lessen: true }, most)
        } else {
            kept
        }
    }

    /// Those that can be made, cheapest first; what a client has chosen is changed last.
    fn in_order_of_price(&self, candidates: &[Candidate]) -> Vec<Priced> {
        let mut priced: Vec<Priced> = candidates
            .par_iter()
            .enumerate()
            .filter_map(|(index, candidate)| {
                let (mut price, sketch) = self.priced(&candidate.edit)?;
                if !candidate.is_priced {
                    price.material = None;
                }
                Some(Priced { index, price, sketch })
            })
            .collect();
        let is_chosen = |index: usize| candidates[index].edit.changes_stations_of_dwellings();
        priced.sort_by(|a, b| {
            let by_choice = is_chosen(a.index).cmp(&is_chosen(b.index));
            by_choice.then(a.price.order(&b.price)).then(a.index.cmp(&b.index))
        });
        priced
    }

    /// The cheapest candidate that mends all of these findings and brings no error or warning.
    pub(crate) fn cheapest_for_all(
        &self,
        candidates: &[Candidate],
        findings: &[&Finding],
    ) -> Option<Mending> {
        let wanted = Wanted { finding: findings.first()?, may_lessen: false };
        let mends_all =
            |outcome: &Outcome| findings.iter().all(|finding| !outcome.found.contains(&key(finding)));
        self.in_order_of_price(candidates).into_iter().find_map(|Priced { index, price, sketch }| {
            let change = &candidates[index].edit;
            // What was seen to leave one of them does not do.
            if self.is_known_to_leave(change, findings) {
                return None;
            }
            let seen = self.judge(change, sketch, wanted)?;
            if !mends_all(&seen) || self.worst_brought(&seen) >= Some(Severity::Warning) {
                return None;
            }
            let outcome = self.through_text(change, wanted)?;
            mends_all(&outcome).then_some(Mending { index, price, outcome })
        })
    }

    /// Looks at several changes at once, so that what is known of each is there when its turn comes; of a kind of which one was found none is.
    /// In which order does not matter: what is known of a change does not depend on what was looked at before it.
    fn look_at_together(
        &self,
        several: &mut [Priced],
        candidates: &[Candidate],
        wanted: Wanted<'_>,
        is_open: &(dyn Fn(&str) -> bool + Sync),
    ) {
        several.par_iter_mut().for_each(|one| {
            let candidate = &candidates[one.index];
            if is_open(candidate.kind) {
                self.judge(&candidate.edit, one.sketch.take(), wanted);
            }
        });
    }

    /// Whether a change was looked at and leaves one of these findings.
    pub(crate) fn is_known_to_leave(&self, change: &Edit, findings: &[&Finding]) -> bool {
        self.known_changes.lock().is_ok_and(|changes| {
            let known = changes.get(change);
            known.is_some_and(|known| findings.iter().any(|finding| known.leaves.contains(&key(finding))))
        })
    }

    fn cheapest(&self, candidates: &[Candidate], wanted: Wanted<'_>, most: Most) -> Vec<Mending> {
        let is_chosen = |index: usize| candidates[index].edit.changes_stations_of_dwellings();
        let mut found: BTreeMap<&str, (Mending, usize)> = BTreeMap::new();
        let mut priced = self.in_order_of_price(candidates);
        let at_once = rayon::current_num_threads().clamp(1, MOST_AT_ONCE);
        // Those that cost no more come first, those that change what was chosen last.
        let within = match most.cost {
            Some(_) => priced.partition_point(|one| !is_chosen(one.index) && most.allows(&one.price)),
            None => priced.len(),
        };
        for place in 0..priced.len() {
            if found.values().filter(|(known, _)| !self.warns(known)).count() == most.kinds {
                break;
            }
            let end = if found.is_empty() { priced.len() } else { within };
            if place >= end {
                break;
            }
            if at_once > 1 && place % at_once == 0 {
                let end = (place + at_once).min(end);
                let is_open = |kind: &str| !found.contains_key(kind);
                self.look_at_together(&mut priced[place..end], candidates, wanted, &is_open);
            }
            let Priced { index, price, ref mut sketch } = priced[place];
            let sketch = sketch.take();
            let kind = candidates[index].kind;
            let known = found.get_mut(kind);
            // Another of the kind is better only if it brings less: none at all at the same cost, no warning at some more.
            let brought = match known {
                None => None,
                Some((known, more)) => {
                    let brought = self.worst_brought(&known.outcome);
                    let is_dearer = known.price.material != price.material;
                    *more += 1;
                    let is_hopeless =
                        is_dearer && (brought < Some(Severity::Warning) || *more > MOST_CLEANER);
                    if brought.is_none() || is_hopeless {
                        continue;
                    }
                    Some(brought)
                }
            };
            let change = &candidates[index].edit;
            if let Some(outcome) = self.judge(change, sketch, wanted)
                && brought.is_none_or(|brought| self.worst_brought(&outcome) < brought)
                && let Some(outcome) = self.through_text(change, wanted)
            {
                found.insert(kind, (Mending { index, price, outcome }, 0));
            }
        }
        let mut kept: Vec<Mending> = found.into_values().map(|(mending, _)| mending).collect();
        kept.sort_by(|a, b| {
            let brings = |one: &Mending| self.worst_brought(&one.outcome).is_some();
            let by_warnings = self.warns(a).cmp(&self.warns(b));
            is_chosen(a.index)
                .cmp(&is_chosen(b.index))
                .then(by_warnings)
                .then(a.price.by_material(&b.price))
                .then(brings(a).cmp(&brings(b)))
                .then(a.price.order(&b.price))
                .then(a.index.cmp(&b.index))
        });
        kept.truncate(most.kinds);
        kept
    }

    /// Whether a change brings a warning that was not there.
    fn warns(&self, mending: &Mending) -> bool {
        self.worst_brought(&mending.outcome) >= Some(Severity::Warning)
    }

    /// How much the worst finding matters that a change brings and that was not there; `None` if it brings none.
    fn worst_brought(&self, outcome: &Outcome) -> Option<Severity> {
        outcome.worst_brought(&self.known)
    }
}
