//! Parts of the catalogue by the name that a command is given.

use anyhow::{Result, bail};
use latchline_site::catalogue::{Catalogue, StationKind};
use latchline_site::parse::NameBudget;

/// Refuses a name that no part of this kind has, and says what it is or which one is near.
pub(super) fn known<'a>(
    catalogue: &Catalogue,
    kind: &str,
    name: &str,
    names: impl Iterator<Item = &'a String>,
) -> Result<()> {
    let names: Vec<&str> = names.map(String::as_str).collect();
    if names.contains(&name) {
        return Ok(());
    }
    if let Some(is) = what_it_is(catalogue, name) {
        let article = if kind.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
        bail!("{name} is {is}, and {article} {kind} is asked for; there are {}", names.join(", "));
    }
    match NameBudget::default().nearest(name, names.iter().copied()).as_slice() {
        [] => bail!("there is no {kind} \"{name}\" in the catalogue; there are {}", names.join(", ")),
        near => bail!("there is no {kind} \"{name}\" in the catalogue; did you mean {}?", near.join(" or ")),
    }
}

/// What a part of the catalogue is, in words.
fn what_it_is(catalogue: &Catalogue, name: &str) -> Option<&'static str> {
    let station = catalogue.stations.get(name).map(|station| match station.kind.value {
        StationKind::Door => "a door station",
        StationKind::Indoor => "an indoor station",
        StationKind::Management => "a management station",
    });
    let others = [
        (catalogue.families.contains_key(name), "a family"),
        (catalogue.supplies.contains_key(name), "a supply"),
        (catalogue.boxes.contains_key(name), "a distributor or branch box"),
        (catalogue.cables.contains_key(name), "a cable"),
        (catalogue.locks.contains_key(name), "a lock"),
        (catalogue.accessories.contains_key(name), "a module of a door station"),
        (catalogue.lights.contains_key(name), "a light"),
    ];
    station.or_else(|| others.into_iter().find(|(is_it, _)| *is_it).map(|(_, words)| words))
}

/// Refuses a part that cannot work with the family: a table of noughts would look like an answer.
pub(super) fn of_family(part: &str, its_family: &str, family: &str) -> Result<()> {
    if its_family != family {
        bail!(
            "{part} is of the family {its_family} and does not work with {family}; name parts of one family, or the family with --family"
        );
    }
    Ok(())
}
