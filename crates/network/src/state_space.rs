//! The operating states that can occur on a site.

use crate::corner::Corner;
use crate::evaluate::Solver;
use crate::layout::Layout;
use crate::phase::{HighestVoltages, Phase, SharedParts};
use latchline_finding::StateKind;
use latchline_site::model::Site;

/// The states of a site in the adverse corner, and what bounds them from above.
#[derive(Debug, Clone)]
pub struct StateSpace {
    /// States that can occur, in the order of [`StateKind::ALL`], without [`StateKind::LightLoad`].
    pub phases: Vec<Phase>,
    /// Least load on the highest supply voltage.
    pub light: Option<Phase>,
    /// Highest voltage of every node of every stage.
    pub highest_v: Vec<Vec<f64>>,
    /// What the states have in common.
    pub(crate) shared: SharedParts,
}

impl StateSpace {
    /// Builds every state of a site.
    pub fn new(site: &Site, layout: &Layout) -> Self {
        let shared = SharedParts::default();
        let light = Phase::with(site, layout, StateKind::LightLoad, Corner::Light, None, &shared);
        let highest_v = highest_voltages(layout, light.as_ref());
        let phases = StateKind::ALL
            .into_iter()
            .filter(|kind| *kind != StateKind::LightLoad)
            .filter_map(|kind| Phase::with(site, layout, kind, Corner::Adverse, Some(&highest_v), &shared))
            .collect();
        StateSpace { phases, light, highest_v, shared }
    }
}

/// Highest voltage of every node of every stage, given the least load on the highest supply voltage.
pub(crate) fn highest_voltages(layout: &Layout, light: Option<&Phase>) -> HighestVoltages {
    let Some(phase) = light else { return Vec::new() };
    let solver = Solver::new(layout, phase);
    (0..layout.stages.len())
        .map(|stage| match solver.base(stage) {
            Some(solution) => solution.voltage_v.clone(),
            // No operating point even here: the open-circuit voltage bounds it.
            None => {
                vec![layout.stages[stage].voltage_v[Corner::Light.index()]; layout.stages[stage].parent.len()]
            }
        })
        .collect()
}
