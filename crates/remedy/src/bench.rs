//! One site with its assessment, on which candidates are tried.

use crate::candidate::Candidate;
use latchline_assess::{Assessment, assess_trial};
use latchline_finding::{Argument, Edit, ElementId, Figure, FileId, Finding, Remedy, Sources};
use latchline_site::bill::Bill;
use latchline_site::model::Site;
use latchline_site::{LoadedCatalogues, edit};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex};

/// What names a finding across two assessments.
type Key = (&'static str, Option<ElementId>);

fn key(finding: &Finding) -> Key {
    (finding.code.as_str(), finding.element.clone())
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
    /// Assessments by text.
    judged: Mutex<BTreeMap<String, Arc<Assessment>>>,
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
            judged: Mutex::default(),
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

    /// Assesses what was prepared.
    pub fn judge(&self, prepared: Prepared) -> Trial {
        let known = self.judged.lock().ok().and_then(|judged| judged.get(&prepared.text).cloned());
        let assessment = known.unwrap_or_else(|| {
            let assessment = Arc::new(assess_trial(&prepared.site));
            if let Ok(mut judged) = self.judged.lock() {
                judged.insert(prepared.text.clone(), Arc::clone(&assessment));
            }
            assessment
        });
        Trial { prepared, assessment }
    }

    /// Applies a change to a copy and assesses it; `None` if the result cannot be resolved.
    pub fn try_edit(&self, change: &Edit) -> Option<Trial> {
        Some(self.judge(self.prepare(change)?))
    }

    /// The cheapest candidate of each kind that passes, with its index, cheapest first; then least
    /// labour, then in the order of the candidates.
    ///
    /// Costs are known before anything is solved, so of each kind only as many are assessed as it takes
    /// until one passes.
    pub fn cheapest_of_each_kind(
        &self,
        candidates: &[Candidate],
        passes: impl Fn(&Trial) -> bool + Sync,
    ) -> Vec<(usize, Trial)> {
        let mut prepared: Vec<(usize, Prepared)> = candidates
            .par_iter()
            .enumerate()
            .filter_map(|(index, candidate)| {
                let mut prepared = self.prepare(&candidate.edit)?;
                if !candidate.is_priced {
                    prepared.cost = f64::INFINITY;
                }
                Some((index, prepared))
            })
            .collect();
        let order = |(a_index, a): (usize, &Prepared), (b_index, b): (usize, &Prepared)| {
            a.cost.total_cmp(&b.cost).then(a.minutes.total_cmp(&b.minutes)).then(a_index.cmp(&b_index))
        };
        prepared.sort_by(|a, b| order((a.0, &a.1), (b.0, &b.1)));
        let mut by_kind: BTreeMap<&str, Vec<(usize, Prepared)>> = BTreeMap::new();
        for (index, one) in prepared {
            by_kind.entry(candidates[index].kind).or_default().push((index, one));
        }
        let mut found: Vec<(usize, Trial)> = by_kind
            .into_values()
            .collect::<Vec<_>>()
            .into_par_iter()
            .filter_map(|kind| {
                kind.into_iter()
                    .map(|(index, prepared)| (index, self.judge(prepared)))
                    .find(|(_, trial)| passes(trial))
            })
            .collect();
        found.sort_by(|a, b| order((a.0, &a.1.prepared), (b.0, &b.1.prepared)));
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
        match finding.code.as_str() {
            "voltage-too-low" | "thin-margin" => {
                let device = assessment.devices.iter().find(|device| device.id == *element)?;
                let value = match finding.code.as_str() {
                    "thin-margin" => device.worst.margin_v(),
                    _ => device.worst.adverse_v?,
                };
                Some(Figure::new(value, unit))
            }
            "voltage-too-high" => {
                let device = assessment.devices.iter().find(|device| device.id == *element)?;
                Some(Figure::new(device.highest_v, unit))
            }
            "supply-overloaded" => {
                let source = assessment.sources.iter().find(|source| source.id == *element)?;
                match unit {
                    latchline_finding::Unit::Watt => Some(Figure::new(source.power_w?, unit)),
                    _ => Some(Figure::new(source.current.current_a?, unit)),
                }
            }
            "port-overloaded" => {
                let run = assessment.runs.iter().find(|run| run.from == *element)?;
                Some(Figure::new(run.current.current_a?, unit))
            }
            "lock-voltage-too-low" => {
                let door = assessment.doors.iter().find(|door| door.entrance == *element)?;
                let number = match finding.argument("number") {
                    Some(Argument::Figure(number)) => number.value as usize,
                    _ => 1,
                };
                let lock = door.locks.iter().find(|lock| lock.number == number)?;
                Some(Figure::new(lock.circuit.as_ref().ok()?.least_v, unit))
            }
            "battery-hours-short" => {
                let sheet = assessment.supply_sheets.iter().find(|sheet| sheet.supply == *element)?;
                let battery = sheet.battery.as_ref()?.as_ref().ok()?;
                Some(Figure::new(battery.shortest()?.hours, unit))
            }
            _ => None,
        }
    }
}
