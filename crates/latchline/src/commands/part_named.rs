//! Parts of the catalogue by the name that a command is given.

use crate::refusal::Result;
use latchline_site::catalogue::{Catalogue, StationKind};
use latchline_site::parse::NameBudget;
use latchline_words::refusals::{PartKind, PartRefusal, PartWord, either};

/// Refuses a name that no part of this kind has, and says what it is or which one is near.
pub(super) fn known<'a>(
    catalogue: &Catalogue,
    kind: PartKind,
    name: &str,
    names: impl Iterator<Item = &'a String>,
) -> Result<()> {
    let names: Vec<&str> = names.map(String::as_str).collect();
    if names.contains(&name) {
        return Ok(());
    }
    if let Some(is) = what_it_is(catalogue, name) {
        return Err(PartRefusal::IsOtherKind { name, is, kind, known: &names.join(", ") }.into());
    }
    match NameBudget::default().nearest(name, names.iter().copied()).as_slice() {
        [] => Err(PartRefusal::NoSuch { kind, name, known: &names.join(", ") }.into()),
        near => Err(PartRefusal::NoSuchNear { kind, name, names: &either(near) }.into()),
    }
}

/// What a part of the catalogue is, in words.
fn what_it_is(catalogue: &Catalogue, name: &str) -> Option<PartWord> {
    let station = catalogue.stations.get(name).map(|station| match station.kind.value {
        StationKind::Door => PartWord::DoorStation,
        StationKind::Indoor => PartWord::IndoorStation,
        StationKind::Management => PartWord::ManagementStation,
    });
    let others = [
        (catalogue.families.contains_key(name), PartWord::Family),
        (catalogue.supplies.contains_key(name), PartWord::Supply),
        (catalogue.boxes.contains_key(name), PartWord::Box),
        (catalogue.cables.contains_key(name), PartWord::Cable),
        (catalogue.locks.contains_key(name), PartWord::Lock),
        (catalogue.accessories.contains_key(name), PartWord::Module),
        (catalogue.lights.contains_key(name), PartWord::Light),
    ];
    station.or_else(|| others.into_iter().find(|(is_it, _)| *is_it).map(|(_, word)| word))
}

/// Refuses a part that cannot work with the family: a table of noughts would look like an answer.
pub(super) fn of_family(part: &str, its_family: &str, family: &str) -> Result<()> {
    if its_family != family {
        return Err(PartRefusal::OtherFamily { part, its: its_family, family }.into());
    }
    Ok(())
}
