//! One site with its assessment, on which candidates are tried.

use crate::candidate::Candidate;
use crate::outcome::{Gap, Key, Outcome, gaps, key};
use crate::{first_look, shortcut};
use latchline_assess::{Assessment, Memory, assess_trial};
use latchline_finding::{Edit, FileId, Finding, Origin, Remedy, Sources};
use latchline_site::bill::Bill;
use latchline_site::model::Site;
use latchline_site::{LoadedCatalogues, edit};
use rayon::prelude::*;
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex};

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
    /// The site file as a table, to see which keys a person used.
    pub(crate) table: toml::Table,
    known: BTreeSet<Key>,
    /// Those of which there are several, so that one of them gone leaves another.
    repeated: BTreeSet<Key>,
    /// Acceptances by where their text begins.
    acceptances: BTreeMap<u32, usize>,
    /// What could not be judged, and so need not be after a change.
    gaps: BTreeSet<Gap>,
    bill: Bill,
    loaded: LoadedCatalogues,
    /// What is known of stages, of the site itself and of those tried.
    pub(crate) memory: Arc<Memory>,
    /// What is known of every change that was looked at, by the change as it prints itself.
    known_changes: Mutex<BTreeMap<String, Known>>,
}

/// What is known of a change.
#[derive(Clone, Default)]
struct Known {
    /// Extra material and labour; `None` where the change cannot be made.
    price: Option<Price>,
    /// Whether it brings a finding that was not there.
    spoils: bool,
    /// Findings that it leaves.
    leaves: BTreeSet<Key>,
    /// What came of it, if it was assessed to the end.
    outcome: Option<Arc<Outcome>>,
}

/// Extra material in the catalogue's currency, infinite where the bill does not know it, and extra labour in minutes.
type Price = (f64, f64);

/// A candidate that was applied and resolved, but not yet assessed.
struct Prepared {
    site: Site,
    price: Price,
}

/// A candidate that mends a finding.
pub(crate) struct Mending {
    /// Which of the candidates.
    pub index: usize,
    price: Price,
    outcome: Arc<Outcome>,
}

/// A candidate with its price, and prepared if that was needed to know it.
struct Priced {
    index: usize,
    price: Price,
    prepared: Option<Prepared>,
}

impl<'a> Bench<'a> {
    /// Puts a site on the bench.
    pub fn new(
        sources: &'a Sources,
        site_file: FileId,
        catalogues: &'a [FileId],
        site: &'a Site,
        assessment: &'a Assessment,
    ) -> Self {
        Bench::with_memory(sources, site_file, catalogues, site, assessment, Arc::default())
    }

    /// The same, with what was remembered when the site was assessed.
    pub fn with_memory(
        sources: &'a Sources,
        site_file: FileId,
        catalogues: &'a [FileId],
        site: &'a Site,
        assessment: &'a Assessment,
        memory: Arc<Memory>,
    ) -> Self {
        let text = &sources.file(site_file).text;
        let mut known = BTreeSet::new();
        let repeated = assessment.findings.iter().map(key).filter(|key| !known.insert(key.clone())).collect();
        let starts = site.acceptances.iter().enumerate().filter_map(|(index, entry)| match &entry.origin {
            Origin::Text(span) => Some((span.start, index)),
            Origin::None | Origin::Cell { .. } | Origin::Reading { .. } => None,
        });
        Bench {
            sources,
            site_file,
            site,
            assessment,
            table: text.parse().unwrap_or_default(),
            acceptances: starts.collect(),
            repeated,
            known,
            gaps: gaps(&assessment.not_judged),
            bill: Bill::of(site),
            loaded: LoadedCatalogues::new(sources, catalogues),
            memory,
            known_changes: Mutex::default(),
        }
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
    fn prepare(&self, change: &Edit) -> Option<Prepared> {
        let text = edit::apply(self.text(), change).ok()?;
        let sources = self.sources.with_text(self.site_file, text.as_str());
        let site = self.loaded.resolve(&sources, self.site_file).site?;
        Some(Prepared { price: self.price_of(&site), site })
    }

    fn price_of(&self, site: &Site) -> Price {
        let bill = Bill::of(site);
        ((bill.material() - self.bill.material()).as_units(), bill.minutes() - self.bill.minutes())
    }

    /// Assesses a change, wanting a finding gone: `None` if it stays, or another comes.
    ///
    /// A change that leaves the finding in the very state in which it was found is ruled out by that alone. A trial ends at the
    /// first rule that rules it out. A start-up that drops out again and again is not followed to its end,
    /// so a change may be ruled out that would do.
    fn judge(&self, change: &Edit, prepared: Option<Prepared>, finding: &Finding) -> Option<Arc<Outcome>> {
        let wanted = key(finding);
        let name = format!("{change:?}");
        let mut known = self.known(&name)?;
        known.price?;
        if known.spoils || known.leaves.contains(&wanted) {
            return None;
        }
        if known.outcome.is_none() {
            let shortcut = if prepared.is_none() { shortcut::changed(self.site, change) } else { None };
            let seen = shortcut.as_ref().or(prepared.as_ref().map(|prepared| &prepared.site));
            if seen.is_some_and(|site| first_look::stays(self, site, finding)) {
                known.leaves.insert(wanted.clone());
            } else {
                let prepared = prepared.or_else(|| self.prepare(change))?;
                self.try_out(&prepared.site, &wanted, &mut known);
            }
            if let Ok(mut changes) = self.known_changes.lock() {
                changes.insert(name, known.clone());
            }
        }
        let outcome = known.outcome?;
        let mends = !outcome.found.contains(&wanted)
            && outcome.found.is_subset(&self.known)
            && outcome.gaps.is_subset(&self.gaps);
        mends.then_some(outcome)
    }

    /// Assesses a changed site, as far as it takes to rule it out.
    fn try_out(&self, site: &Site, wanted: &Key, known: &mut Known) {
        let seen = RefCell::new((false, BTreeSet::new()));
        let allowed = |found: &Finding| {
            let key = key(found);
            let (spoils, leaves) = &mut *seen.borrow_mut();
            let is_known = self.known.contains(&key);
            let allowed = is_known && key != *wanted;
            *spoils |= !is_known;
            leaves.insert(key);
            allowed
        };
        let assessment = assess_trial(site, &self.memory, &allowed);
        let (spoils, leaves) = seen.into_inner();
        known.spoils = spoils;
        known.leaves.extend(leaves);
        known.outcome = assessment.as_ref().map(Outcome::of).map(Arc::new);
    }

    fn known(&self, name: &str) -> Option<Known> {
        self.known_changes.lock().ok()?.get(name).cloned()
    }

    /// How many of these changes were not looked at before.
    pub(crate) fn new_changes(&self, candidates: &[Candidate]) -> usize {
        let Ok(known) = self.known_changes.lock() else { return candidates.len() };
        candidates.iter().filter(|candidate| !known.contains_key(&format!("{:?}", candidate.edit))).count()
    }

    /// The price of a change, and the change prepared if that was needed to know it.
    fn priced(&self, change: &Edit) -> Option<(Price, Option<Prepared>)> {
        let name = format!("{change:?}");
        if let Some(known) = self.known(&name) {
            return known.price.map(|price| (price, None));
        }
        let shortcut = shortcut::changed(self.site, change);
        let prepared = if shortcut.is_none() { self.prepare(change) } else { None };
        let price = match (&shortcut, &prepared) {
            (Some(site), _) => Some(self.price_of(site)),
            (None, prepared) => prepared.as_ref().map(|prepared| prepared.price),
        };
        if let Ok(mut changes) = self.known_changes.lock() {
            changes.insert(name, Known { price, ..Known::default() });
        }
        price.map(|price| (price, prepared))
    }

    /// The cheapest candidate of each kind that mends a finding, cheapest first; then least
    /// labour, then in the order of the candidates.
    ///
    /// Costs are known before anything is solved, so of each kind only as many are assessed as it takes
    /// until one does.
    pub(crate) fn cheapest_of_each_kind(&self, candidates: &[Candidate], finding: &Finding) -> Vec<Mending> {
        let mut priced: Vec<Priced> = candidates
            .par_iter()
            .enumerate()
            .filter_map(|(index, candidate)| {
                let (mut price, prepared) = self.priced(&candidate.edit)?;
                if !candidate.is_priced {
                    price.0 = f64::INFINITY;
                }
                Some(Priced { index, price, prepared })
            })
            .collect();
        let order = |(a_index, a): (usize, Price), (b_index, b): (usize, Price)| {
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a_index.cmp(&b_index))
        };
        priced.sort_by(|a, b| order((a.index, a.price), (b.index, b.price)));
        let mut by_kind: BTreeMap<&str, Vec<Priced>> = BTreeMap::new();
        for one in priced {
            by_kind.entry(candidates[one.index].kind).or_default().push(one);
        }
        let mut found: Vec<Mending> = by_kind
            .into_values()
            .collect::<Vec<_>>()
            .into_par_iter()
            .filter_map(|kind| {
                kind.into_iter().find_map(|Priced { index, price, prepared }| {
                    let outcome = self.judge(&candidates[index].edit, prepared, finding)?;
                    Some(Mending { index, price, outcome })
                })
            })
            .collect();
        found.sort_by(|a, b| order((a.index, a.price), (b.index, b.price)));
        found
    }

    /// The remedy that a candidate stands for which mends a finding.
    pub(crate) fn remedy(&self, candidate: &Candidate, mending: &Mending, finding: &Finding) -> Remedy {
        let (cost, _) = mending.price;
        Remedy {
            kind: candidate.kind,
            edit: candidate.edit.clone(),
            value_after: mending.outcome.value_after(finding),
            cost: cost.is_finite().then(|| (cost * 100.0).round() / 100.0),
        }
    }
}
