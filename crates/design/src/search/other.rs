//! The same plan with other parts in common.

use crate::instance::Instance;
use crate::plan::Plan;
use latchline_site::catalogue::Environment;

/// The same plan with the next larger supply that has as many outputs; `None` where it has several supplies, or none is larger.
pub(super) fn with_larger_supply(instance: &Instance<'_>, plan: &Plan) -> Option<Plan> {
    let [zone] = &plan.zones[..] else { return None };
    let now = &instance.supplies[zone.supply];
    let is_larger = |kind: &usize| {
        let other = &instance.supplies[*kind];
        other.rated_a > now.rated_a && other.outputs >= now.outputs && other.cost >= now.cost
    };
    let larger =
        (0..instance.supplies.len()).filter(is_larger).min_by_key(|kind| instance.supplies[*kind].cost)?;
    let mut plan = plan.clone();
    plan.zones[0].supply = larger;
    plan.cost += instance.supplies[larger].cost - now.cost;
    Some(plan)
}

/// The same plan with another trunk cable.
pub(super) fn with_trunks(plan: &Plan, (wire, pairs): (usize, u32)) -> Plan {
    let mut plan = plan.clone();
    plan.change_trunks(&mut |trunk| (trunk.wire, trunk.pairs) = (wire, pairs));
    plan
}

/// Cables that trunks may have, cheapest first, each with one pair and, where it has them, with two in parallel.
pub(super) fn trunk_wires(instance: &Instance<'_>) -> Vec<(usize, u32)> {
    let indoors = |wire: &usize| instance.wires[*wire].environments.contains(&Environment::Indoors);
    let free: Vec<usize> =
        (0..instance.wires.len()).filter(|wire| !instance.wires[*wire].only_where_locked).collect();
    let wires: Vec<usize> = free.iter().copied().filter(indoors).collect();
    let wires = if wires.is_empty() { free } else { wires };
    let doubled = |wire: usize| {
        [(wire, 1), (wire, 2)].into_iter().filter(move |(_, pairs)| *pairs <= instance.wires[wire].pairs)
    };
    wires.into_iter().flat_map(doubled).collect()
}
