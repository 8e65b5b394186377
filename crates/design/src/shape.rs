//! What two buses must have in common to be wired alike: everything that planning or an assessment looks at, but for names.

use crate::electric::{Draw, StationLoad};
use crate::instance::Instance;
use crate::item::{LockedCable, Owner};
use crate::money::Amount;
use crate::toml_text::entrance_keys;
use latchline_site::catalogue::Environment;
use std::collections::BTreeMap;

/// Everything about a bus but its names: two of the same shape have the same plans.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Shape {
    items: Vec<ItemShape>,
    /// Where boxes may hang and where mains are, as places in its order.
    boxes: Vec<usize>,
    mains: Vec<usize>,
    /// Boxes that are decided: place and model.
    decided: Vec<(usize, Option<String>)>,
    /// Of each place: which of its buildings, mains, boxes, outdoors.
    places: Vec<(usize, bool, bool, bool)>,
    /// Names at which a cable in the walls ends.
    walls: Vec<String>,
    /// Ways between its places: length, environment, whether beside mains.
    ways: Vec<(u64, u8, bool)>,
}

/// Place of its box, cable, those it is together with, whether nothing loops through it.
type Locks = (Option<usize>, Option<LockedCable>, Option<(usize, usize)>, bool);

/// Everything about an item but its name.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct ItemShape {
    /// Dwelling, entrance or desk.
    kind: u8,
    place: usize,
    drop_mm: u64,
    extension_dm: u32,
    models: Vec<String>,
    solo: bool,
    ends: bool,
    environment: Environment,
    own_cost: Amount,
    called_by: u128,
    /// Each figure of each load by its bits: alike is the same.
    loads: Vec<[u64; 14]>,
    /// What is decided.
    locks: Locks,
    /// What a site file says of an entrance, but for its place and whom it calls.
    keys: Vec<String>,
}

fn bits(load: &StationLoad) -> [u64; 14] {
    let StationLoad { standby, ringing, talking, in_use, boot, drop_v, least_v, least_standby_v, share } =
        *load;
    let of = |draw: Draw| [draw.power_w, draw.current_a];
    let [[a, b], [c, d], [e, f], [g, h], [i, j]] = [standby, ringing, talking, in_use, boot].map(of);
    [a, b, c, d, e, f, g, h, i, j, drop_v, least_v, least_standby_v, share].map(f64::to_bits)
}

/// The shape of an instance, and its places in the order in which the shape speaks of them.
pub fn shape(instance: &Instance<'_>) -> (Shape, Vec<usize>) {
    let mut order: Vec<usize> = Vec::new();
    let mut known: BTreeMap<usize, usize> = BTreeMap::new();
    let mut number = |place: usize| {
        *known.entry(place).or_insert_with(|| {
            order.push(place);
            order.len() - 1
        })
    };
    let mut items = Vec::with_capacity(instance.items.len());
    for item in &instance.items {
        let place = number(item.place);
        let locks = &item.locks;
        let keys = match item.owner {
            Owner::Entrance(index) => {
                let keys = entrance_keys(instance.survey, &instance.survey.entrances[index], &item.models[0]);
                let named = |line: &String| ["calls", "place"].iter().any(|word| line.starts_with(word));
                keys.into_iter().filter(|line| !named(line)).collect()
            }
            Owner::Dwelling(_) | Owner::Desk(_) => Vec::new(),
        };
        items.push(ItemShape {
            kind: match item.owner {
                Owner::Dwelling(_) => 0,
                Owner::Entrance(_) => 1,
                Owner::Desk(_) => 2,
            },
            place,
            drop_mm: item.drop_mm,
            extension_dm: item.extension_dm,
            models: item.models.clone(),
            solo: item.solo,
            ends: item.ends,
            environment: item.environment,
            own_cost: item.own_cost,
            called_by: item.called_by,
            loads: item.loads.iter().map(bits).collect(),
            locks: (locks.at.map(&mut number), locks.cable.clone(), locks.together, locks.not_through),
            keys,
        });
    }
    let boxes = instance.box_places.iter().map(|place| number(*place)).collect();
    let mains = instance.mains.iter().map(|place| number(*place)).collect();
    let decided = instance.locked_boxes.iter().filter(|(place, _)| instance.box_places.contains(place));
    let decided = decided.map(|(place, model)| (number(*place), model.clone())).collect();
    let mut buildings: Vec<Option<usize>> = Vec::new();
    let mut places = Vec::with_capacity(order.len());
    for place in &order {
        let place = &instance.survey.places[*place];
        let at = buildings.iter().position(|known| *known == place.building).unwrap_or(buildings.len());
        if at == buildings.len() {
            buildings.push(place.building);
        }
        places.push((at, place.mains, place.boxes, place.outdoors));
    }
    // A cable in the walls goes by names: whoever has one is like nobody else.
    let names = order.iter().map(|place| instance.survey.places[*place].name.value.as_str());
    let own = names.chain(instance.items.iter().flat_map(|item| item.stops.iter().map(String::as_str)));
    let walls = own.filter(|name| instance.in_walls.contains_key(*name)).map(String::from).collect();
    let mut ways = Vec::with_capacity(order.len() * order.len() / 2);
    for (at, from) in order.iter().enumerate() {
        for to in &order[..at] {
            let way = instance.way(*from, *to);
            ways.push(way.map_or((u64::MAX, 0, false), |way| {
                (way.length_mm, way.environment as u8, way.beside_mains)
            }));
        }
    }
    (Shape { items, boxes, mains, decided, places, walls, ways }, order)
}
