//! The names by which runs and scopes refer to things on site.

use super::look_alike::look_alikes;
use super::resolver::Resolver;
use crate::codes;
use crate::model::Site;
use latchline_finding::{Finding, Origin, Severity};
use latchline_words::reading::Thing;
use std::collections::BTreeMap;

/// What a name stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Target {
    Supply(usize),
    Box(usize),
    Entrance(usize),
    Dwelling(usize),
    Management(usize),
}

impl Target {
    pub(super) fn word(self) -> Thing {
        match self {
            Target::Supply(_) => Thing::Supply,
            Target::Box(_) => Thing::Box,
            Target::Entrance(_) => Thing::Entrance,
            Target::Dwelling(_) => Thing::Dwelling,
            Target::Management(_) => Thing::ManagementStation,
        }
    }
}

/// Everything on site by name.
#[derive(Debug, Default)]
pub(super) struct NameIndex {
    targets: BTreeMap<String, (Target, Origin)>,
}

impl NameIndex {
    pub(super) fn get(&self, name: &str) -> Option<Target> {
        self.targets.get(name).map(|(target, _)| *target)
    }

    pub(super) fn names(&self) -> impl Iterator<Item = &str> {
        self.targets.keys().map(String::as_str)
    }
}

impl Resolver<'_> {
    /// Indexes everything; one name for two things is an error.
    pub(super) fn index_names(&mut self, site: &Site) -> NameIndex {
        let mut index = NameIndex::default();
        let all = (site.supplies.iter().enumerate())
            .map(|(at, supply)| (&supply.id, &supply.origin, Target::Supply(at)))
            .chain(site.boxes.iter().enumerate().map(|(at, item)| (&item.id, &item.origin, Target::Box(at))))
            .chain(
                site.entrances
                    .iter()
                    .enumerate()
                    .map(|(at, item)| (&item.id, &item.origin, Target::Entrance(at))),
            )
            .chain(
                site.dwellings
                    .iter()
                    .enumerate()
                    .map(|(at, item)| (&item.id, &item.origin, Target::Dwelling(at))),
            )
            .chain(
                site.management
                    .iter()
                    .enumerate()
                    .map(|(at, item)| (&item.id, &item.origin, Target::Management(at))),
            );
        for (id, origin, target) in all {
            match index.targets.get(id.as_str()) {
                Some((first, first_origin)) => {
                    let finding = self
                        .report(codes::DUPLICATE_NAME, origin.clone())
                        .about(id.clone())
                        .with("name", id)
                        .with("kind", target.word().both())
                        .with("other_kind", first.word().both())
                        .also_at("first-defined-here", first_origin.clone());
                    self.findings.push(finding);
                }
                None => {
                    index.targets.insert(id.as_str().to_string(), (target, origin.clone()));
                }
            }
        }
        self.report_look_alikes(index.targets.iter().map(|(name, (_, origin))| (name.as_str(), origin)));
        self.report_look_alikes(site.buildings.iter().map(|one| (one.id.as_str(), &one.origin)));
        for building in &site.buildings {
            self.report_look_alikes(building.floors.iter().map(|one| (one.value.as_str(), &one.origin)));
        }
        index
    }

    /// Of names of one kind those that can be taken for others, which compare as different all the same.
    pub(super) fn report_look_alikes<'n>(&mut self, named: impl Iterator<Item = (&'n str, &'n Origin)>) {
        let origins: BTreeMap<&str, &Origin> = named.collect();
        for one in look_alikes(origins.keys().copied()) {
            let Some(origin) = origins.get(one.name) else { continue };
            let mut finding = Finding::new(codes::LOOK_ALIKE_NAME, Severity::Warning, (*origin).clone())
                .about(one.name)
                .with("name", one.name)
                .with("signs", one.signs);
            if let Some(other) = one.other {
                finding = finding.with("other", other);
            }
            self.findings.push(finding);
        }
    }
}
