//! The plan behind a least cost, found again step by step.

use crate::branches::{Branching, branchings};
use crate::money::NONE;
use crate::plan::{PlannedBox, PlannedRun, PlannedTrunk, PlannedZone, Planner, Trunk};
use crate::runs::{Layout, RunChoice, cost};
use crate::zones::Zone;

impl Planner<'_, '_> {
    pub(crate) fn trace(&self, zone: &Zone, made: &dyn Fn(usize) -> Trunk, is_hub: bool) -> PlannedZone {
        let mut parts = vec![(zone.first, zone.middle)];
        if zone.middle < zone.end {
            parts.push((zone.middle, zone.end));
        }
        let trunks = parts
            .into_iter()
            .map(|(first, end)| PlannedTrunk {
                boxes: self.trace_trunk(&made(first), first, end),
                wire: self.assumptions.trunk_wire.unwrap_or(0),
            })
            .collect();
        let place = if is_hub { self.root } else { self.instance.mains[zone.mains] };
        PlannedZone { place, isolator_place: self.nearest_box(place), supply: zone.supply, trunks }
    }

    pub(crate) fn trace_trunk(&self, trunk: &Trunk, first: usize, end: usize) -> Vec<PlannedBox> {
        let mut boxes = Vec::new();
        let mut done = end - first;
        let mut at = trunk.last[done];
        while done > 0 {
            let step = trunk.steps[done][at];
            boxes.push(self.trace_block(at, usize::from(step.model), first + step.from, first + done));
            done = step.from;
            at = step.before;
            if at == usize::MAX {
                break;
            }
        }
        boxes.reverse();
        boxes
    }

    /// The division of a block into runs, found again.
    pub(crate) fn trace_block(&self, place: usize, model: usize, first: usize, end: usize) -> PlannedBox {
        let table = &self.tables[model][place];
        let ports = self.ports(model, first, end);
        let most = end - first;
        let mut best = vec![vec![(NONE, 0usize); most + 1]; ports + 1];
        for row in &mut best {
            row[0] = (0, 0);
        }
        for used in 1..=ports {
            for done in 1..=most {
                best[used][done] = best[used - 1][done];
                for count in 1..=done {
                    let before = best[used - 1][done - count].0;
                    let run = cost(&table.from[first + done - count], count);
                    if before < NONE && run < NONE && before + run < best[used][done].0 {
                        best[used][done] = (before + run, count);
                    }
                }
            }
        }
        let mut runs = Vec::new();
        let (mut used, mut done) = (ports, most);
        while done > 0 && used > 0 {
            if best[used][done] == best[used - 1][done] {
                used -= 1;
                continue;
            }
            let count = best[used][done].1;
            let start = first + done - count;
            runs.push(self.planned_run(
                self.instance.box_places[place],
                start,
                count,
                table.from[start][count - 1],
            ));
            done -= count;
            used -= 1;
        }
        runs.reverse();
        PlannedBox { place: self.instance.box_places[place], model, runs }
    }

    fn planned_run(&self, place: usize, first: usize, count: usize, choice: RunChoice) -> PlannedRun {
        match choice.layout {
            Layout::Chain(arrangement) | Layout::InWalls(arrangement) => {
                let items = arrangement.apply(&self.order[first..first + count]);
                PlannedRun { items, choice, branching: None }
            }
            Layout::Branched => {
                let mut branched = branchings(self.instance, self.order, place, first);
                let branching = branched.swap_remove(count - 1);
                let items = branching.iter().flat_map(Branching::items).collect();
                PlannedRun { items, choice, branching }
            }
        }
    }
}
