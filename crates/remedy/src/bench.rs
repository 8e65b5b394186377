//! One site with its assessment, on which candidates are tried.

use crate::candidate::Candidate;
use latchline_assess::rules::codes;
use latchline_assess::{Assessment, Memory, assess_trial, assess_with};
use latchline_finding::{Argument, Code, Edit, ElementId, Figure, FileId, Finding, Remedy, Sources};
use latchline_site::bill::Bill;
use latchline_site::model::Site;
use latchline_site::{LoadedCatalogues, edit};
use rayon::prelude::*;
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex};

/// What names a finding across two assessments.
type Key = (Code, Option<ElementId>);

fn key(finding: &Finding) -> Key {
    (finding.code, finding.element.clone())
}

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
    bill: Bill,
    loaded: LoadedCatalogues,
    /// What is known of stages, of the site itself and of those tried.
    memory: Arc<Memory>,
    /// What is known of every change that was looked at, by the change as it prints itself.
    known_changes: Mutex<BTreeMap<String, Known>>,
}

/// What is known of a change.
#[derive(Clone, Default)]
struct Known {
    /// Extra material and labour; `None` where the change cannot be made.
    price: Option<(f64, f64)>,
    /// Whether it brings a finding that was not there.
    spoils: bool,
    /// Findings that it leaves.
    leaves: BTreeSet<Key>,
    /// Its assessment, if one was made to the end.
    assessment: Option<Arc<Assessment>>,
}

/// A candidate that was applied and resolved, but not yet assessed.
pub struct Prepared {
    /// The site file after the change.
    pub text: String,
    /// The site after the change.
    pub site: Site,
    /// Extra material in the catalogue's currency; infinite where the bill does not know it.
    pub cost: f64,
    /// Extra labour in minutes.
    pub minutes: f64,
}

/// A candidate that was applied, resolved and assessed.
pub struct Trial {
    /// The site after the change.
    pub prepared: Prepared,
    /// Its assessment; shared, since several findings often have one remedy.
    pub assessment: Arc<Assessment>,
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
        Bench {
            sources,
            site_file,
            site,
            assessment,
            table: text.parse().unwrap_or_default(),
            known: assessment.findings.iter().map(key).collect(),
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

    /// Applies a change to a copy of the text and resolves it; `None` if that cannot be done.
    pub fn prepare(&self, change: &Edit) -> Option<Prepared> {
        let text = edit::apply(self.text(), change).ok()?;
        let sources = self.sources.with_text(self.site_file, text.as_str());
        let site = self.loaded.resolve(&sources, self.site_file).site?;
        let bill = Bill::of(&site);
        let cost = bill.material() - self.bill.material();
        let minutes = bill.minutes() - self.bill.minutes();
        Some(Prepared { text, site, cost, minutes })
    }

    /// Assesses a change, wanting a finding gone: `None` if it stays, or another comes.
    ///
    /// A trial ends at the first rule that rules it out. A start-up that drops out again and again is not followed to its end,
    /// so a change may be ruled out that would do.
    fn judge(&self, change: &Edit, prepared: Option<Prepared>, finding: &Finding) -> Option<Trial> {
        let wanted = key(finding);
        let name = format!("{change:?}");
        let mut known = self.known(&name)?;
        known.price?;
        if known.spoils || known.leaves.contains(&wanted) {
            return None;
        }
        let prepared = prepared.or_else(|| self.prepare(change))?;
        if known.assessment.is_none() {
            let seen = RefCell::new((false, BTreeSet::new()));
            let allowed = |found: &Finding| {
                let key = key(found);
                let (spoils, leaves) = &mut *seen.borrow_mut();
                let allowed = self.known.contains(&key) && key != wanted;
                *spoils |= !self.known.contains(&key);
                leaves.insert(key);
                allowed
            };
            let assessment = assess_trial(&prepared.site, &self.memory, &allowed);
            let (spoils, leaves) = seen.into_inner();
            known.spoils = spoils;
            known.leaves.extend(leaves);
            known.assessment = assessment.map(Arc::new);
            if let Ok(mut changes) = self.known_changes.lock() {
                changes.insert(name, known.clone());
            }
        }
        let trial = Trial { prepared, assessment: known.assessment? };
        self.mends(&trial, finding).then_some(trial)
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
    fn priced(&self, change: &Edit) -> Option<((f64, f64), Option<Prepared>)> {
        let name = format!("{change:?}");
        if let Some(known) = self.known(&name) {
            return known.price.map(|price| (price, None));
        }
        let prepared = self.prepare(change);
        let price = prepared.as_ref().map(|prepared| (prepared.cost, prepared.minutes));
        if let Ok(mut changes) = self.known_changes.lock() {
            changes.insert(name, Known { price, ..Known::default() });
        }
        price.map(|price| (price, prepared))
    }

    /// Applies a change to a copy and assesses it as a whole; `None` if the result cannot be resolved.
    pub fn try_edit(&self, change: &Edit) -> Option<Trial> {
        let prepared = self.prepare(change)?;
        let assessment = Arc::new(assess_with(&prepared.site, &self.memory));
        Some(Trial { prepared, assessment })
    }

    /// The cheapest candidate of each kind that mends a finding, with its index, cheapest first; then least
    /// labour, then in the order of the candidates.
    ///
    /// Costs are known before anything is solved, so of each kind only as many are assessed as it takes
    /// until one does.
    pub fn cheapest_of_each_kind(&self, candidates: &[Candidate], finding: &Finding) -> Vec<(usize, Trial)> {
        type Priced = (usize, (f64, f64), Option<Prepared>);
        let mut priced: Vec<Priced> = candidates
            .par_iter()
            .enumerate()
            .filter_map(|(index, candidate)| {
                let (mut price, prepared) = self.priced(&candidate.edit)?;
                if !candidate.is_priced {
                    price.0 = f64::INFINITY;
                }
                Some((index, price, prepared))
            })
            .collect();
        let order = |(a_index, a): (usize, (f64, f64)), (b_index, b): (usize, (f64, f64))| {
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a_index.cmp(&b_index))
        };
        priced.sort_by(|a, b| order((a.0, a.1), (b.0, b.1)));
        let mut by_kind: BTreeMap<&str, Vec<Priced>> = BTreeMap::new();
        for one in priced {
            by_kind.entry(candidates[one.0].kind).or_default().push(one);
        }
        let mut found: Vec<(usize, Trial)> = by_kind
            .into_values()
            .collect::<Vec<_>>()
            .into_par_iter()
            .filter_map(|kind| {
                kind.into_iter().find_map(|(index, _, prepared)| {
                    let mut trial = self.judge(&candidates[index].edit, prepared, finding)?;
                    if !candidates[index].is_priced {
                        trial.prepared.cost = f64::INFINITY;
                    }
                    Some((index, trial))
                })
            })
            .collect();
        let price = |trial: &Trial| (trial.prepared.cost, trial.prepared.minutes);
        found.sort_by(|a, b| order((a.0, price(&a.1)), (b.0, price(&b.1))));
        found
    }

    /// Whether a finding is gone and none has come.
    pub fn mends(&self, trial: &Trial, finding: &Finding) -> bool {
        let wanted = key(finding);
        self.adds_nothing(trial) && !trial.assessment.findings.iter().any(|one| key(one) == wanted)
    }

    /// Whether no finding has come that was not there, and nothing that was judged no longer is.
    pub fn adds_nothing(&self, trial: &Trial) -> bool {
        trial.assessment.findings.iter().all(|finding| self.known.contains(&key(finding)))
            && trial.assessment.not_judged.len() <= self.assessment.not_judged.len()
    }

    /// The remedy that a successful trial stands for.
    pub fn remedy(&self, candidate: &Candidate, trial: &Trial, finding: &Finding) -> Remedy {
        Remedy {
            kind: candidate.kind,
            edit: candidate.edit.clone(),
            value_after: self.value_after(trial, finding),
            cost: (trial.prepared.cost.is_finite()).then(|| (trial.prepared.cost * 100.0).round() / 100.0),
        }
    }

    /// The figure that the finding was about, after the change: for devices their worst voltage, for
    /// supplies and ports their largest current.
    fn value_after(&self, trial: &Trial, finding: &Finding) -> Option<Figure> {
        let element = finding.element.as_ref()?;
        let unit = finding.value?.unit;
        let assessment = &trial.assessment;
        match finding.code {
            codes::VOLTAGE_TOO_LOW | codes::THIN_MARGIN => {
                let device = assessment.devices.iter().find(|device| device.id == *element)?;
                let value = match finding.code {
                    codes::THIN_MARGIN => device.worst.margin_v(),
                    _ => device.worst.adverse_v?,
                };
                Some(Figure::new(value, unit))
            }
            codes::VOLTAGE_TOO_HIGH => {
                let device = assessment.devices.iter().find(|device| device.id == *element)?;
                Some(Figure::new(device.highest_v, unit))
            }
            codes::SUPPLY_OVERLOADED => {
                let source = assessment.sources.iter().find(|source| source.id == *element)?;
                match unit {
                    latchline_finding::Unit::Watt => Some(Figure::new(source.power_w?, unit)),
                    _ => Some(Figure::new(source.current.current_a?, unit)),
                }
            }
            codes::PORT_OVERLOADED => {
                let run = assessment.runs.iter().find(|run| run.from == *element)?;
                Some(Figure::new(run.current.current_a?, unit))
            }
            codes::LOCK_VOLTAGE_TOO_LOW => {
                let door = assessment.doors.iter().find(|door| door.entrance == *element)?;
                let number = match finding.argument("number") {
                    Some(Argument::Figure(number)) => number.value as usize,
                    _ => 1,
                };
                let lock = door.locks.iter().find(|lock| lock.number == number)?;
                Some(Figure::new(lock.circuit.as_ref().ok()?.least_v, unit))
            }
            codes::BATTERY_HOURS_SHORT => {
                let sheet = assessment.supply_sheets.iter().find(|sheet| sheet.supply == *element)?;
                let battery = sheet.battery.as_ref()?.as_ref().ok()?;
                Some(Figure::new(battery.shortest()?.hours, unit))
            }
            _ => None,
        }
    }
}
