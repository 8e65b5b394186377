//! What every part of resolving shares: the parts, the names, and what was found so far.

use crate::catalogue::Cable;
use crate::catalogue::load::Loader;
use crate::codes;
use crate::model::{AcceptanceEntry, Conditions, Policy, Site, SiteHead, USUAL_CALL_S};
use crate::parse::{Findings, NameBudget, Record, clip};
use latchline_finding::{Code, Figure, Finding, Origin, Provenance, Severity, Sourced, Unit};
use latchline_words::reading::{BadName, Thing, WrittenUnder};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Most names that are listed where none is near to what was written.
const MOST_CHOICES: usize = 40;

pub(super) const STATED: Provenance = Provenance::Stated;

/// Everything that the parts of this module share.
pub(super) struct Resolver<'r> {
    pub(super) loader: Loader,
    pub(super) findings: &'r mut Findings,
    pub(super) budget: &'r mut NameBudget,
    /// Places of references already reported: a wrong default model is wrong once, not once for
    /// each dwelling.
    pub(super) reported: BTreeSet<Origin>,
    /// Names that nothing has, with where they stand: a place that a range of dwellings gives is wrong once, not once for each of them.
    pub(super) unknown_names: BTreeSet<(Origin, String)>,
    /// Parts of another kind than is needed: told once a part, with all who have it.
    pub(super) wrong_kinds: Vec<WrongKind>,
    /// Family of the site, empty until it is read.
    pub(super) family: String,
    /// Whether a place was told of in a file that describes no building.
    pub(super) no_building_told: bool,
}

/// A part that is of another kind than is needed.
pub(super) struct WrongKind {
    pub(super) part: Sourced<String>,
    pub(super) found: Thing,
    pub(super) expected: Thing,
    pub(super) elements: Vec<String>,
}

impl<'r> Resolver<'r> {
    /// Before anything is read.
    pub(super) fn new(loader: Loader, findings: &'r mut Findings, budget: &'r mut NameBudget) -> Self {
        Resolver {
            loader,
            findings,
            budget,
            reported: BTreeSet::new(),
            unknown_names: BTreeSet::new(),
            wrong_kinds: Vec::new(),
            family: String::new(),
            no_building_told: false,
        }
    }
}

/// Where in the site file a kind of thing is written; `None` for parts of a catalogue and for what is written in several places.
fn defined_under(kind: Thing) -> Option<WrittenUnder> {
    match kind {
        Thing::Building => Some(WrittenUnder::Buildings),
        Thing::Floor => Some(WrittenUnder::Floors),
        Thing::Core => Some(WrittenUnder::Cores),
        Thing::StartOfRun => Some(WrittenUnder::Supplies),
        Thing::StopOfRun | Thing::Scope => Some(WrittenUnder::Dwellings),
        _ => None,
    }
}

impl Resolver<'_> {
    pub(super) fn report(&mut self, code: Code, origin: Origin) -> Finding {
        Finding::new(code, Severity::Error, origin)
    }

    pub(super) fn unknown_name(
        &mut self,
        kind: Thing,
        name: &str,
        origin: Origin,
        element: Option<&str>,
        known: &[String],
    ) {
        if !self.unknown_names.insert((origin.clone(), name.to_string())) {
            return;
        }
        if self.findings.one_more_of_the_range(&origin) {
            return;
        }
        let nearest = self.budget.nearest(name, known.iter().map(String::as_str));
        let mut finding =
            self.report(codes::UNKNOWN_NAME, origin).with("kind", kind.both()).with("name", clip(name));
        if nearest.is_empty() && (2..=MOST_CHOICES).contains(&known.len()) {
            finding = finding.with("choices", known.to_vec());
        }
        if let Some(under) = defined_under(kind).filter(|_| known.is_empty() && !self.budget.is_spent()) {
            finding = finding.with("under", under.both());
        }
        finding = finding.with("nearest", nearest);
        if let Some(element) = element {
            finding = finding.about(clip(element).as_str());
        }
        self.findings.push(finding);
    }

    /// A name of the site that nothing has, unless that follows from a mistake that is told already.
    pub(super) fn unknown_element(
        &mut self,
        kind: Thing,
        name: &str,
        origin: Origin,
        element: &str,
        known: &[String],
    ) {
        let (base, _) = name.rsplit_once([':', '.']).unwrap_or((name, ""));
        let near = self.budget.nearest(base, known.iter().map(String::as_str));
        let is_element = |other: &str| known.iter().any(|one| one == other);
        if !self.findings.explain_unknown(name, &near, is_element) {
            self.unknown_name(kind, name, origin, Some(element), known);
        }
    }

    /// A reference to a catalogue part: reports it if nothing has that name.
    pub(super) fn check_part(
        &mut self,
        kind: PartKind,
        name: &Sourced<String>,
        element: Option<&str>,
    ) -> bool {
        if self.names_of(kind).contains_key(&name.value) {
            return true;
        }
        if self.reported.insert(name.origin.clone()) {
            let known = self.gather(|resolver| resolver.choices(kind));
            // An everyday name: the site file takes the name of the catalogue, which is then the one to write.
            let meant = |cable: &&Cable| cable.is_called(&name.value) || cable.called_begins(&name.value);
            let cables = self
                .loader
                .catalogue
                .cables
                .values()
                .filter(|_| kind == PartKind::Cable && !known.is_empty());
            let meant: Vec<String> = cables.filter(meant).map(|cable| cable.head.name.clone()).collect();
            if !meant.is_empty() {
                let finding = self.report(codes::UNKNOWN_NAME, name.origin.clone());
                let finding = finding.with("kind", kind.word().both()).with("name", clip(&name.value));
                let finding = finding.with("nearest", meant);
                self.findings.push(match element {
                    Some(element) => finding.about(clip(element).as_str()),
                    None => finding,
                });
                return false;
            }
            self.unknown_name(kind.word(), &name.value, name.origin.clone(), element, &known);
        }
        false
    }

    /// Names for a suggestion, unless there is nothing left to spend on suggestions.
    pub(super) fn gather(&self, names: impl FnOnce(&Self) -> Vec<String>) -> Vec<String> {
        if self.budget.is_spent() || self.findings.is_full() { Vec::new() } else { names(self) }
    }

    /// Names of parts for a suggestion: those of the site's own family, where it is known and has any; a part of another family would not
    /// do.
    fn choices(&self, kind: PartKind) -> Vec<String> {
        let catalogue = &self.loader.catalogue;
        let is_own = |name: &String| {
            let family = match kind {
                PartKind::Supply => catalogue.supplies.get(name).map(|part| &part.family),
                PartKind::Box => catalogue.boxes.get(name).map(|part| &part.family),
                PartKind::Station => catalogue.stations.get(name).map(|part| &part.family),
                PartKind::Accessory => catalogue.accessories.get(name).map(|part| &part.family),
                PartKind::Family | PartKind::Cable | PartKind::Lock | PartKind::Light => None,
            };
            family.is_some_and(|family| family.value == self.family)
        };
        let all = || self.names_of(kind).keys();
        let own: Vec<String> = all().filter(|name| is_own(name)).cloned().collect();
        if own.is_empty() { all().cloned().collect() } else { own }
    }

    pub(super) fn names_of(&self, kind: PartKind) -> &BTreeMap<String, Origin> {
        let names = &self.loader.names;
        match kind {
            PartKind::Family => &names.families,
            PartKind::Supply => &names.supplies,
            PartKind::Box => &names.boxes,
            PartKind::Station => &names.stations,
            PartKind::Cable => &names.cables,
            PartKind::Lock => &names.locks,
            PartKind::Accessory => &names.accessories,
            PartKind::Light => &names.lights,
        }
    }

    /// Parts whose names can be taken for others of their kind.
    pub(super) fn check_part_names(&mut self) {
        let names = Arc::clone(&self.loader.names);
        let kinds = [
            &names.families,
            &names.supplies,
            &names.boxes,
            &names.stations,
            &names.cables,
            &names.locks,
            &names.accessories,
            &names.lights,
        ];
        for kind in kinds {
            self.report_look_alikes(kind.iter().map(|(name, origin)| (name.as_str(), origin)));
        }
    }

    /// Every part must belong to a family that exists.
    pub(super) fn check_part_families(&mut self) {
        let catalogue = &self.loader.catalogue;
        let named: Vec<(String, Sourced<String>)> = catalogue
            .supplies
            .values()
            .map(|part| (&part.head.name, &part.family))
            .chain(catalogue.boxes.values().map(|part| (&part.head.name, &part.family)))
            .chain(catalogue.stations.values().map(|part| (&part.head.name, &part.family)))
            .chain(catalogue.accessories.values().map(|part| (&part.head.name, &part.family)))
            .filter(|(_, family)| !self.loader.names.families.contains_key(&family.value))
            .map(|(name, family)| (name.clone(), family.clone()))
            .collect();
        for (name, family) in named {
            self.check_part(PartKind::Family, &family, Some(&name));
        }
    }

    pub(super) fn site(&mut self, file: &Record<'_>) -> Site {
        let (head, names_family) = file.within("site", |head| {
            self.refuse_empty_title(head);
            (SiteHead::read(head, STATED), head.read::<Sourced<String>>("family", STATED).is_some())
        });
        self.family.clone_from(&head.family.value);
        // One that is not written is told as a missing key; an empty name is a name that nothing has.
        if names_family {
            self.check_part(PartKind::Family, &head.family, None);
        }
        let mut site = Site {
            title: head.title.clone(),
            family: head.family.clone(),
            country: head.country.clone(),
            catalogue: Arc::default(),
            conditions: file.within("conditions", |conditions| self.conditions(conditions)),
            policy: file.within("policy", |policy| Policy::read(policy, STATED)).with_zero_as_none(),
            buildings: Vec::new(),
            supplies: Vec::new(),
            boxes: Vec::new(),
            entrances: Vec::new(),
            dwellings: Vec::new(),
            management: Vec::new(),
            stations: Vec::new(),
            runs: Vec::new(),
            acceptances: file
                .tables("accept")
                .filter_map(|entry| AcceptanceEntry::read(entry, STATED))
                .collect(),
            revisions: self.revisions(file),
        };
        self.elements(file, &head, &mut site);
        self.report_wrong_kinds();
        self.refuse_calls_that_do_not_fit(&site);
        site.catalogue = Arc::clone(&self.loader.catalogue);
        site
    }

    pub(super) fn refuse_empty_title(&mut self, head: &Record<'_>) {
        let title = head.read::<Sourced<String>>("title", STATED);
        if let Some(title) = title.filter(|title| title.value.trim().is_empty()) {
            let finding = self
                .report(codes::BAD_NAME, title.origin)
                .with("name", clip(&title.value))
                .with("reason", BadName::Empty.both());
            self.findings.push(finding);
        }
    }

    /// So many calls in an hour, each so long, need room: at once no more stand than the family allows.
    pub(super) fn refuse_calls_that_do_not_fit(&mut self, site: &Site) {
        let Some(calls) = &site.policy.calls_per_hour else { return };
        let Some(family) = self.loader.catalogue.families.get(&site.family.value) else { return };
        let stated = site.policy.call_duration.as_ref().map(|duration| duration.value.as_seconds());
        let duration_s = stated.unwrap_or(USUAL_CALL_S);
        let at_once = family.simultaneous_calls.value;
        let most = 3600.0 * f64::from(at_once) / duration_s;
        // Shown in whole calls, and never as fewer than what is refused.
        if calls.value <= most * (1.0 + 1e-9) {
            return;
        }
        let finding = self
            .report(codes::CALLS_DO_NOT_FIT, calls.origin.clone())
            .with("calls", calls.value.to_string())
            .with("duration", Figure::new(duration_s, Unit::Second))
            .with("at_once", at_once as usize)
            .with("most", most.floor() as usize);
        self.findings.push(finding);
    }

    pub(super) fn report_wrong_kinds(&mut self) {
        for WrongKind { part, found, expected, elements } in std::mem::take(&mut self.wrong_kinds) {
            let mut finding = self
                .report(codes::WRONG_KIND_OF_PART, part.origin)
                .with("name", clip(&part.value))
                .with("found", found.both())
                .with("expected", expected.both());
            let mut elements = elements.iter().map(|element| clip(element));
            if let Some(first) = elements.next() {
                finding = finding.about(first.as_str());
            }
            let others: Vec<String> = elements.collect();
            if !others.is_empty() {
                finding = finding.with("others", others);
            }
            self.findings.push(finding);
        }
    }

    pub(super) fn conditions(&mut self, record: &Record<'_>) -> Conditions {
        let conditions = Conditions::read(record, STATED);
        let [coldest, usual, hottest] = [
            conditions.coldest_temperature.value.as_celsius(),
            conditions.usual_temperature.value.as_celsius(),
            conditions.hottest_temperature.value.as_celsius(),
        ];
        if coldest > usual || usual > hottest {
            let finding = self
                .report(codes::TEMPERATURES_OUT_OF_ORDER, record.at(&record.span))
                .with("coldest", Figure::new(coldest, Unit::Celsius))
                .with("usual", Figure::new(usual, Unit::Celsius))
                .with("hottest", Figure::new(hottest, Unit::Celsius));
            self.findings.push(finding);
        }
        conditions
    }
}

/// Kinds of catalogue parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum PartKind {
    Family,
    Supply,
    Box,
    Station,
    Cable,
    Lock,
    Accessory,
    Light,
}

impl PartKind {
    pub(super) fn word(self) -> Thing {
        match self {
            PartKind::Family => Thing::Family,
            PartKind::Supply => Thing::SupplyModel,
            PartKind::Box => Thing::BoxModel,
            PartKind::Station => Thing::StationModel,
            PartKind::Cable => Thing::Cable,
            PartKind::Lock => Thing::LockModel,
            PartKind::Accessory => Thing::Accessory,
            PartKind::Light => Thing::Light,
        }
    }
}
