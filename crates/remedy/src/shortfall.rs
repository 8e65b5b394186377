//! Why the changes that were tried for a finding do not mend it.

use crate::bench::Bench;
use crate::candidates;
use crate::outcome::Outcome;
use latchline_assess::assess_with;
use latchline_finding::{Brought, Edit, Finding, Rounded, Severity};

/// Changes of one kind that are told, and changes that are looked at in all.
const MOST_OF_A_KIND: usize = 2;
const MOST_TOLD: usize = 8;

/// Why a change does not mend a finding.
#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    /// The site file cannot be changed so, or no site comes of it.
    NotPossible,
    /// What was found is still there, with this figure.
    Stays(Option<Rounded>),
    /// It goes, but this comes, the worst first.
    Brings(Vec<Brought>),
    /// It goes and nothing worse comes, but something else could then not be judged.
    NotJudged,
}

/// A change that was tried, and why it does not do.
#[derive(Debug, Clone, PartialEq)]
pub struct Shortfall {
    /// What kind of remedy, in kebab case.
    pub kind: &'static str,
    /// The change.
    pub edit: Edit,
    /// Why it does not do.
    pub why: Why,
}

/// What was tried for a finding that no change mends, a few of each kind, and how many more were tried that are not told. Each of those told
/// is made on a copy of the site and the whole is checked again.
pub fn shortfalls(bench: &Bench<'_>, finding: &Finding) -> (Vec<Shortfall>, usize) {
    let mut told: Vec<Shortfall> = Vec::new();
    let mut left = 0;
    for candidate in candidates::of(bench, finding) {
        let of_kind = told.iter().filter(|one| one.kind == candidate.kind).count();
        if of_kind >= MOST_OF_A_KIND || told.len() >= MOST_TOLD || bench.memory.check().is_err() {
            left += 1;
            continue;
        }
        let why = why(bench, finding, &candidate.edit);
        told.push(Shortfall { kind: candidate.kind, edit: candidate.edit, why });
    }
    (told, left)
}

fn why(bench: &Bench<'_>, finding: &Finding, edit: &Edit) -> Why {
    let Some(site) = bench.changed(edit) else { return Why::NotPossible };
    let outcome = Outcome::of(&assess_with(&site, &bench.memory));
    if outcome.found.contains(&crate::outcome::key(finding)) {
        return Why::Stays(outcome.value_after(finding));
    }
    let mut brought = outcome.brought(bench.found());
    brought.retain(|one| one.severity > Severity::Advice);
    brought.sort_by_key(|one| (std::cmp::Reverse(one.severity), one.code, one.element.clone()));
    if brought.is_empty() { Why::NotJudged } else { Why::Brings(brought) }
}
