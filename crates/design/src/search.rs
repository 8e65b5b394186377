//! The cheapest plan of one walking order that passes, learning from those that are rejected.
//!
//! Planning knows voltages and loads of runs but not the signal, the start-up or the whole flow; the
//! assessment does. First the plan of the bound is tried as it is, with thicker and thicker trunks and with
//! less on each supply. Where that leaves a gap, plans are taken in the order of their cost: one that is
//! rejected for what some of its runs do together is replaced by the cheapest ones without one of
//! those runs (branch and bound on learnt conflicts). A conflict is a judgement on its runs with the
//! trunk cable; that no other companion mends it is likely, not proved, so on small sites only whole plans are
//! remembered and each of their runs is left out in turn. No claim rests on a conflict: the bound is that of the plan
//! without any.

mod candidate;
mod conflicts;
mod other;
mod quick;

use crate::arrangement::SMALL_SITE;
use crate::effort::Effort;
use crate::instance::Instance;
use crate::judge::{Help, Judged, Rejection, judge};
use crate::money::{Amount, money};
use crate::obstacle::Obstacle;
use crate::outcome::Texts;
use crate::plan::{Assumptions, Plan};
use crate::planning::{plan, tables_for};
use crate::runs::{Barred, RunKey, Tables, without};
use candidate::Candidate;
use conflicts::{Conflict, Conflicts, keys, sides, supplies, trunk_cable};
use latchline_assess::Memory;
use latchline_finding::{Both, Money};
use other::{trunk_wires, with_larger_supply, with_trunks};
use std::collections::{BTreeSet, BinaryHeap};

/// Items above which a site is large.
pub const LARGE_SITE: usize = 300;
/// Voltage losses between supply and distributors that are planned with.
const DROPS_V: [f64; 7] = [0.0, 0.25, 0.5, 1.0, 2.0, 3.0, 4.5];
/// Those where the first design that passes is taken.
const FIRST_DROPS_V: [f64; 2] = [0.5, 2.0];
/// Those of a large site.
const DROPS_LARGE_V: [f64; 2] = [0.0, 1.0];
/// A plan this near to its bound, as a fraction, is not improved further on a site that is not small.
pub const GOOD_ENOUGH: f64 = 0.01;
/// Batteries in parallel on one supply at most.
const MOST_BATTERIES: u32 = 4;
/// Trunk cables that plans reckon with.
const MOST_TRUNK_WIRES: usize = 6;
/// Items up to which a rejected plan is replaced by the cheapest without each of its runs in turn, so that none is left
/// out; above, by those without the runs at fault.
const SINGLY: usize = 8;

/// Candidates of a small site that are taken over all walking orders.
const MOST_TAKEN: usize = 8_000;
/// How often a small site learns from voltages, loads and batteries: planning knows of these, so what is left to find is rare, and a
/// site that no plan carries would else be searched to its last grouping.
const MOST_LESSONS: usize = 2000;

/// Looks for plans that pass, over all walking orders.
pub struct Search<'s, 'a> {
    instance: &'s Instance<'a>,
    texts: Texts<'s>,
    memory: Memory,
    conflicts: Conflicts,
    /// Candidates that were taken on a small site, over all walking orders.
    taken: usize,
    /// How often something was learnt from what planning knows of.
    lessons: usize,
    /// Plans that were assessed.
    pub assessed: usize,
    /// Plans that may be assessed.
    most_plans: usize,
    /// Whether the first design that passes is taken.
    takes_first: bool,
    /// Whether cautious plans failed, too.
    is_beyond_caution: bool,
    /// What a plan failed by that no plan can change, in sentences; then nothing further is tried.
    pub unmendable: Option<Vec<Both>>,
    /// The rejection of the plan that came nearest to passing.
    nearest: Option<Rejection>,
}

/// Plans that are made of one set of assumptions.
struct Root {
    assumptions: Assumptions,
    /// Index of its tables.
    tables: usize,
    /// Pairs in parallel on its trunks.
    pairs: u32,
}

impl<'s, 'a> Search<'s, 'a> {
    /// Nothing known yet.
    pub fn new(instance: &'s Instance<'a>, texts: Texts<'s>, memory: &Memory, effort: Effort) -> Self {
        let memory = memory.clone();
        Search {
            instance,
            texts,
            memory,
            conflicts: Conflicts::default(),
            taken: 0,
            lessons: 0,
            assessed: 0,
            most_plans: effort.most_plans,
            takes_first: effort.takes_first,
            unmendable: None,
            is_beyond_caution: false,
            nearest: None,
        }
    }

    fn judge(&mut self, plan: &Plan) -> Result<Judged, Rejection> {
        self.assessed += 1;
        let judged = judge(self.instance, self.texts, &self.memory, &[plan]);
        if let Err(rejection) = &judged
            && self.nearest.as_ref().is_none_or(|nearest| rejection.excess < nearest.excess)
        {
            self.nearest = Some(rejection.clone());
        }
        judged
    }

    /// A plan with as many batteries in parallel as it needs.
    fn judge_with_batteries(&mut self, plan: &Plan) -> Result<Judged, Rejection> {
        let mut plan = plan.clone();
        loop {
            let judged = self.judge(&plan);
            let enough = plan.zones.iter().all(|zone| zone.batteries >= MOST_BATTERIES);
            if enough || !matches!(&judged, Err(rejection) if rejection.help == Help::Batteries) {
                return judged;
            }
            plan.zones.iter_mut().for_each(|zone| zone.batteries += 1);
        }
    }

    /// Whether as many plans were assessed as may be.
    fn is_spent(&self) -> bool {
        self.assessed >= self.most_plans
    }

    fn rejected(&self) -> Obstacle {
        if let Some(findings) = &self.unmendable {
            return Obstacle::Unmendable { findings: findings.clone() };
        }
        let findings = self.nearest.as_ref().map_or(Vec::new(), |nearest| nearest.told.clone());
        Obstacle::Rejected { tried: self.assessed, findings }
    }

    /// How many candidates are taken at most.
    fn most_tried(&self) -> usize {
        match self.instance.items.len() {
            items if items <= SINGLY => 2000,
            items if items <= SMALL_SITE => 200,
            items if items <= LARGE_SITE => 24,
            _ => 16,
        }
    }

    /// The cheapest plan of an order that passes and costs less than `known`.
    ///
    /// # Errors
    /// [`Obstacle::Rejected`] if plans were found but none passes.
    pub fn pass(
        &mut self,
        root: usize,
        order: &[usize],
        first: Plan,
        known: Option<Amount>,
    ) -> Result<Option<Judged>, Obstacle> {
        let bound = money(first.cost + self.instance.fixed);
        let Some((mut best, fill)) = self.quick(root, order, first, known) else {
            return Err(self.rejected());
        };
        if best.is_some() && self.takes_first {
            return Ok(best);
        }
        if best.is_none() && known.is_none() && !self.is_beyond_caution && !self.takes_first {
            best = self.cautious(root, order, fill);
            self.is_beyond_caution = best.is_none();
        }
        let half_a_box =
            self.instance.distributors.first().map_or(0.0, |kind| money(kind.cost).as_units()) * 0.5;
        let share = |of_bound: f64| Money::from_units((bound.as_units() * of_bound).max(half_a_box));
        let items = self.instance.items.len();
        let allowed = match items {
            items if items <= SMALL_SITE => Money::from_millionths(1),
            _ => share(GOOD_ENOUGH),
        };
        if best.as_ref().is_some_and(|best| best.cost - bound <= allowed) {
            return Ok(best);
        }
        let below = best.as_ref().map(|best| best.cost).into_iter().chain(known.map(money)).min();
        if let Some(design) = self.learn(root, order, fill, best.is_some(), below, false) {
            best = Some(design);
        }
        // On a small site the same plan with other runs barred leads to other plans, too.
        if items <= SINGLY {
            let below = best.as_ref().map(|best| best.cost).into_iter().chain(known.map(money)).min();
            if let Some(design) = self.learn(root, order, fill, best.is_some(), below, true) {
                best = Some(design);
            }
        }
        if best.is_none() { Err(self.rejected()) } else { Ok(best) }
    }

    /// Candidates in the order of their cost, without what was learnt to fail. `is_single`: a plan that comes again with other runs barred is
    /// gone on from as well.
    fn learn(
        &mut self,
        root: usize,
        order: &[usize],
        fill: f64,
        has_one: bool,
        below: Option<Money>,
        is_single: bool,
    ) -> Option<Judged> {
        let wires = trunk_wires(self.instance);
        // On a small site every plan is learnt from by itself, so the search begins with full supplies again.
        let fill = if self.instance.items.len() <= SINGLY { 1.0 } else { fill };
        let mut tables: Vec<Tables> = Vec::new();
        let mut roots: Vec<Root> = Vec::new();
        let mut heap: BinaryHeap<Candidate> = BinaryHeap::new();
        let mut number = 0;
        let is_large = self.instance.items.len() > LARGE_SITE;
        let drops = DROPS_V.into_iter().filter(|drop_v| match (self.takes_first, is_large) {
            (true, _) => FIRST_DROPS_V.contains(drop_v),
            (false, true) => DROPS_LARGE_V.contains(drop_v),
            (false, false) => true,
        });
        let trunks: Vec<(usize, u32)> = if self.takes_first {
            // One of the middle, and the thickest.
            wires.get(wires.len() / 2).into_iter().chain(wires.last()).copied().collect()
        } else {
            wires.iter().take(if is_large { 2 } else { MOST_TRUNK_WIRES }).copied().collect()
        };
        for drop_v in drops {
            if self.is_spent() {
                break;
            }
            tables.push(tables_for(self.instance, order, drop_v));
            for &(trunk_wire, pairs) in &trunks {
                let assumptions =
                    Assumptions { drop_v, fill, trunk_wire: Some(trunk_wire), most_supplies: 0 };
                let at = tables.len() - 1;
                if let Some(plan) = plan(self.instance, order, root, assumptions, Some(&tables[at])) {
                    number += 1;
                    let plan = with_trunks(&plan, (trunk_wire, pairs));
                    heap.push(Candidate { plan, root: roots.len(), barred: Barred::new(), number });
                    roots.push(Root { assumptions, tables: at, pairs });
                }
            }
            if has_one && self.instance.items.len() > 150 {
                break;
            }
        }
        let mut seen: Vec<(Plan, Option<Barred>)> = Vec::new();
        for _ in 0..self.most_tried() {
            if self.is_spent() || (is_single && self.taken >= MOST_TAKEN) {
                break;
            }
            self.taken += usize::from(is_single);
            let Some(candidate) = heap.pop() else { break };
            let cost = money(candidate.plan.cost + self.instance.fixed);
            if below.is_some_and(|below| cost >= below) {
                break;
            }
            let one = (candidate.plan.clone(), is_single.then(|| candidate.barred.clone()));
            if seen.contains(&one) {
                continue;
            }
            seen.push(one);
            let known = self.conflict_in(&candidate.plan);
            let sides = match known {
                Some(conflict) => sides(&[conflict]),
                None => match self.judge_with_batteries(&candidate.plan) {
                    Ok(design) => return Some(design),
                    Err(rejection) => {
                        let conflicts = self.remember(&candidate.plan, &rejection);
                        sides(&conflicts)
                    }
                },
            };
            if is_single && let Some(plan) = with_larger_supply(self.instance, &candidate.plan) {
                number += 1;
                heap.push(Candidate { plan, root: candidate.root, barred: candidate.barred.clone(), number });
            }
            let Root { assumptions, tables: at, pairs } = roots[candidate.root];
            for side in sides {
                let mut barred = candidate.barred.clone();
                barred.extend(side);
                let changed = without(self.instance, order, assumptions.drop_v, &tables[at], &barred);
                let Some(plan) = plan(self.instance, order, root, assumptions, Some(&changed)) else {
                    continue;
                };
                number += 1;
                let plan = with_trunks(&plan, (trunk_cable(&candidate.plan).0, pairs));
                heap.push(Candidate { plan, root: candidate.root, barred, number });
            }
        }
        None
    }

    /// A known conflict that a plan has.
    fn conflict_in(&self, plan: &Plan) -> Option<Conflict> {
        if self.conflicts.by_first.is_empty() {
            return None;
        }
        let runs: BTreeSet<RunKey> = keys(plan).into_iter().collect();
        self.conflicts.among(trunk_cable(plan), &runs, &supplies(plan)).cloned()
    }

    /// Keeps what a rejection says of runs together.
    fn remember(&mut self, plan: &Plan, rejection: &Rejection) -> Vec<Conflict> {
        let items = self.instance.items.len();
        let is_new = self.lessons < MOST_LESSONS;
        let learns = match rejection.help {
            Help::OtherRuns => true,
            Help::Conductors => items <= SMALL_SITE,
            Help::LessLoss => items <= SMALL_SITE && is_new,
            Help::LessLoad | Help::Batteries => items <= SINGLY && is_new,
            Help::Nothing => false,
        };
        self.lessons +=
            usize::from(matches!(rejection.help, Help::LessLoss | Help::LessLoad | Help::Batteries));
        if !learns {
            return Vec::new();
        }
        let keys = keys(plan);
        let of = |items: &BTreeSet<usize>| -> BTreeSet<RunKey> {
            let has = |item: &usize| keys.iter().find(|key| key.items.contains(item));
            items.iter().filter_map(has).cloned().collect()
        };
        let trunk = trunk_cable(plan);
        if self.instance.items.len() <= SINGLY {
            // Another companion may mend it: only the whole is known to fail.
            let whole = Conflict { trunk, runs: keys.into_iter().collect(), supplies: supplies(plan) };
            self.conflicts.insert(whole.clone());
            return vec![whole];
        }
        let found: BTreeSet<Conflict> = rejection
            .blamed
            .iter()
            .map(|items| Conflict { trunk, runs: of(items), supplies: Vec::new() })
            .filter(|conflict| !conflict.runs.is_empty())
            .collect();
        found.iter().cloned().for_each(|conflict| self.conflicts.insert(conflict));
        found.into_iter().collect()
    }
}
