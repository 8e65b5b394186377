//! One site with its assessment, on which candidates are tried.

mod cheapest;
mod known;
mod offer;
mod price;
mod trial;

pub(crate) use self::cheapest::Most;
use self::known::{Known, Made, Sketch};
use self::price::Price;
use crate::first_look::Seen;
use crate::mains_lost::MainsLostAt;
use crate::outcome::{Gap, Key, gaps, key};
use crate::shortcut;
use latchline_assess::{Assessment, Memory, assess_trial};
use latchline_finding::{Edit, EditStep, FileId, Finding, Origin, Severity, Sources};
use latchline_network::Layout;
use latchline_site::bill::Bill;
use latchline_site::changes::{Effort, EffortFrom};
use latchline_site::edit::Editable;
use latchline_site::model::Site;
use latchline_site::{LoadedCatalogues, ParsedSite};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex, OnceLock};
use toml::de::DeValue;

/// A site, its texts and its assessment.
pub struct Bench<'a> {
    /// The texts.
    pub sources: &'a Sources,
    /// The site file among them.
    pub site_file: FileId,
    /// The site.
    pub site: &'a Site,
    /// Its assessment.
    pub assessment: &'a Assessment,
    known: BTreeSet<Key>,
    /// How much each of them matters, the worst of the same key.
    severity: BTreeMap<Key, Severity>,
    /// Errors among them that nobody has accepted.
    errors: BTreeSet<Key>,
    /// Those of which there are several, so that one of them gone leaves another.
    repeated: BTreeSet<Key>,
    /// Acceptances by where their text begins.
    acceptances: BTreeMap<u32, usize>,
    /// What could not be judged, and so need not be after a change.
    gaps: BTreeSet<Gap>,
    /// What is the same of the work and material of every change.
    effort_from: EffortFrom<'a>,
    layout: OnceLock<Layout>,
    /// The site file read for edits; `None` where that cannot be done.
    editable: Option<Editable<'a>>,
    /// The site file as it was read.
    parsed: ParsedSite<'a>,
    loaded: Arc<LoadedCatalogues>,
    /// What is known of stages, of the site itself and of those tried.
    pub(crate) memory: Arc<Memory>,
    /// What is known of every change that was looked at.
    known_changes: Mutex<BTreeMap<Edit, Known>>,
    /// What becomes of the site while the mains are lost, once a remedy was found.
    mains_lost: OnceLock<MainsLostAt>,
}

/// The site of a bench with a change made.
pub(crate) struct After {
    sources: Sources,
    site: Site,
    pub assessment: Assessment,
}

impl After {
    /// A bench of its own for it.
    pub fn bench<'s>(&'s self, first: &Bench<'_>) -> Bench<'s> {
        let (loaded, memory) = (Arc::clone(&first.loaded), Arc::clone(&first.memory));
        Bench::with_memory(&self.sources, first.site_file, loaded, &self.site, &self.assessment, memory)
    }
}

impl<'a> Bench<'a> {
    /// Puts a site on the bench.
    pub fn new(
        sources: &'a Sources,
        site_file: FileId,
        catalogues: &[FileId],
        site: &'a Site,
        assessment: &'a Assessment,
    ) -> Self {
        let loaded = Arc::new(LoadedCatalogues::new(sources, catalogues));
        Bench::with_memory(sources, site_file, loaded, site, assessment, Arc::default())
    }

    /// The same, with its catalogues as they were read for it and with what was remembered when it was assessed.
    pub fn with_memory(
        sources: &'a Sources,
        site_file: FileId,
        loaded: Arc<LoadedCatalogues>,
        site: &'a Site,
        assessment: &'a Assessment,
        memory: Arc<Memory>,
    ) -> Self {
        let text = &sources.file(site_file).text;
        let mut known = BTreeSet::new();
        let repeated = assessment.findings.iter().map(key).filter(|key| !known.insert(key.clone())).collect();
        let mut severity = BTreeMap::new();
        for finding in &assessment.findings {
            let worst = severity.entry(key(finding)).or_insert(finding.severity);
            *worst = finding.severity.max(*worst);
        }
        let is_error = |one: &&Finding| one.severity == Severity::Error && one.accepted.is_none();
        let errors = assessment.findings.iter().filter(is_error).map(key).collect();
        let starts = site.acceptances.iter().enumerate().filter_map(|(index, entry)| match &entry.origin {
            Origin::Text(span) => Some((span.start, index)),
            Origin::None | Origin::Cell { .. } | Origin::Reading { .. } => None,
        });
        Bench {
            sources,
            site_file,
            site,
            assessment,
            acceptances: starts.collect(),
            repeated,
            known,
            severity,
            errors,
            gaps: gaps(&assessment.not_judged),
            effort_from: EffortFrom::new(site, Bill::of(site)),
            layout: OnceLock::new(),
            editable: Editable::new(text).ok(),
            parsed: ParsedSite::new(site_file, sources.file(site_file)),
            loaded,
            memory,
            known_changes: Mutex::default(),
            mains_lost: OnceLock::new(),
        }
    }

    /// The site with a change, but for the places of what was changed; `None` if it cannot be made.
    pub fn changed(&self, change: &Edit) -> Option<Site> {
        Some(self.sketch(change)?.site)
    }

    /// The site with a change made, judged as a whole; `None` if it cannot be made.
    pub(crate) fn with(&self, change: &Edit) -> Option<After> {
        let text = self.editable.as_ref()?.apply(change).ok()?;
        let sources = self.sources.with_text(self.site_file, text.as_str());
        let site = self.loaded.site_of(&ParsedSite::new(self.site_file, sources.file(self.site_file)))?;
        let assessment = assess_trial(&site, &self.memory, None, &|_| true, &|_| true)?;
        Some(After { sources, site, assessment })
    }

    /// The site as trees, laid out once.
    pub(crate) fn layout(&self) -> &Layout {
        self.layout.get_or_init(|| Layout::new(self.site))
    }

    /// What a person wrote at a path of the site file; `None` where nothing stands.
    pub(crate) fn written(&self, path: &[&str]) -> Option<&DeValue<'a>> {
        self.parsed.written(path)
    }

    /// The same as TOML text.
    pub(crate) fn written_text(&self, path: &[&str]) -> Option<String> {
        let path: Vec<EditStep> = path.iter().map(|key| EditStep::from(*key)).collect();
        self.editable.as_ref()?.value_at(&path)
    }

    /// What is found as the site is.
    pub(crate) fn found(&self) -> &BTreeSet<Key> {
        &self.known
    }

    /// The text of the site file.
    pub fn text(&self) -> &str {
        &self.sources.file(self.site_file).text
    }

    /// Whether no other finding has the code and element of this one.
    pub(crate) fn is_alone(&self, finding: &Finding) -> bool {
        !self.repeated.contains(&key(finding))
    }

    /// Number of the acceptance at a place of the site file.
    pub(crate) fn acceptance_at(&self, origin: &Origin) -> Option<usize> {
        let Origin::Text(span) = origin else { return None };
        let index = *self.acceptances.get(&span.start)?;
        (self.site.acceptances[index].origin == *origin).then_some(index)
    }

    /// Applies a change to a copy of the text and resolves it; `None` if that cannot be done.
    fn by_text(&self, change: &Edit) -> Option<Site> {
        let text = self.editable.as_ref()?.apply(change).ok()?;
        let sources = self.sources.with_text(self.site_file, text.as_str());
        self.loaded.site_of(&ParsedSite::new(self.site_file, sources.file(self.site_file)))
    }

    /// The site as it is after a change, but for the places of what was changed; `None` if it cannot be made.
    fn sketch(&self, change: &Edit) -> Option<Sketch> {
        if let Some(site) = shortcut::changed(self.site, change) {
            return Some(Sketch { site, made: Made::InPlace });
        }
        let (site, made) = match self.parsed.changed(change) {
            Some(parsed) => (self.loaded.site_of(&parsed), Made::OnTree),
            None => (self.by_text(change), Made::Written),
        };
        Some(Sketch { site: site?, made })
    }

    /// Whether the text with a change made says what was judged where it was made otherwise; then what came of it holds of the text.
    fn is_said_by_text(&self, change: &Edit, made: Made) -> Option<bool> {
        let text = self.editable.as_ref()?.apply(change).ok()?;
        let sources = self.sources.with_text(self.site_file, text.as_str());
        let written = ParsedSite::new(self.site_file, sources.file(self.site_file));
        let is_same_tree = self.parsed.changed(change)?.says_the_same(&written);
        let is_same_site = || {
            let judged = shortcut::changed(self.site, change)?;
            Some(shortcut::says_the_same(&judged, &self.loaded.site_of(&written)?))
        };
        Some(match made {
            Made::Written => true,
            Made::OnTree => is_same_tree,
            Made::InPlace => is_same_tree && is_same_site()?,
        })
    }

    fn price_of(&self, site: &Site) -> Price {
        let Effort { material, priced, buys, minutes } = self.effort_from.to(site);
        Price { material, priced, buys, minutes }
    }

    /// What a first look goes by.
    pub(crate) fn seen(&self) -> Seen<'_> {
        Seen { assessment: self.assessment, found: &self.known, memory: &self.memory }
    }

    /// Whether a change was looked at before.
    pub(crate) fn is_known(&self, change: &Edit) -> bool {
        self.known_changes.lock().is_ok_and(|known| known.contains_key(change))
    }

    /// The price of a change, and the site with it if that takes time to make again.
    fn priced(&self, change: &Edit) -> Option<(Price, Option<Sketch>)> {
        let known = self.known_changes.lock().ok()?.get(change).map(|known| known.price);
        if let Some(price) = known {
            return price.map(|price| (price, None));
        }
        let sketch = self.sketch(change);
        let price = sketch.as_ref().map(|sketch| self.price_of(&sketch.site));
        if let Ok(mut changes) = self.known_changes.lock() {
            changes.insert(change.clone(), Known { price, ..Known::default() });
        }
        price.map(|price| (price, sketch.filter(|sketch| sketch.made != Made::InPlace)))
    }
}
