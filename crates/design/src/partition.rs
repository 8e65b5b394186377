//! Which call groups may share a bus, and which buses are alike.

use crate::instance::Instance;
use crate::order::walking_order;
use crate::plan::Plan;
use crate::shape::{Shape, shape};
use std::collections::BTreeMap;

/// Items of call groups that are joined on one bus, at most.
const MOST_JOINED: usize = 120;
/// Groups joined, at most, where there are few; of many groups fewer are.
const MOST_GROUPS: usize = 12;
/// So many times that of groups are joined at most, so that the work stays in hand.
const MOST_TRIED: usize = 400;

/// How a part of the site becomes a bus: like which one, with which places and items.
pub struct Wiring {
    /// Index into [`Partition::kinds`].
    pub kind: usize,
    /// By place of the kind, the place here.
    places: BTreeMap<usize, usize>,
    /// By item of the kind, the item of the site.
    items: Vec<usize>,
}

impl Wiring {
    /// A plan of the kind with the places and items of this part.
    pub fn laid_out(&self, plan: &Plan) -> Plan {
        let place = |place: usize| self.places.get(&place).copied().unwrap_or(place);
        plan.mapped(&place, &|item| self.items[item])
    }
}

/// Every bus that neighbouring call groups may have.
pub struct Partition<'a> {
    /// One instance for all buses of the same shape.
    pub kinds: Vec<Instance<'a>>,
    /// By first group and the one after the last, in the order of the walk.
    pub wirings: BTreeMap<(usize, usize), Wiring>,
    /// Groups joined at most.
    pub most_groups: usize,
    /// Items joined at most.
    pub most_items: usize,
}

/// Every bus of neighbouring groups, in the order in which somebody walks them.
pub fn partition<'a>(instance: &Instance<'a>, groups: &[Vec<usize>]) -> Partition<'a> {
    let mut groups: Vec<&Vec<usize>> = groups.iter().collect();
    if let Some((_, order)) = walking_order(instance, 0, 0) {
        let mut at = vec![0; instance.items.len()];
        order.iter().enumerate().for_each(|(position, item)| at[*item] = position);
        groups.sort_by_key(|group| group.iter().map(|item| at[*item]).min());
    }
    let most_groups = (MOST_TRIED / groups.len()).clamp(2, MOST_GROUPS);
    let mut partition =
        Partition { kinds: Vec::new(), wirings: BTreeMap::new(), most_groups, most_items: MOST_JOINED };
    let mut known: BTreeMap<Shape, (usize, Vec<usize>)> = BTreeMap::new();
    for first in 0..groups.len() {
        let mut items: Vec<usize> = Vec::new();
        for (end, group) in groups.iter().enumerate().skip(first).take(most_groups) {
            items.extend(group.iter());
            if end > first && items.len() > MOST_JOINED {
                break;
            }
            items.sort_unstable();
            let own = instance.only(&items);
            let (shape, places) = shape(&own);
            let (kind, theirs) = known.entry(shape).or_insert_with(|| {
                partition.kinds.push(own);
                (partition.kinds.len() - 1, places.clone())
            });
            let places = theirs.iter().copied().zip(places).collect();
            partition.wirings.insert((first, end + 1), Wiring { kind: *kind, places, items: items.clone() });
        }
    }
    partition
}
