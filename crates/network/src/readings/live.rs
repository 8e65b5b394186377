//! Readings in operating states, solved in the three corners.

use super::{Basis, NoPrediction, Prediction, Predictor, Reading, ReadingPlace};
use crate::bus_state::BusState;
use crate::corner::Corner;
use crate::evaluate::{SetOutcome, Solver};
use crate::layout::NodeRef;
use crate::phase::Phase;
use latchline_finding::StateKind;
use rayon::prelude::*;
use std::borrow::Cow;

/// A reading to be solved for.
struct Wanted {
    state: BusState,
    at: NodeRef,
    reading: Reading,
}

/// Readings of one state at one stage are solved for together.
fn belong_together(one: &Wanted, other: &Wanted) -> bool {
    one.at.stage == other.at.stage && one.state == other.state
}

pub(super) fn predict(
    from: &Predictor<'_>,
    readings: Vec<(Reading, NodeRef)>,
) -> Vec<(Reading, Result<Prediction, NoPrediction>)> {
    let wanted = readings.into_iter().filter_map(|(reading, at)| {
        let state = reading.state()?.clone();
        Some(Wanted { state, at, reading })
    });
    let mut wanted: Vec<Wanted> = wanted.collect();
    wanted.sort_by(|a, b| (&a.state, a.at, &a.reading).cmp(&(&b.state, b.at, &b.reading)));
    let kinds: Vec<&[Wanted]> = wanted.chunk_by(|a, b| a.state.kind == b.state.kind).collect();
    let jobs: Vec<(&[Wanted], Corner)> =
        kinds.iter().flat_map(|kind| Corner::ALL.map(|corner| (*kind, corner))).collect();
    let solved: Vec<Vec<Solved>> =
        jobs.par_iter().map(|(wanted, corner)| in_corner(from, wanted, *corner)).collect();
    let mut found = Vec::with_capacity(wanted.len());
    for (kind, corners) in kinds.iter().zip(solved.chunks(Corner::ALL.len())) {
        for (place, one) in kind.iter().enumerate() {
            found.push((
                one.reading.clone(),
                combined([&corners[0], &corners[1], &corners[2]].map(|c| c[place])),
            ));
        }
    }
    found
}

/// A figure, and whether it is a bound.
type Solved = Result<(f64, bool), NoPrediction>;

fn combined(corners: [Solved; 3]) -> Result<Prediction, NoPrediction> {
    let [nominal, adverse, light] = corners;
    Ok(Prediction::of_corners([nominal?, adverse?, light?], Basis::Solved))
}

/// The figures in one corner; all are of one kind of state.
fn in_corner(from: &Predictor<'_>, wanted: &[Wanted], corner: Corner) -> Vec<Solved> {
    let kind = wanted.first().map(|one| one.state.kind);
    let Some(phase) = kind.and_then(|kind| from.phase(kind, corner)) else {
        return vec![Err(NoPrediction::NoSuchState); wanted.len()];
    };
    let mut solver = Solver::new(from.layout, &phase);
    let mut figures = Vec::with_capacity(wanted.len());
    for together in wanted.chunk_by(belong_together) {
        let stage = together[0].at.stage;
        if let Err(why) = solve(&mut solver, &phase, stage, &together[0].state) {
            figures.extend(together.iter().map(|_| Err(why)));
            continue;
        }
        let voltage_v = &solver.solution(stage).voltage_v;
        let needs_currents = together.iter().any(|one| matches!(one.reading, Reading::Current { .. }));
        let currents = if needs_currents { solver.branch_currents(stage) } else { None };
        for one in together {
            if let Reading::Drop { run, first, .. } = one.reading {
                let start = from.section_node(run, first).map(|at| from.layout.stages[stage].parent[at.node]);
                let start_v = start.and_then(|start| voltage_v.get(start as usize));
                let lost = start_v.zip(voltage_v.get(one.at.node)).map(|(start, end)| start - end);
                figures.push(lost.map(|lost| (lost, phase.is_bound)).ok_or(NoPrediction::NotFed));
                continue;
            }
            let node = match one.reading {
                Reading::Voltage { at: ReadingPlace::Run(_), .. } => {
                    from.layout.stages[stage].parent[one.at.node] as usize
                }
                _ => one.at.node,
            };
            let value = match (&one.reading, &currents) {
                (Reading::Current { .. }, Some(currents)) => currents.branch_a.get(node),
                (Reading::Current { .. }, None) => None,
                _ => voltage_v.get(node),
            };
            figures.push(value.map(|value| (*value, phase.is_bound)).ok_or(NoPrediction::Undecided));
        }
    }
    figures
}

/// Solves a state as far as a stage depends on it.
pub(super) fn solve(
    solver: &mut Solver<'_>,
    phase: &Phase,
    stage: usize,
    state: &BusState,
) -> Result<(), NoPrediction> {
    if phase.voltage_v[stage].is_none() {
        return Err(NoPrediction::NoPower);
    }
    let set = state.set_in(phase).ok_or(NoPrediction::NoSuchState)?;
    match solver.solve_set(stage, &set) {
        SetOutcome::Solved => Ok(()),
        SetOutcome::NoOperatingPoint { .. } => Err(NoPrediction::NoOperatingPoint),
        SetOutcome::Undecided { .. } => Err(NoPrediction::Undecided),
    }
}

impl Predictor<'_> {
    /// A state in one corner; `None` where it cannot occur on the site.
    pub(super) fn phase(&self, kind: StateKind, corner: Corner) -> Option<Cow<'_, Phase>> {
        if corner == Corner::Adverse && kind != StateKind::LightLoad {
            return self.space.phases.iter().find(|phase| phase.kind == kind).map(Cow::Borrowed);
        }
        let highest_v = Some(&self.space.highest_v);
        Phase::new(self.site, self.layout, kind, corner, highest_v).map(Cow::Owned)
    }
}
