//! One site with its assessment, on which candidates are tried.

use crate::candidate::Candidate;
use crate::first_look::{self, Seen};
use crate::mains_lost::MainsLostAt;
use crate::outcome::{Gap, Key, Outcome, gaps, key};
use crate::shortcut;
use latchline_assess::{Assessment, Memory, NotJudged, assess_trial};
use latchline_finding::{
    Brought, Edit, FileId, Finding, MainsLost, Money, Origin, Remedy, Severity, Sources,
};
use latchline_site::bill::Bill;
use latchline_site::edit::Editable;
use latchline_site::model::Site;
use latchline_site::{LoadedCatalogues, ParsedSite};
use rayon::prelude::*;
use std::cell::RefCell;
use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex, OnceLock};

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
    bill: Bill,
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

/// Most candidates of a kind tried beyond the cheapest that mends, for one that brings no warning.
const MOST_CLEANER: usize = 3;

/// What is known of a change.
#[derive(Default)]
struct Known {
    /// Extra material and labour; `None` where the change cannot be made.
    price: Option<Price>,
    /// Whether it brings a finding that it may not bring.
    spoils: bool,
    /// Findings that it leaves.
    leaves: BTreeSet<Key>,
    /// Those of them that it was seen to leave in a lesser form.
    lessens: BTreeSet<Key>,
    /// What came of it, if it was assessed to the end.
    outcome: Option<Arc<Outcome>>,
    /// Whether that was on the site read from the changed text.
    is_by_text: bool,
}

/// What a look at a change shows.
#[derive(Default)]
struct Shown {
    spoils: bool,
    leaves: BTreeSet<Key>,
    lessens: BTreeSet<Key>,
    outcome: Option<Arc<Outcome>>,
}

/// What a change is wanted to do to a finding.
#[derive(Clone, Copy)]
struct Wanted<'f> {
    finding: &'f Finding,
    /// Whether a lesser form of it may stay.
    may_lessen: bool,
}

impl Wanted<'_> {
    fn key(&self) -> Key {
        key(self.finding)
    }
}

/// What a change costs beyond what is there.
#[derive(Debug, Clone, Copy)]
struct Price {
    /// Extra material; `None` where something of it has no price.
    material: Option<Money>,
    /// Extra labour in minutes.
    minutes: f64,
}

impl Price {
    /// Cheapest first, those without price last, then least labour.
    fn order(&self, other: &Price) -> Ordering {
        self.by_material(other).then(self.minutes.total_cmp(&other.minutes))
    }

    /// Cheapest first, those without price last.
    fn by_material(&self, other: &Price) -> Ordering {
        let dearer = self.material.is_none().cmp(&other.material.is_none());
        dearer.then(self.material.cmp(&other.material))
    }
}

/// A site after a change, not yet assessed.
struct Sketch {
    site: Site,
    /// Whether it was read from the changed text.
    is_by_text: bool,
    /// Whether it takes no time to make it again.
    is_quick: bool,
}

/// A candidate that mends a finding.
pub(crate) struct Mending {
    /// Which of the candidates.
    pub index: usize,
    price: Price,
    outcome: Arc<Outcome>,
}

/// A candidate with its price, and with its site if that takes time to make again.
struct Priced {
    index: usize,
    price: Price,
    sketch: Option<Sketch>,
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
            table: text.parse().unwrap_or_default(),
            acceptances: starts.collect(),
            repeated,
            known,
            severity,
            errors,
            gaps: gaps(&assessment.not_judged),
            bill: Bill::of(site),
            editable: Editable::new(text).ok(),
            parsed: ParsedSite::new(site_file, sources.file(site_file)),
            loaded,
            memory,
            known_changes: Mutex::default(),
            mains_lost: OnceLock::new(),
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
    fn by_text(&self, change: &Edit) -> Option<Site> {
        let text = self.editable.as_ref()?.apply(change).ok()?;
        let sources = self.sources.with_text(self.site_file, text.as_str());
        self.loaded.site_of(&ParsedSite::new(self.site_file, sources.file(self.site_file)))
    }

    /// The site as it is after a change, but for the places of what was changed; `None` if it cannot be made.
    fn sketch(&self, change: &Edit) -> Option<Sketch> {
        if let Some(site) = shortcut::changed(self.site, change) {
            return Some(Sketch { site, is_by_text: false, is_quick: true });
        }
        let (site, is_by_text) = match self.parsed.changed(change) {
            Some(parsed) => (self.loaded.site_of(&parsed), false),
            None => (self.by_text(change), true),
        };
        Some(Sketch { site: site?, is_by_text, is_quick: false })
    }

    fn price_of(&self, site: &Site) -> Price {
        let bill = Bill::of(site);
        Price { material: bill.material_beyond(&self.bill), minutes: bill.minutes() - self.bill.minutes() }
    }

    /// Assesses a change, wanting a finding gone: `None` if it stays, or another comes that may not. One that is no error may, where an
    /// error goes.
    ///
    /// A change that leaves the finding in the very state in which it was found is ruled out by that alone. A trial ends at the
    /// first rule that rules it out. A start-up that drops out again and again is not followed to its end,
    /// so a change may be ruled out that would do.
    fn judge(&self, change: &Edit, sketch: Option<Sketch>, wanted: Wanted<'_>) -> Option<Arc<Outcome>> {
        let key = wanted.key();
        let known = {
            let changes = self.known_changes.lock().ok()?;
            let known = changes.get(change)?;
            known.price?;
            // A lesser form is looked for only where one was seen.
            let is_left = known.leaves.contains(&key);
            if known.spoils
                || is_left != wanted.may_lessen
                || wanted.may_lessen && !known.lessens.contains(&key)
            {
                return None;
            }
            known.outcome.clone()
        };
        let outcome = match known {
            Some(outcome) => outcome,
            None => self.tried(change, sketch, wanted)?,
        };
        self.mends(&outcome, wanted).then_some(outcome)
    }

    fn mends(&self, outcome: &Outcome, wanted: Wanted<'_>) -> bool {
        let stays = outcome.severity.get(&wanted.key());
        let is_mended = stays.is_none_or(|left| wanted.may_lessen && *left < wanted.finding.severity);
        let error_goes =
            || self.errors.iter().any(|error| outcome.severity.get(error) != Some(&Severity::Error));
        is_mended
            && (outcome.found.is_subset(&self.known) || error_goes())
            && outcome.gaps.is_subset(&self.gaps)
    }

    /// What comes of a change that mends a finding when it goes the whole way through the text, where all that was worked out for it is
    /// found again. `None` if it does not mend it after all.
    fn through_text(&self, change: &Edit, wanted: Wanted<'_>) -> Option<Arc<Outcome>> {
        {
            let changes = self.known_changes.lock().ok()?;
            let known = changes.get(change)?;
            if known.is_by_text {
                return known.outcome.clone().filter(|outcome| self.mends(outcome, wanted));
            }
        }
        let mut shown = Shown::default();
        self.try_out(&self.by_text(change)?, wanted, &mut shown);
        let outcome = self.keep(change, shown, true);
        outcome.filter(|outcome| self.mends(outcome, wanted))
    }

    /// Looks at a change, first at what was found and then as far as it takes to rule it out, and keeps what that shows.
    fn tried(&self, change: &Edit, sketch: Option<Sketch>, wanted: Wanted<'_>) -> Option<Arc<Outcome>> {
        let sketch = sketch.or_else(|| self.sketch(change))?;
        let left = first_look::left_by(&self.seen(), &sketch.site, wanted.finding);
        let mut shown =
            Shown { spoils: left.iter().any(|key| !self.known.contains(key)), ..Shown::default() };
        let is_ruled_out = shown.spoils || left.contains(&wanted.key());
        shown.leaves.extend(left);
        if !is_ruled_out {
            self.try_out(&sketch.site, wanted, &mut shown);
        }
        self.keep(change, shown, sketch.is_by_text)
    }

    /// Keeps what a look at a change showed.
    fn keep(&self, change: &Edit, shown: Shown, is_by_text: bool) -> Option<Arc<Outcome>> {
        let Shown { spoils, leaves, lessens, outcome } = shown;
        if let Ok(mut changes) = self.known_changes.lock()
            && let Some(known) = changes.get_mut(change)
        {
            known.spoils |= spoils;
            known.leaves.extend(leaves);
            known.lessens.extend(lessens);
            known.outcome.clone_from(&outcome);
            known.is_by_text = is_by_text && outcome.is_some();
        }
        outcome
    }

    /// Assesses a changed site, as far as it takes to rule it out. What was there before may stay, but not come worse as an error.
    fn try_out(&self, site: &Site, wanted: Wanted<'_>, shown: &mut Shown) {
        let wanted_key = wanted.key();
        let seen = RefCell::new(std::mem::take(shown));
        let allowed = |found: &Finding| {
            let key = key(found);
            let shown = &mut *seen.borrow_mut();
            let may_come = found.severity < Severity::Error && !self.errors.is_empty();
            let may_stand = may_come || self.severity.get(&key).is_some_and(|known| found.severity <= *known);
            let is_lesser = key == wanted_key && found.severity < wanted.finding.severity;
            let allowed = may_stand && (key != wanted_key || is_lesser && wanted.may_lessen);
            shown.spoils |= !may_stand;
            if self.severity.get(&key).is_some_and(|known| found.severity < *known) {
                shown.lessens.insert(key.clone());
            }
            shown.leaves.insert(key);
            allowed
        };
        let may_lack = |entry: &NotJudged| {
            let may_lack = gaps(std::slice::from_ref(entry)).is_subset(&self.gaps);
            seen.borrow_mut().spoils |= !may_lack;
            may_lack
        };
        let assessment = assess_trial(site, &self.memory, &allowed, &may_lack);
        *shown = seen.into_inner();
        shown.outcome = assessment.as_ref().map(Outcome::of).map(Arc::new);
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
        price.map(|price| (price, sketch.filter(|sketch| !sketch.is_quick)))
    }

    /// The cheapest candidate of each kind that mends a finding: those that bring no warning first, of these the cheapest; of those that
    /// cost the same the ones that bring no finding, then least labour, then in the order of the candidates. At most so many.
    ///
    /// Costs are known before anything is solved, so all are tried in that order, those of one kind until one of them mends without a
    /// warning or `MOST_CLEANER` more were tried, and none behind the last that is wanted. Where none mends it, those that leave a lesser
    /// form of it do, an advice for a warning.
    pub(crate) fn cheapest_of_each_kind(
        &self,
        candidates: &[Candidate],
        finding: &Finding,
        most: usize,
    ) -> Vec<Mending> {
        let kept = self.cheapest(candidates, Wanted { finding, may_lessen: false }, most);
        if !kept.is_empty() {
            return kept;
        }
        let key = key(finding);
        let lessens = |candidate: &Candidate| {
            self.known_changes.lock().is_ok_and(|changes| {
                changes.get(&candidate.edit).is_some_and(|known| known.lessens.contains(&key))
            })
        };
        if candidates.iter().any(lessens) {
            self.cheapest(candidates, Wanted { finding, may_lessen: true }, most)
        } else {
            kept
        }
    }

    fn cheapest(&self, candidates: &[Candidate], wanted: Wanted<'_>, most: usize) -> Vec<Mending> {
        let mut priced: Vec<Priced> = candidates
            .par_iter()
            .enumerate()
            .filter_map(|(index, candidate)| {
                let (mut price, sketch) = self.priced(&candidate.edit)?;
                if !candidate.is_priced {
                    price.material = None;
                }
                Some(Priced { index, price, sketch })
            })
            .collect();
        priced.sort_by(|a, b| a.price.order(&b.price).then(a.index.cmp(&b.index)));
        let mut found: BTreeMap<&str, (Mending, usize)> = BTreeMap::new();
        for Priced { index, price, sketch } in priced {
            if found.values().filter(|(known, _)| !self.warns(known)).count() == most {
                break;
            }
            let kind = candidates[index].kind;
            let known = found.get_mut(kind);
            // Another of the kind is better only if it brings less: none at all at the same cost, no warning at some more.
            let brought = match known {
                None => None,
                Some((known, more)) => {
                    let brought = self.worst_brought(&known.outcome);
                    let is_dearer = known.price.material != price.material;
                    *more += 1;
                    let is_hopeless =
                        is_dearer && (brought < Some(Severity::Warning) || *more > MOST_CLEANER);
                    if brought.is_none() || is_hopeless {
                        continue;
                    }
                    Some(brought)
                }
            };
            let change = &candidates[index].edit;
            if let Some(outcome) = self.judge(change, sketch, wanted)
                && brought.is_none_or(|brought| self.worst_brought(&outcome) < brought)
                && let Some(outcome) = self.through_text(change, wanted)
            {
                found.insert(kind, (Mending { index, price, outcome }, 0));
            }
        }
        let mut kept: Vec<Mending> = found.into_values().map(|(mending, _)| mending).collect();
        kept.sort_by(|a, b| {
            let brings = |one: &Mending| self.worst_brought(&one.outcome).is_some();
            let by_warnings = self.warns(a).cmp(&self.warns(b));
            by_warnings
                .then(a.price.by_material(&b.price))
                .then(brings(a).cmp(&brings(b)))
                .then(a.price.order(&b.price))
                .then(a.index.cmp(&b.index))
        });
        kept.truncate(most);
        kept
    }

    /// Whether a change brings a warning that was not there.
    fn warns(&self, mending: &Mending) -> bool {
        self.worst_brought(&mending.outcome) >= Some(Severity::Warning)
    }

    /// How much the worst finding matters that a change brings and that was not there; `None` if it brings none.
    fn worst_brought(&self, outcome: &Outcome) -> Option<Severity> {
        outcome.worst_brought(&self.known)
    }

    /// What a change makes of the site while the mains are lost.
    fn mains_lost_by(&self, change: &Edit) -> Vec<MainsLost> {
        let now = self.mains_lost.get_or_init(|| MainsLostAt::of(self.site));
        self.sketch(change).map_or(Vec::new(), |sketch| now.changed_on(&sketch.site))
    }

    /// The remedy that a candidate stands for which mends a finding. Where a lesser form of the finding stays, that is told as what comes in
    /// its place.
    pub(crate) fn remedy(&self, candidate: &Candidate, mending: &Mending, finding: &Finding) -> Remedy {
        let Outcome { found, severity, .. } = &*mending.outcome;
        let key = key(finding);
        let mut clears: Vec<Key> = self.known.difference(found).cloned().collect();
        let mut brings = mending.outcome.brought(&self.known);
        if let Some(left) = severity.get(&key) {
            let (code, element) = key.clone();
            brings.insert(0, Brought { code, severity: *left, element });
            clears.push(key);
            clears.sort();
        }
        Remedy {
            kind: candidate.kind,
            edit: candidate.edit.clone(),
            value_after: mending.outcome.value_after(finding),
            cost: mending.price.material,
            minutes: Some(mending.price.minutes).filter(|minutes| minutes.is_finite()),
            clears,
            brings,
            mains_lost: self.mains_lost_by(&candidate.edit),
            measure: None,
        }
    }
}
