//! The lengths of cable of a site onto drums.

use crate::cutting::{CuttingError, Plan, Problem, solve};
use crate::subject::Subject;
use std::collections::BTreeMap;

/// Cable at each end for making off, in metres (common practice, no source).
pub const END_ALLOWANCE_M: f64 = 0.3;

/// One length to cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// Index into the cables of the wiring.
    pub cable: usize,
    /// Which of the cables side by side, from 1.
    pub piece: u32,
    /// Length to cut in decimetres: the stated one with its tolerance and both ends, rounded up.
    pub length_dm: u32,
}

/// What became of one kind of cable.
#[derive(Debug, Clone, PartialEq)]
pub struct CableCuts {
    /// Cable in the catalogue.
    pub cable: String,
    /// Every length, in the order of the wiring.
    pub cuts: Vec<Cut>,
    /// The plan with, for each drum, the cuts as indices into `cuts`; or why there is none.
    pub plan: Result<(Plan, Vec<Vec<usize>>), CuttingError>,
}

impl CableCuts {
    /// Total of all lengths in metres.
    pub fn needed_m(&self) -> f64 {
        self.cuts.iter().map(|cut| f64::from(cut.length_dm)).sum::<f64>() / 10.0
    }

    /// What is bought in metres: the drums, or the lengths themselves where it is sold by the metre.
    pub fn bought_m(&self) -> f64 {
        self.plan.as_ref().map_or_else(|_| self.needed_m(), |(plan, _)| plan.bought() as f64 / 10.0)
    }
}

/// Every cable that must be bought, by name.
pub fn cut_list(subject: &Subject<'_>) -> Vec<CableCuts> {
    let tolerance = subject.site.conditions.length_tolerance.value.as_fraction();
    let mut by_cable: BTreeMap<&str, Vec<Cut>> = BTreeMap::new();
    for (index, cable) in subject.wiring.cables.iter().enumerate().filter(|(_, cable)| !cable.is_existing) {
        let length_dm = ((cable.length_m * (1.0 + tolerance) + 2.0 * END_ALLOWANCE_M) * 10.0 - 1e-6).ceil();
        for piece in 1..=cable.pieces {
            let cut = Cut { cable: index, piece, length_dm: length_dm.clamp(1.0, 4e9) as u32 };
            by_cable.entry(&cable.cable).or_default().push(cut);
        }
    }
    by_cable
        .into_iter()
        .map(|(name, cuts)| {
            let drums = &subject.site.catalogue.cables[name].drum_lengths;
            let stock: Vec<u32> = drums
                .iter()
                .map(|drum| (drum.value.as_metres() * 10.0 + 1e-6).floor().clamp(0.0, 4e9) as u32)
                .collect();
            let plan = Problem::new(&stock, cuts.iter().map(|cut| cut.length_dm)).map(|problem| {
                let plan = solve(&problem);
                let assigned = assign(&plan, &cuts);
                (plan, assigned)
            });
            CableCuts { cable: name.to_string(), cuts, plan }
        })
        .collect()
}

/// Gives every cut of the plan one of the lengths that are to be cut, in their order.
fn assign(plan: &Plan, cuts: &[Cut]) -> Vec<Vec<usize>> {
    let mut waiting: BTreeMap<u32, Vec<usize>> = BTreeMap::new();
    for (index, cut) in cuts.iter().enumerate().rev() {
        waiting.entry(cut.length_dm).or_default().push(index);
    }
    plan.drums
        .iter()
        .map(|drum| {
            let taken = drum.cuts.iter().filter_map(|length| waiting.get_mut(length)?.pop());
            taken.collect()
        })
        .collect()
}
