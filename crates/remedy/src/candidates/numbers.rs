//! Other numbers, of one dwelling, door or building, or of a whole range.

use crate::bench::Bench;
use crate::candidate::{Candidate, quoted};
use latchline_finding::Edit;
use latchline_site::addresses::{DeviceClass, assign, fields_of, number_in_name};
use latchline_site::catalogue::FieldKind;
use latchline_site::ranges;
use std::collections::BTreeSet;
use toml::de::DeValue;

/// Another number: the one that the tool would give if none were stated, or the lowest free one.
pub(super) fn other_number(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let owner = element.split_once(':').map_or(element, |(owner, _)| owner);
    let table = if site.dwellings.iter().any(|one| one.id.as_str() == owner) {
        "dwellings"
    } else if site.entrances.iter().any(|one| one.id.as_str() == owner) {
        "entrances"
    } else if site.management.iter().any(|one| one.id.as_str() == owner) {
        "management"
    } else if site.buildings.iter().any(|one| one.id.as_str() == owner) {
        "buildings"
    } else {
        return Vec::new();
    };
    if table == "dwellings"
        && let Some(range) = range_of(bench, owner)
    {
        return number_of_the_range(bench, &range);
    }
    let mut list = Vec::new();
    if bench.written(&[table, owner, "number"]).is_some() {
        list.push(Candidate::new("number-by-the-tool", Edit::remove(&[table, owner, "number"])));
    }
    if table == "entrances" {
        list.push(Candidate::new(
            "secondary-entrance",
            Edit::set(&[table, owner, "role"], quoted("secondary")),
        ));
    }
    list.extend((1..=99).filter(|number| !number_is_stated(bench, table, *number)).take(3).map(|number| {
        Candidate::new("other-number", Edit::set(&[table, owner, "number"], number.to_string()))
    }));
    list
}

/// Of two with one number the one whose number is not that of its name is changed, if it is one of them alone: there the slip is.
pub(super) fn number_of_the_slip(bench: &Bench<'_>, element: &str, other: Option<&str>) -> Vec<Candidate> {
    let is_off = |name: &str| {
        let owner = name.split_once(':').map_or(name, |(owner, _)| owner);
        let dwelling = bench.site.dwellings.iter().find(|one| one.id.as_str() == owner);
        let stated = dwelling.and_then(|one| one.number.as_ref()).map(|number| number.value);
        stated.is_some_and(|stated| number_in_name(owner).is_some_and(|named| named != stated))
    };
    match other {
        Some(other) if is_off(other) && !is_off(element) => other_number(bench, other),
        _ => other_number(bench, element),
    }
}

fn number_is_stated(bench: &Bench<'_>, table: &str, number: i64) -> bool {
    let stated = |entry: &DeValue<'_>| {
        let number = entry.get("number")?.get_ref().as_integer()?;
        i64::from_str_radix(number.as_str(), number.radix()).ok()
    };
    let entries = bench.written(&[table]).and_then(DeValue::as_table);
    entries.is_some_and(|entries| entries.values().any(|entry| stated(entry.get_ref()) == Some(number)))
}

/// The range of names that a dwelling is one of, as its key is written, where that states a number.
fn range_of(bench: &Bench<'_>, dwelling: &str) -> Option<String> {
    let table = bench.written(&["dwellings"])?.as_table()?;
    let has_it = |key: &str| {
        ranges::names(key).and_then(Result::ok).is_some_and(|all| all.iter().any(|one| one == dwelling))
    };
    let numbered = table.iter().filter(|(_, entry)| entry.get_ref().get("number").is_some());
    let mut names = numbered.map(|(key, _)| key.get_ref().to_string());
    names.find(|key| !table.contains_key(dwelling) && has_it(key))
}

/// Most first numbers that are tried for a range.
const MOST_FIRST_NUMBERS: usize = 3;

/// Another first number for a whole range: its number left out, or the lowest from which as many are free as it has names.
fn number_of_the_range(bench: &Bench<'_>, range: &str) -> Vec<Candidate> {
    let own = ranges::names(range).and_then(Result::ok).unwrap_or_default();
    let plan = assign(bench.site);
    let all = bench.site.dwellings.iter().zip(&plan.dwellings);
    let others = all.filter(|(dwelling, _)| !own.iter().any(|name| name == dwelling.id.as_str()));
    let taken: BTreeSet<u32> = others.filter_map(|(_, number)| *number).collect();
    let field =
        fields_of(bench.site, DeviceClass::Indoor).iter().find(|field| field.kind == FieldKind::Dwelling);
    let Some(field) = field else { return Vec::new() };
    let many = u32::try_from(own.len()).unwrap_or(u32::MAX);
    let is_free = |first: &u32| (*first..first.saturating_add(many)).all(|number| !taken.contains(&number));
    let path = ["dwellings", range, "number"];
    let numbers = (field.first.value..=field.last.value).filter(is_free).take(MOST_FIRST_NUMBERS);
    let numbers = numbers.map(|first| Candidate::new("other-number", Edit::set(&path, first.to_string())));
    std::iter::once(Candidate::new("number-by-the-tool", Edit::remove(&path))).chain(numbers).collect()
}
