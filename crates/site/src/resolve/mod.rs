//! From the texts of a site file and its catalogues to a [`Site`].
//!
//! Nothing stops at the first mistake: every reference is looked up, every structural fault of
//! the wiring is found, and the site is handed out only when no error stands in the way.

mod door;
mod elements;
mod left_out;
pub(crate) mod look_alike;
mod names;
mod places;
mod resolver;
mod revisions;
mod runs;
mod scope;
mod structure;

use crate::catalogue::load::Loader;
use crate::catalogue::{CATALOGUE_FILE, Catalogue, OwnPrices};
use crate::codes;
use crate::edit::{Places, tree};
use crate::model::{SITE_FILE, Site, SiteHead};
use crate::parse::{Document, Findings, NameBudget, Reader, Rows, clip, parse, parse_with};
use latchline_finding::{Both, Edit, FileId, Finding, Severity, SourceFile, Sourced, Sources};
use resolver::{Resolver, STATED};
use std::collections::BTreeMap;
use std::sync::Arc;
use toml::de::{DeTable, DeValue};

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
        let mut resolver = Resolver::new(loader, &mut findings, &mut budget);
        resolver.check_part_families();
        resolver.check_part_names();
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
            let mut resolver = Resolver::new(loader, &mut findings, &mut budget);
            resolver.check_part_families();
            resolver.check_part_names();
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

    /// Reads the TOML but for the rows that were read before. What comes out is the same; rows that are new are kept for the next text.
    pub fn with_rows(file: FileId, source: &'t SourceFile, rows: &'t mut Rows) -> Self {
        let mut findings = Findings::new();
        let document = parse_with(file, source, Some(rows), &mut findings);
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

    /// What stands at a path, as it was read; `None` where nothing does.
    pub fn written(&self, path: &[&str]) -> Option<&DeValue<'t>> {
        let (first, rest) = path.split_first()?;
        let mut value = self.document.as_ref()?.root.get(*first)?.get_ref();
        for key in rest {
            value = value.get(*key)?.get_ref();
        }
        Some(value)
    }

    /// Whether two files say the same: the same keys with the same values in the same order, wherever they stand. A site is resolved from
    /// these alone, so what is resolved from the one is what is resolved from the other, but for the places. Never of what is broken.
    pub fn says_the_same(&self, other: &ParsedSite<'_>) -> bool {
        let sound = |one: &ParsedSite<'_>| one.findings.count() == 0;
        let roots = self.document.as_ref().zip(other.document.as_ref());
        sound(self) && sound(other) && roots.is_some_and(|(one, other)| tree::is_same(&one.root, &other.root))
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
