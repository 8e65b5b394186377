//! Addresses as they were set, and places where devices were fitted.

use super::difference::{Built, Difference, Takes, entry, path};
use crate::language::BuiltWords;
use crate::subject::Subject;
use crate::table::Table;
use crate::tables::address_words;
use latchline_site::addresses::fields_of;
use latchline_site::catalogue::FieldKind;
use latchline_site::model::StationOwner;
use latchline_wiring::Item;

/// What the device schedule says.
pub(super) fn add(
    subject: &Subject<'_>,
    table: &Table,
    [name, address, place]: [usize; 3],
    built: &mut Built,
) {
    let locale = &subject.locale;
    for (item, cells) in subject.order.iter().zip(table.body()) {
        let device = cells[name].words();
        if let Some(written) = entry(&cells[address]) {
            address_set(subject, *item, &locale.entry(written), built);
        }
        if let Some(written) = entry(&cells[place]).map(|entry| locale.entry(entry)) {
            let (written, planned) = (written.trim(), &subject.place_words(*item));
            if planned.is_empty() {
                built.say(locale.built(&BuiltWords::PlaceUnplanned { device, written }));
            } else if !written.eq_ignore_ascii_case(planned) {
                built.say(locale.built(&BuiltWords::PlaceOther { device, written, planned }));
            }
        }
    }
}

/// An address as it was set: all its numbers in their order, or its own number alone.
fn address_set(subject: &Subject<'_>, item: Item, written: &str, built: &mut Built) {
    let (site, locale) = (subject.site, &subject.locale);
    let device = &subject.name(item);
    let (planned_words, _) = address_words(subject, item);
    let planned = planned_words.as_str();
    let unread = |built: &mut Built| {
        built.say(locale.built(&BuiltWords::AddressUnread { device, written, planned }));
    };
    let Item::Station(index) = item else { return unread(built) };
    let Some((class, numbers)) = subject
        .assessment
        .addresses
        .stations
        .get(index)
        .and_then(|address| Some((address.class, address.numbers.as_ref()?)))
    else {
        return unread(built);
    };
    let (table, owner, own) = match site.stations[index].owner {
        StationOwner::Dwelling { dwelling, .. } => {
            ("dwellings", &site.dwellings[dwelling].id, FieldKind::Dwelling)
        }
        StationOwner::Entrance(entrance) => ("entrances", &site.entrances[entrance].id, FieldKind::Entrance),
        StationOwner::Management(desk) => ("management", &site.management[desk].id, FieldKind::Management),
    };
    // The number of a dwelling is told by its main station.
    let is_main = !matches!(site.stations[index].owner, StationOwner::Dwelling { ordinal: 1.., .. });
    let own_at = fields_of(site, class).iter().position(|field| field.kind == own);
    let digits: Vec<u32> = written
        .split(|sign: char| !sign.is_ascii_digit())
        .filter(|digits| !digits.is_empty())
        .filter_map(|digits| digits.parse().ok())
        .collect();
    let set = match (digits.as_slice(), own_at) {
        ([one], Some(at)) => {
            let mut all = numbers.clone();
            all[at] = *one;
            all
        }
        (all, _) if all.len() == numbers.len() => all.to_vec(),
        _ => return unread(built),
    };
    let other: Vec<usize> = (0..set.len()).filter(|at| set[*at] != numbers[*at]).collect();
    match (other.as_slice(), own_at) {
        ([], _) => {}
        ([at], Some(own_at)) if *at == own_at && is_main => {
            let says = locale.built(&BuiltWords::AddressOther { device, set: written, planned });
            let takes = Takes::Key(path(&[table, owner.as_str(), "number"]), set[own_at].to_string());
            built.differences.push(Difference { says, takes, is_within: false });
        }
        _ => built.say(locale.built(&BuiltWords::AddressOfSeveral { device, set: written, planned })),
    }
}
