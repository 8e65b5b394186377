//! Blocks: one distributor with neighbouring items, divided into runs at least cost; and trunks of blocks.

use crate::money::{Amount, NONE};
use crate::plan::{Block, Planner, Step, Trunk, TrunkStart};
use crate::runs::RunTable;

impl Planner<'_, '_> {
    /// Ports that a distributor has for items `first..end`; the first of the site gives some to links.
    pub(crate) fn ports(&self, model: usize, first: usize, end: usize) -> usize {
        let serves = (first..end).any(|at| self.is_dwelling(at));
        let spare = if serves { self.instance.limits.spare } else { 0 };
        let links = if first == 0 { self.links } else { 0 };
        self.instance.distributors[model].ports.saturating_sub(spare + links)
    }

    /// Cost of the cheapest division of items from `first` on into at most `ports` runs, by end.
    pub(crate) fn divisions(&self, table: &RunTable, first: usize, ports: usize) -> Vec<Amount> {
        let most = self.reach[first] - first;
        let mut best = vec![NONE; most + 1];
        best[0] = 0;
        let mut last = best.clone();
        let mut reached = 0;
        for _ in 0..ports {
            let mut next = last.clone();
            let mut further = reached;
            for (from, &so_far) in last.iter().enumerate().take(reached + 1) {
                if so_far >= NONE {
                    continue;
                }
                for (count, run) in
                    table.from.get(first + from).map_or(&[][..], Vec::as_slice).iter().enumerate()
                {
                    let end = from + count + 1;
                    if end > most {
                        break;
                    }
                    next[end] = next[end].min(so_far + run.cost);
                    further = further.max(end);
                }
            }
            reached = further;
            last = next;
        }
        for (end, value) in last.iter().enumerate() {
            best[end] = best[end].min(*value);
        }
        best
    }

    pub(crate) fn block_allowed(&self, model: usize, first: usize, end: usize) -> bool {
        let kind = &self.instance.distributors[model];
        let (Some(output), Some(loads)) = (kind.regenerated, &self.outputs[model]) else { return true };
        loads.busiest_a(first, end) * output.voltage_v <= output.power_w * self.assumptions.fill
    }

    /// The best distributors for items from one on, by place.
    pub(crate) fn blocks_from(&self, first: usize) -> Vec<Block> {
        (0..self.instance.box_places.len()).map(|place| self.block(first, place)).collect()
    }

    fn block(&self, first: usize, place: usize) -> Block {
        self.block_of(first, &|model| &self.tables.ports[model][place])
    }

    /// The best distributor for items from one on, whose ports take what the table of its kind has.
    pub(crate) fn block_of<'t>(&self, first: usize, table: &dyn Fn(usize) -> &'t RunTable) -> Block {
        let most = self.reach[first] - first;
        let mut block: Block = vec![(NONE, 0); most + 1];
        for (model, kind) in self.instance.distributors.iter().enumerate() {
            let table = table(model);
            if table.from[first].is_empty() {
                continue;
            }
            // Spare ports hold only where a dwelling is served: two divisions where it differs.
            let strict = self.ports(model, first, first + most);
            let loose = self.ports(model, first, first);
            let with = self.divisions(table, first, strict);
            let without = (loose != strict).then(|| self.divisions(table, first, loose));
            let mut serves = false;
            for end in 1..=most {
                serves |= self.is_dwelling(first + end - 1);
                let division = match (&without, serves) {
                    (Some(without), false) => without[end],
                    _ => with[end],
                };
                let total = division.saturating_add(kind.cost);
                if total < block[end].0
                    && (kind.regenerated.is_none() || self.block_allowed(model, first, first + end))
                {
                    block[end] = (total, model as u8);
                }
            }
        }
        // Nothing beyond the last that can be served is worth keeping.
        let used = block.iter().rposition(|(cost, _)| *cost < NONE).map_or(0, |end| end + 1);
        block.truncate(used);
        block
    }

    /// Best trunks from `first` on: for every end the cost, and the steps that lead there.
    pub(crate) fn trunk(&self, start: TrunkStart, first: usize) -> Trunk {
        let places = &self.instance.box_places;
        let most = self.reach[first] - first;
        let unreached = Step { cost: NONE, from: 0, before: usize::MAX, model: 0 };
        let mut trunk = Trunk {
            cost: vec![NONE; most + 1],
            last: vec![0; most + 1],
            steps: vec![vec![unreached; places.len()]; most + 1],
        };
        // By end: the places of the last distributor.
        let mut ends_at: Vec<Vec<usize>> = vec![Vec::new(); most + 1];
        for done in 0..most {
            if done > 0 && trunk.cost[done] >= NONE {
                continue;
            }
            let blocks = &self.blocks[first + done];
            for (at, block) in blocks.iter().enumerate().filter(|(_, block)| block.len() > 1) {
                let (come, before) = if done == 0 {
                    if start.first_at.is_some_and(|only| only != places[at]) {
                        continue;
                    }
                    (self.trunk_cost(start.place, places[at]), usize::MAX)
                } else {
                    let by = |before: &usize| {
                        (trunk.steps[done][*before].cost + self.between[*before][at], *before)
                    };
                    ends_at[done].iter().map(by).min().unwrap_or((NONE, usize::MAX))
                };
                if come >= NONE {
                    continue;
                }
                for (count, &(block, model)) in block.iter().enumerate().skip(1) {
                    let end = done + count;
                    if end > most {
                        break;
                    }
                    let total = come + block;
                    let step = &mut trunk.steps[end][at];
                    if block < NONE && total < step.cost {
                        if step.cost >= NONE {
                            ends_at[end].push(at);
                        }
                        *step = Step { cost: total, from: done, before, model };
                        if total < trunk.cost[end] {
                            trunk.cost[end] = total;
                            trunk.last[end] = at;
                        }
                    }
                }
            }
        }
        trunk
    }
}
