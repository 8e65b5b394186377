//! The lengths of cable of a site onto drums.

use crate::stock::{CuttingError, CuttingPlan, StockProblem, solve};
use latchline_site::cables::CableLength;
use latchline_site::model::Site;
use std::collections::BTreeMap;

/// One length to cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// Index into [`Site::cable_lengths`].
    pub cable: usize,
    /// Which of the cables side by side, from 1.
    pub piece: u32,
    /// Length to cut in decimetres: the stated one with its tolerance and both ends, rounded up.
    pub length_dm: u32,
}

/// A cutting plan, and which cuts come from which drum.
#[derive(Debug, Clone, PartialEq)]
pub struct CutPlan {
    /// The drums, in decimetres, with the bound on what must be bought.
    pub plan: CuttingPlan,
    /// For each drum its cuts, as indices into [`CableCuts::cuts`].
    pub assigned: Vec<Vec<usize>>,
}

/// What became of one kind of cable.
#[derive(Debug, Clone, PartialEq)]
pub struct CableCuts {
    /// Cable in the catalogue.
    pub cable: String,
    /// Every length, in the order of [`Site::cable_lengths`].
    pub cuts: Vec<Cut>,
    /// The plan, or why there is none.
    pub plan: Result<CutPlan, CuttingError>,
}

impl CableCuts {
    /// Total of all lengths in metres.
    pub fn needed_m(&self) -> f64 {
        self.cuts.iter().map(|cut| f64::from(cut.length_dm)).sum::<f64>() / 10.0
    }

    /// What is bought in metres: the drums, or the lengths themselves where it is sold by the metre.
    pub fn bought_m(&self) -> f64 {
        self.plan.as_ref().map_or_else(|_| self.needed_m(), |found| found.plan.bought() as f64 / 10.0)
    }

    /// What is bought and not needed, in metres.
    pub fn waste_m(&self) -> f64 {
        self.bought_m() - self.needed_m()
    }
}

/// Every cable that must be bought, by name.
pub fn cut_list(site: &Site) -> Vec<CableCuts> {
    let lengths = site.cable_lengths();
    let mut by_cable: BTreeMap<&str, Vec<Cut>> = BTreeMap::new();
    for (index, cable) in lengths.iter().enumerate().filter(|(_, cable)| !cable.is_existing) {
        let length_dm = length_to_cut_dm(site, cable);
        for piece in 1..=cable.side_by_side {
            by_cable.entry(&cable.cable).or_default().push(Cut { cable: index, piece, length_dm });
        }
    }
    by_cable
        .into_iter()
        .map(|(name, cuts)| {
            let drums = &site.catalogue.cables[name].drum_lengths;
            let stock: Vec<u32> = drums
                .iter()
                .map(|drum| (drum.value.as_metres() * 10.0 + 1e-6).floor().clamp(0.0, 4e9) as u32)
                .collect();
            let plan = StockProblem::new(&stock, cuts.iter().map(|cut| cut.length_dm)).map(|problem| {
                let plan = solve(&problem);
                let assigned = assign(&plan, &cuts);
                CutPlan { plan, assigned }
            });
            CableCuts { cable: name.to_string(), cuts, plan }
        })
        .collect()
}

fn length_to_cut_dm(site: &Site, cable: &CableLength) -> u32 {
    let tolerance = site.conditions.length_tolerance.value.as_fraction();
    let end_m = site.conditions.end_allowance.value.as_metres();
    let length_m = cable.length.as_metres() * (1.0 + tolerance) + 2.0 * end_m;
    (length_m * 10.0 - 1e-6).ceil().clamp(1.0, 4e9) as u32
}

/// Gives every cut of the plan one of the lengths that are to be cut, in their order.
fn assign(plan: &CuttingPlan, cuts: &[Cut]) -> Vec<Vec<usize>> {
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
