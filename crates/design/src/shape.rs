//! What two buses must have in common to be wired alike: everything that planning or an assessment looks at, but for names.

use crate::instance::Instance;
use crate::item::Owner;
use crate::toml_text::entrance_keys;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Everything about a bus but its names: two of the same shape have the same plans.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Shape {
    text: String,
    /// Ways between its places: length, environment, whether beside mains.
    ways: Vec<(u64, u8, bool)>,
}

/// The shape of an instance, and its places in the order in which the shape speaks of them.
pub fn shape(instance: &Instance<'_>) -> (Shape, Vec<usize>) {
    let mut places: Vec<usize> = Vec::new();
    let mut known: BTreeMap<usize, usize> = BTreeMap::new();
    let mut number = |place: usize| {
        *known.entry(place).or_insert_with(|| {
            places.push(place);
            places.len() - 1
        })
    };
    let mut text = String::new();
    for item in &instance.items {
        let place = number(item.place);
        let kind = match item.owner {
            Owner::Dwelling(_) => 'd',
            Owner::Entrance(_) => 'e',
            Owner::Desk(_) => 'm',
        };
        let _ = write!(
            text,
            "{kind}{place} {} {} {:?} {} {} {:?} {} {} {:?};",
            item.drop_mm,
            item.extension_dm,
            item.models,
            item.solo,
            item.ends,
            item.environment,
            item.own_cost,
            item.called_by,
            item.loads
        );
        let locks = &item.locks;
        if *locks != Default::default() {
            let at = locks.at.map(&mut number);
            let _ = write!(text, "l{at:?}{:?}{:?}{};", locks.cable, locks.together, locks.not_through);
        }
        if let Owner::Entrance(index) = item.owner {
            let keys = entrance_keys(instance.survey, &instance.survey.entrances[index], &item.models[0]);
            let named = |line: &&String| ["calls", "place"].iter().any(|word| line.starts_with(word));
            keys.iter().filter(|line| !named(line)).for_each(|line| text.push_str(line));
        }
    }
    for (word, list) in [("boxes", &instance.box_places), ("mains", &instance.mains)] {
        let _ = write!(text, "{word}{:?};", list.iter().map(|place| number(*place)).collect::<Vec<_>>());
    }
    let decided = instance.locked_boxes.iter().filter(|(place, _)| instance.box_places.contains(place));
    for (place, model) in decided {
        let _ = write!(text, "k{}{model:?};", number(*place));
    }
    let mut buildings: Vec<Option<usize>> = Vec::new();
    for place in &places {
        let place = &instance.survey.places[*place];
        let at = buildings.iter().position(|known| *known == place.building).unwrap_or(buildings.len());
        if at == buildings.len() {
            buildings.push(place.building);
        }
        let _ = write!(text, "b{at}{}{}{};", place.mains, place.boxes, place.outdoors);
    }
    // A cable in the walls goes by names: whoever has one is like nobody else.
    let names = places.iter().map(|place| instance.survey.places[*place].name.value.as_str());
    let own = names.chain(instance.items.iter().flat_map(|item| item.stops.iter().map(String::as_str)));
    for name in own.filter(|name| instance.in_walls.contains_key(*name)) {
        let _ = write!(text, "w{name:?};");
    }
    let mut ways = Vec::with_capacity(places.len() * places.len() / 2);
    for (at, from) in places.iter().enumerate() {
        for to in &places[..at] {
            let way = instance.way(*from, *to);
            ways.push(way.map_or((u64::MAX, 0, false), |way| {
                (way.length_mm, way.environment as u8, way.beside_mains)
            }));
        }
    }
    (Shape { text, ways }, places)
}
