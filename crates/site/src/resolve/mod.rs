//! From the texts of a site file and its catalogues to a [`Site`].
//!
//! Nothing stops at the first mistake: every reference is looked up, every structural fault of
//! the wiring is found, and the site is handed out only when no error stands in the way.

mod door;
mod elements;
mod look_alike;
mod names;
mod places;
mod runs;
mod scope;
mod structure;

use crate::catalogue::load::Loader;
use crate::catalogue::{CATALOGUE_FILE, Cable, Catalogue, OwnPrices};
use crate::codes;
use crate::edit::{Places, tree};
use crate::model::{AcceptanceEntry, Conditions, Policy, SITE_FILE, Site, SiteHead, USUAL_CALL_S};
use crate::parse::{Document, Findings, NameBudget, Reader, Record, clip, parse};
use latchline_finding::{
    Both, Code, Edit, Figure, FileId, Finding, Origin, Provenance, Severity, SourceFile, Sourced, Sources,
    Unit,
};
use latchline_words::reading::{BadName, Thing};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use toml::de::DeTable;

/// Most names that are listed where none is near to what was written.
const MOST_CHOICES: usize = 40;

const STATED: Provenance = Provenance::Stated;

/// What resolving gave.
#[derive(Debug, Clone, PartialEq)]
pub struct Resolved {
    /// The site; `None` if an error stands in the way.
    pub site: Option<Site>,
    /// Everything that is wrong or doubtful, ordered by file and place.
    pub findings: Vec<Finding>,
    /// The catalogue files that the site file asks for, relative to it.
    pub catalogue_paths: Vec<Sourced<String>>,
    /// Where the values of the site file stand, for editing; nothing where its TOML is broken.
    pub places: Places,
}

/// Resolves the site file `site` against the catalogue files `catalogues`, in their order.
///
/// The built-in catalogue is used only if it is among them (see
/// [`builtin_catalogue`](crate::builtin_catalogue)).
pub fn resolve(sources: &Sources, site: FileId, catalogues: &[FileId]) -> Resolved {
    LoadedCatalogues::new(sources, catalogues).resolve(sources, site)
}

/// Catalogue files, read once for many sites or for many versions of one.
#[derive(Debug, Clone, Default)]
pub struct LoadedCatalogues {
    loader: Loader,
    findings: Findings,
    budget: NameBudget,
    /// What could not be read, by the path at which a site file names it, with why.
    unread: BTreeMap<String, Both>,
}

impl LoadedCatalogues {
    /// Reads catalogue files in their order.
    pub fn new(sources: &Sources, catalogues: &[FileId]) -> Self {
        Self::with_prices(sources, catalogues, OwnPrices::new())
    }

    /// Reads catalogue files in their order; own prices take the place of theirs.
    pub fn with_prices(sources: &Sources, catalogues: &[FileId], own_prices: OwnPrices) -> Self {
        let mut loaded = LoadedCatalogues::default();
        loaded.loader.own_prices = Arc::new(own_prices);
        for &file in catalogues {
            if let Some(document) = parse(file, sources.file(file), &mut loaded.findings) {
                let record = Reader { file, findings: &mut loaded.findings, budget: &mut loaded.budget }
                    .root(&document.root, &CATALOGUE_FILE);
                loaded.loader.add_file(&record, &mut loaded.findings);
            }
        }
        loaded.loader.settle_prices();
        loaded
    }

    /// With the files that could not be read, by the path at which a site file names them, and why each: a site that names one of
    /// them cannot be used.
    #[must_use]
    pub fn without(mut self, unread: BTreeMap<String, Both>) -> Self {
        self.unread = unread;
        self
    }

    /// The parts.
    pub fn catalogue(&self) -> &Catalogue {
        &self.loader.catalogue
    }

    /// What is wrong with the files.
    pub fn findings(&self) -> Vec<Finding> {
        self.findings.clone().finish()
    }

    /// What is wrong with the files, between their parts and with own prices, without any site.
    pub fn checked(&self) -> Vec<Finding> {
        let LoadedCatalogues { loader, mut findings, mut budget, .. } = self.clone();
        let reported = BTreeSet::new();
        let wrong_kinds = Vec::new();
        Resolver { loader, findings: &mut findings, budget: &mut budget, reported, wrong_kinds }
            .check_part_families();
        self.check_own_prices(&mut findings, &mut budget);
        findings.finish()
    }

    /// Own prices of parts that there are not.
    fn check_own_prices(&self, findings: &mut Findings, budget: &mut NameBudget) {
        let parts = self.catalogue().part_names();
        for (name, own) in self.loader.own_prices.iter().filter(|(name, _)| !parts.contains(name.as_str())) {
            findings.push(
                Finding::new(codes::PRICE_WITHOUT_PART, Severity::Warning, own.origin.clone())
                    .with("name", clip(name))
                    .with("nearest", budget.nearest(name, parts.iter().copied())),
            );
        }
    }

    /// Resolves the site file `site` against them; `sources` are those that they were read from, or a
    /// copy in which the site's text is another one.
    pub fn resolve(&self, sources: &Sources, site: FileId) -> Resolved {
        self.resolve_parsed(&ParsedSite::new(site, sources.file(site)))
    }

    /// The same for a site file that was read as TOML before.
    pub fn resolve_parsed(&self, parsed: &ParsedSite<'_>) -> Resolved {
        let (site, findings) = self.read(parsed);
        let sound = parsed.document.as_ref().filter(|_| parsed.findings.count() == 0);
        Resolved {
            site,
            findings: findings.finish(),
            catalogue_paths: parsed.catalogue_paths(),
            places: sound.map_or(Places::default(), |document| Places::new(&document.root)),
        }
    }

    /// The site alone, as [`resolve`](Self::resolve) gives it.
    pub fn site_of(&self, parsed: &ParsedSite<'_>) -> Option<Site> {
        self.read(parsed).0
    }

    fn read(&self, parsed: &ParsedSite<'_>) -> (Option<Site>, Findings) {
        let LoadedCatalogues { mut loader, mut findings, mut budget, unread } = self.clone();
        findings.append(&parsed.findings);
        // Names are looked up for it only where something could not be read.
        let named = if unread.is_empty() { Vec::new() } else { parsed.catalogue_paths() };
        for (path, why) in named.iter().filter_map(|path| Some((path, unread.get(&path.value)?))) {
            findings.push(
                Finding::new(codes::CATALOGUE_NOT_READ, Severity::Error, path.origin.clone())
                    .with("path", clip(&path.value))
                    .with("why", why.clone()),
            );
        }
        let site = parsed.document.as_ref().map(|document| {
            let record = Reader { file: parsed.file, findings: &mut findings, budget: &mut budget }
                .root(&document.root, &SITE_FILE);
            loader.add_site_cables(record.named("cables"), &mut findings);
            let mut resolver = Resolver {
                loader,
                findings: &mut findings,
                budget: &mut budget,
                reported: BTreeSet::new(),
                wrong_kinds: Vec::new(),
            };
            resolver.check_part_families();
            resolver.site(&record)
        });
        (site.filter(|_| !findings.has_errors()), findings)
    }
}

/// A site file read as TOML, once for all that is asked of it.
#[derive(Debug)]
pub struct ParsedSite<'t> {
    file: FileId,
    document: Option<Document<'t>>,
    findings: Findings,
}

impl<'t> ParsedSite<'t> {
    /// Reads the TOML.
    pub fn new(file: FileId, source: &'t SourceFile) -> Self {
        let mut findings = Findings::new();
        let document = parse(file, source, &mut findings);
        ParsedSite { file, document, findings }
    }

    /// The same with an edit made on what was read; what is new has no place in the text. `None` for an edit that must be made on
    /// the text, for one that cannot be made, and where the TOML is broken.
    pub fn changed<'e>(&'e self, edit: &'e Edit) -> Option<ParsedSite<'e>> {
        let document = self.document.as_ref().filter(|_| self.findings.count() == 0)?;
        let root = tree::changed(&document.root, edit)?;
        let document = Some(Document { file: document.file, root });
        Some(ParsedSite { file: self.file, document, findings: Findings::new() })
    }

    /// The catalogue files that it asks for (`catalogues` of `[site]`), relative to it.
    ///
    /// Reads leniently: what is wrong with the file is [`resolve`]'s to tell.
    pub fn catalogue_paths(&self) -> Vec<Sourced<String>> {
        let head = self.document.as_ref().and_then(|document| document.root.get_key_value("site"));
        let Some((key, head)) = head else { return Vec::new() };
        let only = DeTable::from_iter([(key.clone(), head.clone())]);
        let (mut findings, mut budget) = (Findings::new(), NameBudget::default());
        let record =
            Reader { file: self.file, findings: &mut findings, budget: &mut budget }.root(&only, &SITE_FILE);
        record.within("site", |head| SiteHead::read(head, STATED).catalogues)
    }
}

/// Everything that the parts of this module share.
struct Resolver<'r> {
    loader: Loader,
    findings: &'r mut Findings,
    budget: &'r mut NameBudget,
    /// Places of references already reported: a wrong default model is wrong once, not once for
    /// each dwelling.
    reported: BTreeSet<Origin>,
    /// Parts of another kind than is needed: told once a part, with all who have it.
    wrong_kinds: Vec<WrongKind>,
}

/// A part that is of another kind than is needed.
struct WrongKind {
    part: Sourced<String>,
    found: Thing,
    expected: Thing,
    elements: Vec<String>,
}

impl Resolver<'_> {
    fn report(&mut self, code: Code, origin: Origin) -> Finding {
        Finding::new(code, Severity::Error, origin)
    }

    fn unknown_name(
        &mut self,
        kind: Thing,
        name: &str,
        origin: Origin,
        element: Option<&str>,
        known: &[String],
    ) {
        let nearest = self.budget.nearest(name, known.iter().map(String::as_str));
        let mut finding =
            self.report(codes::UNKNOWN_NAME, origin).with("kind", kind.both()).with("name", clip(name));
        if nearest.is_empty() && (2..=MOST_CHOICES).contains(&known.len()) {
            finding = finding.with("choices", known.to_vec());
        }
        finding = finding.with("nearest", nearest);
        if let Some(element) = element {
            finding = finding.about(clip(element).as_str());
        }
        self.findings.push(finding);
    }

    /// A name of the site that nothing has, unless that follows from a mistake that is told already.
    fn unknown_element(&mut self, kind: Thing, name: &str, origin: Origin, element: &str, known: &[String]) {
        let (base, _) = name.rsplit_once([':', '.']).unwrap_or((name, ""));
        let near = self.budget.nearest(base, known.iter().map(String::as_str));
        let is_near = |other: &str| near.iter().any(|one| one == other);
        let is_element = |other: &str| known.iter().any(|one| one == other);
        if !self.findings.explain_unknown(name, is_near, is_element) {
            self.unknown_name(kind, name, origin, Some(element), known);
        }
    }

    /// A reference to a catalogue part: reports it if nothing has that name.
    fn check_part(&mut self, kind: PartKind, name: &Sourced<String>, element: Option<&str>) -> bool {
        if self.names_of(kind).contains_key(&name.value) {
            return true;
        }
        if self.reported.insert(name.origin.clone()) {
            let known = self.gather(|resolver| resolver.names_of(kind).keys().cloned().collect());
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
    fn gather(&self, names: impl FnOnce(&Self) -> Vec<String>) -> Vec<String> {
        if self.budget.is_spent() || self.findings.is_full() { Vec::new() } else { names(self) }
    }

    fn names_of(&self, kind: PartKind) -> &BTreeMap<String, Origin> {
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

    /// Every part must belong to a family that exists.
    fn check_part_families(&mut self) {
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

    fn site(&mut self, file: &Record<'_>) -> Site {
        let head = file.within("site", |head| {
            self.refuse_empty_title(head);
            SiteHead::read(head, STATED)
        });
        if !head.family.value.is_empty() {
            self.check_part(PartKind::Family, &head.family, None);
        }
        let mut site = Site {
            title: head.title.clone(),
            family: head.family.clone(),
            country: head.country.clone(),
            catalogue: Arc::default(),
            conditions: file.within("conditions", |conditions| self.conditions(conditions)),
            policy: file.within("policy", |policy| Policy::read(policy, STATED)),
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
        };
        self.elements(file, &head, &mut site);
        self.report_wrong_kinds();
        self.refuse_calls_that_do_not_fit(&site);
        site.catalogue = Arc::clone(&self.loader.catalogue);
        site
    }

    fn refuse_empty_title(&mut self, head: &Record<'_>) {
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
    fn refuse_calls_that_do_not_fit(&mut self, site: &Site) {
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

    fn report_wrong_kinds(&mut self) {
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

    fn conditions(&mut self, record: &Record<'_>) -> Conditions {
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
enum PartKind {
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
    fn word(self) -> Thing {
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
