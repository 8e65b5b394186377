//! The sections of a chain: their lengths, what they pass, and cables in the walls that lead the same way.

use crate::instance::Instance;
use crate::money::Amount;
use crate::parts::InWall;
use latchline_site::catalogue::Environment;

/// Sections of a chain as lengths in tenths of a metre, one per station, with what they pass.
#[derive(Debug, Clone, PartialEq)]
pub struct Sections {
    /// Lengths.
    pub lengths_dm: Vec<u32>,
    /// The worst environment on the way.
    pub environment: Environment,
    /// Whether mains cables share some of it.
    pub beside_mains: bool,
}

/// Sections of a chain over items in the given order from a place; `None` where no way leads.
pub fn sections(instance: &Instance<'_>, place: usize, items: &[usize]) -> Option<Sections> {
    let mut lengths_dm = Vec::with_capacity(items.len());
    let (environment, beside_mains) =
        walk(instance, place, items, &mut |length_dm| lengths_dm.push(length_dm))?;
    Some(Sections { lengths_dm, environment, beside_mains })
}

/// Length of such a chain in tenths of a metre, and the worst environment on its way.
pub fn length_of(instance: &Instance<'_>, place: usize, items: &[usize]) -> Option<(Amount, Environment)> {
    let mut total_dm = 0;
    let (environment, _) =
        walk(instance, place, items, &mut |length_dm| total_dm += Amount::from(length_dm))?;
    Some((total_dm, environment))
}

/// Tells the length of each section; returns the worst environment and whether mains cables share some of the way.
fn walk(
    instance: &Instance<'_>,
    place: usize,
    items: &[usize],
    tell: &mut impl FnMut(u32),
) -> Option<(Environment, bool)> {
    let mut environment = Environment::Indoors;
    let mut beside_mains = false;
    let mut at = place;
    let mut drop_before = 0;
    for &index in items {
        let item = &instance.items[index];
        let way = instance.way(at, item.place)?;
        environment = environment.max(way.environment).max(item.environment);
        beside_mains |= way.beside_mains;
        tell(instance.section_dm(way.length_mm, drop_before + item.drop_mm));
        (1..item.models.len()).for_each(|_| tell(item.extension_dm));
        at = item.place;
        drop_before = item.drop_mm;
    }
    Some((environment, beside_mains))
}

/// Cables in the walls that lead all the way of a chain, if they are of one kind that may run there.
pub fn chain_in_walls<'i>(
    instance: &'i Instance<'_>,
    place: usize,
    items: &[usize],
    environment: Environment,
) -> Option<Vec<&'i InWall>> {
    if !instance.walls_end_at[place] {
        return None;
    }
    let start = instance.survey.places[place].name.value.as_str();
    let stops = items.iter().flat_map(|item| &instance.items[*item].stops);
    in_walls(instance, start, stops.map(String::as_str), environment)
}

/// Cables in the walls from name to name.
pub fn in_walls<'i, 'n>(
    instance: &'i Instance<'_>,
    start: &'n str,
    stops: impl Iterator<Item = &'n str>,
    environment: Environment,
) -> Option<Vec<&'i InWall>> {
    let mut before = start;
    let mut found: Vec<&InWall> = Vec::new();
    for stop in stops {
        let wall = instance.in_walls.get(before)?.get(stop)?;
        if found.first().is_some_and(|first| first.cable != wall.cable) {
            return None;
        }
        found.push(wall);
        before = stop;
    }
    let first = found.first()?;
    instance.catalogue.cables[&first.cable].environments.value.contains(&environment).then_some(found)
}
