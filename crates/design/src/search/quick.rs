//! The plans that are tried before any is learnt from: that of the bound as it is, with thicker cable, with less on each supply, and
//! such as signals suffer less from.

use super::Search;
use super::other::{trunk_wires, with_trunks};
use crate::judge::{Help, Judged};
use crate::money::Amount;
use crate::plan::{Assumptions, Plan};
use crate::planning::{plan, tables_for};

/// Plans with thicker cable that are assessed at most.
const MOST_LESS_LOSS: usize = 16;
/// Whether branch boxes may be, and dwellings on a run at most: plans whose signals suffer less.
const CAUTIONS: [(bool, usize); 8] =
    [(false, usize::MAX), (true, 8), (false, 8), (true, 4), (false, 5), (false, 3), (false, 2), (false, 1)];
/// Losses between supply and distributors that such plans reckon with.
const CAUTIOUS_DROPS_V: [f64; 3] = [0.25, 1.0, 3.0];
/// Items up to which they reckon with each of them.
const MOST_DROPS: usize = 60;
/// How often less is put on each supply.
const FILLS: usize = 14;
/// By how much less.
const FILL_STEP: f64 = 0.94;
impl Search<'_, '_> {
    /// The plan as it is, with thicker and thicker trunks, with less and less on each supply. Gives the
    /// fill that it ended with; nothing if no plan can change what is wrong.
    pub(super) fn quick(
        &mut self,
        root: usize,
        order: &[usize],
        first: Plan,
        known: Option<Amount>,
    ) -> Option<(Option<Judged>, f64)> {
        let wires = trunk_wires(self.instance);
        let mut fill = 1.0;
        let mut tried_less_loss = false;
        let mut current = Some(first);
        'fills: for _ in 0..FILLS {
            let Some(planned) = current.take() else { break };
            if known.is_some_and(|known| planned.cost + self.instance.fixed >= known) {
                break;
            }
            for &trunk in &wires {
                // Where the first that passes is taken, plans that reckon with losses get their share.
                if self.is_spent() || (self.takes_first && self.assessed > self.most_plans / 2) {
                    break 'fills;
                }
                let planned = with_trunks(&planned, trunk);
                if self.conflict_in(&planned).is_some() {
                    continue;
                }
                match self.judge_with_batteries(&planned) {
                    Ok(design) => return Some((Some(design), fill)),
                    Err(rejection) => {
                        self.remember(&planned, &rejection);
                        match rejection.help {
                            Help::Conductors | Help::OtherRuns => {}
                            Help::LessLoss | Help::LessLoad | Help::Batteries => {
                                if rejection.help == Help::LessLoss && !tried_less_loss {
                                    tried_less_loss = true;
                                    if let Some(judged) = self.less_loss(root, order, fill) {
                                        return Some((Some(judged), fill));
                                    }
                                }
                                fill *= FILL_STEP;
                                let assumptions = Assumptions {
                                    drop_v: 0.0,
                                    fill,
                                    trunk_wire: Some(wires[0].0),
                                    most_supplies: 0,
                                };
                                let tables = tables_for(self.instance, order, 0.0);
                                current = plan(self.instance, order, root, assumptions, Some(&tables));
                                continue 'fills;
                            }
                            Help::Nothing => {
                                self.unmendable = Some(rejection.unmendable);
                                return None;
                            }
                        }
                    }
                }
            }
        }
        Some((None, fill))
    }

    /// Plans whose runs and trunks have thicker and thicker cable, so that less is lost in them; the first that passes.
    fn less_loss(&mut self, root: usize, order: &[usize], fill: f64) -> Option<Judged> {
        let trunks = trunk_wires(self.instance);
        let mut limits: Vec<f64> = self.instance.wires.iter().map(|wire| wire.ohm_per_m).collect();
        limits.sort_by(|a, b| b.total_cmp(a));
        limits.insert(0, f64::INFINITY);
        limits.dedup();
        let mut plans: Vec<Plan> = Vec::new();
        for ohm_per_m in limits {
            let mut own = self.instance.clone();
            own.limits.ohm_per_m = ohm_per_m;
            let tables = tables_for(&own, order, 0.0);
            for trunk in trunks.iter().filter(|(_, pairs)| *pairs > 1) {
                let assumptions =
                    Assumptions { drop_v: 0.0, fill, trunk_wire: Some(trunk.0), most_supplies: 0 };
                let plan = plan(&own, order, root, assumptions, Some(&tables));
                plans.extend(plan.map(|plan| with_trunks(&plan, *trunk)));
            }
        }
        plans.sort_by_key(|plan| plan.cost);
        plans.dedup();
        plans.truncate(MOST_LESS_LOSS);
        plans
            .iter()
            .find_map(|plan| if self.is_spent() { None } else { self.judge_with_batteries(plan).ok() })
    }

    /// Plans with shorter and fewer chains and without branch boxes, from which signals suffer less; of those that pass the cheapest that
    /// halving finds. No claim rests on it.
    pub(super) fn cautious(&mut self, root: usize, order: &[usize], fill: f64) -> Option<Judged> {
        let limits = &self.instance.limits;
        let is_large = self.instance.items.len() > MOST_DROPS;
        let mut plans: Vec<Plan> = Vec::new();
        for (branches, dwellings) in CAUTIONS {
            if dwellings > limits.dwellings && branches == limits.branches {
                continue;
            }
            let mut own = self.instance.clone();
            own.limits.branches &= branches;
            own.limits.dwellings = own.limits.dwellings.min(dwellings);
            for drop_v in if is_large { &CAUTIOUS_DROPS_V[1..2] } else { &CAUTIOUS_DROPS_V[..] } {
                let tables = tables_for(&own, order, *drop_v);
                for trunk in trunk_wires(&own).into_iter().skip(1).step_by(2).take(2) {
                    let assumptions =
                        Assumptions { drop_v: *drop_v, fill, trunk_wire: Some(trunk.0), most_supplies: 0 };
                    let plan = plan(&own, order, root, assumptions, Some(&tables));
                    plans.extend(plan.map(|plan| with_trunks(&plan, trunk)));
                }
            }
        }
        plans.sort_by_key(|plan| plan.cost);
        plans.dedup();
        let mut best = None;
        let (mut low, mut high) = (0, plans.len());
        while low < high && !self.is_spent() {
            let middle = (low + high) / 2;
            match self.judge_with_batteries(&plans[middle]) {
                Ok(judged) => {
                    best = Some(judged);
                    high = middle;
                }
                Err(_) => low = middle + 1,
            }
        }
        best
    }
}
