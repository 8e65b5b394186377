//! The declared design space in words: the bound holds within it and nowhere else.

use crate::branches::{MOST_BRANCHED, NEAR_BRANCH};
use crate::instance::Instance;
use crate::runs::NEAR_BOXES;

/// The space, line by line.
pub fn describe(instance: &Instance<'_>, orders: usize, most_supplies: usize) -> Vec<String> {
    let limits = &instance.limits;
    let small = instance.items.len() <= crate::order::MOST_PERMUTED;
    let mut lines = vec![
        format!(
            "Items (dwellings with their further stations, door stations, desks) stand in a walking order: {}. {orders} such {} tried.",
            if small {
                "any order, the site being small"
            } else {
                "along the tree of shortest ways, each branch to its end, at one place as the survey lists them"
            },
            if orders == 1 { "order was" } else { "orders were" }
        ),
        String::from(
            "A run starts at a port of a distributor and serves items that follow one another in that order, forwards or backwards, with one cable throughout (on a site of up to 24 items, up to four on a run in any order). Other groupings are outside this space and may be cheaper.",
        ),
        String::from("Door stations, desks and stations that cannot be looped have a run of their own."),
        String::from(
            "A distributor serves neighbouring runs; its feed is a trunk that loops through the distributors of neighbouring items; a supply has one or two trunks. No distributor on another one's port.",
        ),
        String::from(
            "One trunk cable for the whole site (another one of at least its thickness where that one may not run); new cable has one pair in use. Cables in the walls are used where they lead all the way of a run.",
        ),
    ];
    if instance.limits.branches && !instance.branch_boxes.is_empty() {
        let kinds: Vec<&str> = instance.branch_boxes.iter().map(|kind| kind.name.as_str()).collect();
        lines.push(format!(
            "A run of up to {MOST_BRANCHED} dwellings may also be a riser that loops through branch boxes ({}) with a chain from each of their ports, in the walking order; a branch box stands at one of the {NEAR_BRANCH} box places nearest to its first dwelling. Of all divisions of a run into boxes and chains the one of least cost in boxes and cheapest cable is tried, with one cable throughout.",
            kinds.join(", ")
        ));
    }
    if instance.box_places.len() > NEAR_BOXES {
        lines.push(format!(
            "A run starts at one of the {NEAR_BOXES} box places nearest to the first of its items in that order."
        ));
    }
    match &instance.isolator {
        Some(isolator) => lines.push(format!(
            "Supplies each serve neighbouring items, the first one from the start of the walk with its first distributor at the box place nearest to it; every further one stands at one of the two places with mains nearest to its first item and feeds a {} whose link comes from the first distributor, or from distributors for links alone where there are more than three. At most {most_supplies} supplies.",
            isolator.name
        )),
        None => lines.push(String::from("One supply: the family has no isolating box to join a second one.")),
    }
    let mut kept = Vec::new();
    if limits.stations < usize::MAX / 2 {
        kept.push(format!("{} stations", limits.stations));
    }
    if limits.dwellings < usize::MAX / 2 {
        kept.push(format!("{} dwellings", limits.dwellings));
    }
    if limits.longest_dm < u64::MAX / 4 {
        kept.push(format!("{} m to its end", limits.longest_dm / 10));
    }
    if limits.total_dm < u64::MAX / 4 {
        kept.push(format!("{} m of cable", limits.total_dm / 10));
    }
    if !kept.is_empty() {
        lines.push(format!("A run has at most {}.", kept.join(", ")));
    }
    let wires: Vec<&str> = instance.wires.iter().map(|wire| wire.name.as_str()).collect();
    lines.push(format!("Cables: {} (others cost more and conduct no better, or have no line constants to judge the signal by).", wires.join(", ")));
    let boxes: Vec<&str> = instance.distributors.iter().map(|kind| kind.name.as_str()).collect();
    let supplies: Vec<&str> = instance.supplies.iter().map(|kind| kind.name.as_str()).collect();
    lines.push(format!("Distributors: {}. Supplies: {}.", boxes.join(", "), supplies.join(", ")));
    lines
}
