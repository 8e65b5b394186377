//! The plan behind a least cost, found again step by step.

use crate::branches::{Branching, branchings};
use crate::hub::Hub;
use crate::money::NONE;
use crate::plan::{PlannedBox, PlannedRun, PlannedTrunk, PlannedZone, Planner, Trunk};
use crate::runs::{Layout, RunChoice, RunTable, cost};
use crate::zones::Zone;

impl Planner<'_, '_> {
    /// A zone, with what its outputs feed as `made` says of the first item and the one after the last.
    pub(crate) fn trace(
        &self,
        zone: &Zone,
        made: &dyn Fn(usize, usize) -> PlannedTrunk,
        is_hub: bool,
    ) -> PlannedZone {
        let mut trunks = vec![made(zone.first, zone.middle)];
        if zone.middle < zone.end {
            trunks.push(made(zone.middle, zone.end));
        }
        let place = if is_hub { self.root } else { self.instance.mains[zone.mains] };
        PlannedZone {
            place,
            isolator_place: self.nearest_box(place),
            supply: zone.supply,
            batteries: 1,
            trunks,
        }
    }

    fn planned_trunk(&self, boxes: Vec<PlannedBox>) -> PlannedTrunk {
        PlannedTrunk { boxes, wire: self.assumptions.trunk_wire.unwrap_or(0), pairs: 1, run: None }
    }

    pub(crate) fn trace_trunk(&self, trunk: &Trunk, first: usize, end: usize) -> PlannedTrunk {
        let mut boxes = Vec::new();
        let mut done = end - first;
        let mut at = trunk.last[done];
        while done > 0 {
            let step = trunk.steps[done][at];
            let model = usize::from(step.model);
            let table = &self.tables.ports[model][at];
            boxes.push(self.trace_block(at, model, table, None, (first + step.from, first + done)));
            done = step.from;
            at = step.before;
            if at == usize::MAX {
                break;
            }
        }
        boxes.reverse();
        self.planned_trunk(boxes)
    }

    /// A run on an output of the first supply.
    pub(crate) fn trace_output(&self, first: usize, end: usize) -> PlannedTrunk {
        let choice = self.output_runs(first)[end - first - 1];
        let run = self.planned_run(self.root, first, end - first, choice);
        PlannedTrunk { run: Some(run), ..self.planned_trunk(Vec::new()) }
    }

    /// A distributor with trunks on its ports.
    pub(crate) fn trace_hub(&self, hub: &Hub, first: usize, end: usize) -> PlannedTrunk {
        let model = usize::from(hub.blocks[first][end - first].1);
        let boxes = vec![self.trace_block(hub.place, model, &hub.tables[model], Some(hub), (first, end))];
        self.planned_trunk(boxes)
    }

    /// The division of a block into runs, and trunks of a hub, found again.
    fn trace_block(
        &self,
        place: usize,
        model: usize,
        table: &RunTable,
        hub: Option<&Hub>,
        (first, end): (usize, usize),
    ) -> PlannedBox {
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
        let place = self.instance.box_places[place];
        let (mut runs, mut trunks) = (Vec::new(), Vec::new());
        let (mut used, mut done) = (ports, most);
        while done > 0 && used > 0 {
            if best[used][done] == best[used - 1][done] {
                used -= 1;
                continue;
            }
            let count = best[used][done].1;
            let start = first + done - count;
            let choice = table.from[start][count - 1];
            match (choice.layout, hub) {
                (Layout::Trunk, Some(hub)) => {
                    trunks.push(self.trace_trunk(&hub.trunks[start], start, start + count));
                }
                _ => runs.push(self.planned_run(place, start, count, choice)),
            }
            done -= count;
            used -= 1;
        }
        runs.reverse();
        trunks.reverse();
        PlannedBox { place, model, runs, trunks }
    }

    /// The best runs on an output of the first supply, from an item on.
    pub(crate) fn output_runs(&self, first: usize) -> &[RunChoice] {
        let at = self.instance.mains.iter().position(|place| *place == self.root);
        at.and_then(|at| self.tables.outputs.get(at)).map_or(&[], |table| &table.from[first])
    }

    fn planned_run(&self, place: usize, first: usize, count: usize, choice: RunChoice) -> PlannedRun {
        let walked = &self.order[first..first + count];
        match choice.layout {
            Layout::Chain(arrangement) | Layout::InWalls(arrangement) => {
                PlannedRun { items: arrangement.apply(walked), choice, branching: None }
            }
            Layout::Trunk => PlannedRun { items: walked.to_vec(), choice, branching: None },
            Layout::Branched => {
                let mut branched = branchings(self.instance, self.order, place, first);
                let branching = branched.swap_remove(count - 1);
                let items = branching.iter().flat_map(Branching::items).collect();
                PlannedRun { items, choice, branching }
            }
        }
    }
}
