//! What solving a stage depends on, as the beginning of a key.

use crate::layout::Layout;
use crate::memory::Fingerprint;
use crate::phase::Phase;

/// Everything that solving a stage, with those that draw from it, depends on in a state besides the calls that stand.
pub fn of_stage(layout: &Layout, phase: &Phase, stage: usize) -> Fingerprint {
    let mut key = Fingerprint::new();
    let stages = layout.with_stages_below(stage);
    let place = |stage: usize| stages.iter().position(|one| *one == stage).unwrap_or(usize::MAX);
    for &stage in &stages {
        let loads = &phase.base[stage];
        key.count(loads.power_w.len());
        for parent in phase.trees[stage].parents() {
            key.count(*parent as usize);
        }
        key.number(layout.stages[stage].resistance_ohm[phase.corner.index()][0]);
        key.numbers(phase.trees[stage].resistances_ohm());
        key.numbers(&loads.power_w);
        key.numbers(&loads.current_a);
        key.numbers(&loads.conductance_s);
        key.numbers(&loads.drop_v);
        key.optional(phase.voltage_v[stage]);
        key.number(phase.output_v[stage]);
        for converter in &layout.stages[stage].converters {
            key.count(converter.node);
            key.count(place(converter.stage));
            key.number(converter.efficiency);
        }
    }
    key
}

/// Adds what a set of calls does to a stage and those that draw from it.
pub fn add_set(key: &mut Fingerprint, layout: &Layout, phase: &Phase, stage: usize, set: &[usize]) {
    let stages = layout.with_stages_below(stage);
    for touch in set.iter().flat_map(|option| &phase.touches[*option]) {
        if let Some(place) = stages.iter().position(|one| *one == touch.at.stage) {
            key.count(place).count(touch.at.node);
            key.numbers(&[touch.change.power_w, touch.change.current_a, touch.change.conductance_s]);
        }
    }
    key.count(usize::MAX);
}
