//! Who can call whom, and who is told of alarms.

use super::names::{NameIndex, Target};
use super::places::{Part, PlaceIndex};
use super::resolver::Resolver;
use crate::codes;
use crate::model::{Dwelling, Scope, Site};
use crate::parse::{Record, Value};
use crate::ranges;
use latchline_finding::{Figure, Origin};
use latchline_words::reading::Thing;
use std::borrow::Cow;
use std::collections::BTreeSet;

/// Most dwellings that all scopes of a site may list together.
const MOST_SCOPE_ENTRIES: usize = 4_000_000;

/// What scopes have cost so far.
#[derive(Debug, Default)]
pub(super) struct ScopeCost {
    spent: usize,
    refused: bool,
}

/// Whose scope is asked for, and what its words can mean.
#[derive(Clone, Copy)]
pub(super) struct Asked<'a> {
    /// The entrance or management station.
    pub(super) element: &'a str,
    /// Number of the management station, if it is one.
    pub(super) own: Option<usize>,
    pub(super) site: &'a Site,
    pub(super) names: &'a NameIndex,
    pub(super) places: &'a PlaceIndex,
}

fn lies_in(dwelling: &Dwelling, part: Part) -> bool {
    let place = &dwelling.place;
    place.building == Some(part.building)
        && (part.core.is_none() || place.core == part.core)
        && (part.floor.is_none() || place.floor == part.floor)
}

impl Resolver<'_> {
    /// Resolves whom an entrance or management station calls, or an alarm input tells. Where nothing is
    /// written, calls go to everyone and nobody is told.
    pub(super) fn scope(
        &mut self,
        record: &Record<'_>,
        key: &str,
        asked: &Asked<'_>,
        cost: &mut ScopeCost,
    ) -> Scope {
        let Asked { element, own, site, names, places } = *asked;
        let origin = if record.is_written(key) { record.origin(key) } else { Origin::None };
        let mut words: Vec<(Cow<'_, str>, Origin)> = Vec::new();
        if record.is_written(key) {
            for item in record.list(key) {
                let Value::Text(word) = item.value else { continue };
                let at = record.at(&item.span);
                match ranges::names(word).filter(|_| names.get(word).is_none()) {
                    Some(Ok(range)) => {
                        words.extend(range.into_iter().map(|name| (Cow::Owned(name), at.clone())));
                    }
                    _ => words.push((Cow::Borrowed(word), at)),
                }
            }
        } else if key == "calls" {
            words.push((Cow::Borrowed("everyone"), Origin::None));
        }
        let mut dwellings = BTreeSet::new();
        let mut management = BTreeSet::new();
        for (word, at) in words {
            let word = &*word;
            // Every word may go through all dwellings once.
            cost.spent += site.dwellings.len() + site.management.len();
            if cost.spent > MOST_SCOPE_ENTRIES {
                if !cost.refused {
                    cost.refused = true;
                    let finding = self
                        .report(codes::SITE_TOO_LARGE, at)
                        .about(element)
                        .with("limit", Figure::count(MOST_SCOPE_ENTRIES));
                    self.findings.push(finding);
                }
                break;
            }
            match (word, names.get(word), places.part(word)) {
                ("everyone", ..) => {
                    dwellings.extend(0..site.dwellings.len());
                    management.extend(0..site.management.len());
                }
                ("management", ..) => management.extend(0..site.management.len()),
                (_, Some(Target::Dwelling(dwelling)), _) => {
                    dwellings.insert(dwelling);
                }
                (_, Some(Target::Management(station)), _) => {
                    management.insert(station);
                }
                (_, _, Some(part)) => {
                    let members =
                        site.dwellings.iter().enumerate().filter(|(_, dwelling)| lies_in(dwelling, part));
                    dwellings.extend(members.map(|(at, _)| at));
                }
                (_, Some(other), None) => {
                    let finding = self
                        .report(codes::WRONG_KIND_OF_PART, at)
                        .about(element)
                        .with("name", word)
                        .with("found", other.word().both())
                        .with("expected", Thing::Dwelling.both());
                    self.findings.push(finding);
                }
                (_, None, None) => {
                    let known = self.gather(|_| {
                        let words =
                            names.names().chain(places.building_names()).chain(["everyone", "management"]);
                        words.map(str::to_string).collect()
                    });
                    self.unknown_element(Thing::Scope, word, at, element, &known);
                }
            }
        }
        if let Some(own) = own {
            management.remove(&own);
        }
        Scope {
            dwellings: dwellings.into_iter().collect(),
            management: management.into_iter().collect(),
            origin,
        }
    }
}
