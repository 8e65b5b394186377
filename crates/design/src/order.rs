//! Walking orders: the order of items in which plans join neighbours.

use crate::instance::Instance;

/// Items in the order of a walk, with the place of the first supply. The natural walks come first:
/// from each place with mains, branches as the survey lists them, then the longest branch last and first.
pub fn walking_order(instance: &Instance<'_>, number: usize, seed: u64) -> Option<(usize, Vec<usize>)> {
    let mains = &instance.mains;
    let root = mains[number % mains.len()];
    let variant = number / mains.len();
    if instance.items.len() <= MOST_PERMUTED {
        return permutation(instance.items.len(), variant).map(|order| (root, instance.kept_together(order)));
    }
    let places = instance.survey.places.len();
    let turn: Vec<u64> = match variant {
        0 => vec![0; places],
        1 => (0..places).map(|place| instance.way(root, place).map_or(0, |way| way.length_mm)).collect(),
        2 => (0..places)
            .map(|place| instance.way(root, place).map_or(0, |way| u64::MAX / 2 - way.length_mm))
            .collect(),
        _ => (0..places as u64).map(|place| scrambled(seed ^ ((number as u64) << 32) ^ place)).collect(),
    };
    let walk = instance.survey.routes.walk(root, &turn);
    let mut at: Vec<Vec<usize>> = vec![Vec::new(); places];
    for (index, item) in instance.items.iter().enumerate() {
        at[item.place].push(index);
    }
    let order: Vec<usize> = walk.iter().flat_map(|place| at[*place].iter().copied()).collect();
    (order.len() == instance.items.len()).then(|| (root, instance.kept_together(order)))
}

/// Items of a site up to which every order is a walking order, so that every grouping is tried.
pub const MOST_PERMUTED: usize = 5;

/// How many orders a small site has.
pub fn small_orders(instance: &Instance<'_>) -> usize {
    let count = instance.items.len();
    if count <= MOST_PERMUTED { (1..=count).product::<usize>() * instance.mains.len() } else { 1 }
}

/// The permutation with this number, in lexicographic order.
fn permutation(count: usize, number: usize) -> Option<Vec<usize>> {
    let mut left: Vec<usize> = (0..count).collect();
    let mut rest = number;
    let mut order = Vec::new();
    for size in (1..=count).rev() {
        let block: usize = (1..size).product();
        if rest / block >= left.len() {
            return None;
        }
        order.push(left.remove(rest / block));
        rest %= block;
    }
    Some(order)
}

/// The finaliser of SplitMix64 (Steele, Lea and Flood 2014; constants from memory).
fn scrambled(seed: u64) -> u64 {
    let mut z = seed.wrapping_add(0x9E37_79B9_7F4A_7C15);
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}
