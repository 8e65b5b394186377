//! Mending everything that can be mended.
//!
//! One step after the other: the worst finding for which a single verified remedy is known gets its
//! cheapest one, and everything is assessed again. What no single change mends is then tried in pairs
//! of changes, of which neither may bring a finding of its own once both are applied. Each step removes a finding and brings
//! none, so the number of findings falls and the loop ends.

use crate::bench::Bench;
use crate::candidate::Candidate;
use crate::{candidates, propose};
use latchline_assess::{Assessment, Memory, assess_with};
use latchline_finding::{Edit, FileId, Finding, Remedy, Severity, Sources};
use latchline_site::model::Site;
use latchline_site::{edit, resolve};
use std::sync::Arc;

/// Most candidates of a finding that are combined in pairs.
const MOST_IN_PAIRS: usize = 10;

/// One remedy that was applied.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The finding that it mended, as it stood.
    pub finding: Finding,
    /// What was done.
    pub remedy: Remedy,
}

/// What came of mending.
#[derive(Debug, Clone)]
pub struct Mended {
    /// The site file after all steps.
    pub text: String,
    /// The steps in order.
    pub steps: Vec<Step>,
    /// The assessment after all steps; its findings are beyond single remedies and pairs.
    pub assessment: Assessment,
}

/// Mends the findings of at least this severity.
pub fn mend(
    sources: &Sources,
    site_file: FileId,
    catalogues: &[FileId],
    site: &Site,
    at_least: Severity,
) -> Mended {
    let mut text = sources.file(site_file).text.to_string();
    let mut current = site.clone();
    let memory = Arc::new(Memory::default());
    let mut assessment = assess_with(&current, &memory);
    let mut steps = Vec::new();
    loop {
        let sources = sources.with_text(site_file, text.as_str());
        let bench =
            Bench::with_memory(&sources, site_file, catalogues, &current, &assessment, Arc::clone(&memory));
        let open: Vec<&Finding> = assessment
            .findings
            .iter()
            .filter(|finding| finding.accepted.is_none() && finding.severity >= at_least)
            .collect();
        let single = open.iter().find_map(|finding| Some(((*finding).clone(), first(&bench, finding)?)));
        let next = single
            .or_else(|| open.iter().find_map(|finding| Some(((*finding).clone(), pair(&bench, finding)?))));
        let Some((finding, remedy)) = next else {
            return Mended { text, steps, assessment };
        };
        let Ok(changed) = edit::apply(&text, &remedy.edit) else {
            return Mended { text, steps, assessment };
        };
        let sources = sources.with_text(site_file, changed.as_str());
        let Some(site) = resolve(&sources, site_file, catalogues).site else {
            return Mended { text, steps, assessment };
        };
        assessment = assess_with(&site, &memory);
        current = site;
        text = changed;
        steps.push(Step { finding, remedy });
    }
}

fn first(bench: &Bench<'_>, finding: &Finding) -> Option<Remedy> {
    propose(bench, finding).into_iter().next()
}

/// The cheapest pair of changes that mends a finding.
pub fn pair(bench: &Bench<'_>, finding: &Finding) -> Option<Remedy> {
    let mut single = candidates::of(bench, finding);
    single.truncate(MOST_IN_PAIRS);
    let mut pairs = Vec::new();
    for (index, one) in single.iter().enumerate() {
        for other in &single[index + 1..] {
            let edit: Edit = one.edit.clone().then(other.edit.clone());
            let both = Candidate::new("two-changes", edit);
            pairs.push(Candidate { is_priced: one.is_priced && other.is_priced, ..both });
        }
    }
    let kept = bench.cheapest_of_each_kind(&pairs, finding);
    kept.first().map(|(index, trial)| bench.remedy(&pairs[*index], trial, finding))
}
