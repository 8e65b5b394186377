//! What is told beside the worst states: nominal voltages and currents, and how far loads could grow.

use crate::corner::Corner;
use crate::evaluate::{SetOutcome, Solver};
use crate::layout::Layout;
use crate::memory::{Fingerprint, Memory};
use crate::nominal_figures::StageNominal;
use crate::phase::Phase;
use crate::stage_key::{add_set, of_stage};
use crate::state_space::StateSpace;
use crate::wanted::GivenUp;
use crate::worst::DeviceStates;
use latchline_finding::StateKind;
use latchline_site::model::Site;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Fills in the nominal voltage of every device in its worst state; returns the nominal standby
/// current of every stage.
pub(crate) fn nominal_values(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    devices: &mut [DeviceStates],
    memory: &Memory,
) -> Result<Vec<Option<f64>>, GivenUp> {
    let of_kind = |kind| Phase::with(site, layout, kind, Corner::Nominal, None, &space.shared);
    let mut nominal: BTreeMap<usize, Option<Phase>> = BTreeMap::new();
    let mut on_stage: Vec<Vec<usize>> = vec![Vec::new(); layout.stages.len()];
    for (index, device) in devices.iter().enumerate() {
        let phase = device.worst().phase;
        nominal.entry(phase).or_insert_with(|| of_kind(space.phases[phase].kind));
        on_stage[device.at.stage].push(index);
    }
    let standby = of_kind(StateKind::StandbyDay);
    let known = &*devices;
    let found: Vec<Arc<StageNominal>> = (0..layout.stages.len())
        .into_par_iter()
        .map(|stage| {
            memory.check()?;
            let task = NominalTask { layout, nominal: &nominal, standby: standby.as_ref(), stage };
            let members: Vec<&DeviceStates> = on_stage[stage].iter().map(|index| &known[*index]).collect();
            Ok(memory.nominal(task.key(&members), || task.run(&members)))
        })
        .collect::<Result<_, GivenUp>>()?;
    for (members, found) in on_stage.iter().zip(&found) {
        for (member, voltage_v) in members.iter().zip(&found.device_v) {
            devices[*member].nominal_v = *voltage_v;
        }
    }
    Ok(found.iter().map(|found| found.standby_current_a).collect())
}

struct NominalTask<'a> {
    layout: &'a Layout,
    /// States with nominal values, by the state of the space.
    nominal: &'a BTreeMap<usize, Option<Phase>>,
    standby: Option<&'a Phase>,
    stage: usize,
}

impl NominalTask<'_> {
    fn phase(&self, device: &DeviceStates) -> Option<&Phase> {
        self.nominal.get(&device.worst().phase)?.as_ref()
    }

    fn key(&self, members: &[&DeviceStates]) -> [u64; 2] {
        let of = |phase: &Phase| of_stage(self.layout, phase, self.stage).finish();
        let mut stages: BTreeMap<usize, [u64; 2]> = BTreeMap::new();
        let mut key = Fingerprint::new();
        key.count(usize::from(self.standby.is_some()));
        if let Some(standby) = self.standby {
            key.key(of(standby));
        }
        key.count(members.len());
        for device in members {
            let phase = self.phase(device);
            key.count(device.at.node).count(usize::from(phase.is_some()));
            if let Some(phase) = phase {
                let worst = device.worst();
                key.key(*stages.entry(worst.phase).or_insert_with(|| of(phase)));
                add_set(&mut key, self.layout, phase, self.stage, &worst.set);
            }
        }
        key.finish()
    }

    fn run(&self, members: &[&DeviceStates]) -> StageNominal {
        // Devices that share state and set share one solve.
        let mut groups: BTreeMap<(usize, &[usize]), Vec<usize>> = BTreeMap::new();
        for (position, device) in members.iter().enumerate() {
            let worst = device.worst();
            groups.entry((worst.phase, &worst.set)).or_default().push(position);
        }
        let mut device_v = vec![None; members.len()];
        let mut solvers: BTreeMap<usize, Solver<'_>> = BTreeMap::new();
        for ((phase, set), positions) in groups {
            let Some(nominal) = self.phase(members[positions[0]]) else { continue };
            let solver =
                solvers.entry(phase).or_insert_with(|| Solver::of_stage(self.layout, nominal, self.stage));
            if solver.solve_set(self.stage, set) == SetOutcome::Solved {
                for position in positions {
                    let node = members[position].at.node;
                    device_v[position] = Some(solver.solution(self.stage).voltage_v[node]);
                }
            }
        }
        let standby_current_a = self.standby.and_then(|phase| {
            let solver = Solver::of_stage(self.layout, phase, self.stage);
            solver.base(self.stage).map(|solution| solution.source_current_a)
        });
        StageNominal { device_v, standby_current_a }
    }
}

/// Loading margin of every stage in the state of its device with the least margin.
pub(crate) fn loading_margins(
    layout: &Layout,
    space: &StateSpace,
    devices: &[DeviceStates],
    memory: &Memory,
) -> Result<Vec<Option<f64>>, GivenUp> {
    let mut tightest: Vec<Option<&DeviceStates>> = vec![None; layout.stages.len()];
    for device in devices {
        let known = &mut tightest[device.at.stage];
        if known.is_none_or(|known| device.worst().margin_v().total_cmp(&known.worst().margin_v()).is_lt()) {
            *known = Some(device);
        }
    }
    tightest
        .par_iter()
        .enumerate()
        .map(|(stage, device)| {
            memory.check()?;
            let Some(worst) = device.map(DeviceStates::worst) else { return Ok(None) };
            let phase = &space.phases[worst.phase];
            let mut key = of_stage(layout, phase, stage);
            add_set(&mut key, layout, phase, stage, &worst.set);
            Ok(memory.loading_margin(key.finish(), || {
                let mut solver = Solver::of_stage(layout, phase, stage);
                // Below 1 where this stage collapses; where one that draws from it does, its own loads are not known.
                let own = [SetOutcome::Solved, SetOutcome::NoOperatingPoint { stage }];
                let is_known = own.contains(&solver.solve_set(stage, &worst.set));
                is_known.then(|| solver.loading_margin(stage)).flatten()
            }))
        })
        .collect()
}
