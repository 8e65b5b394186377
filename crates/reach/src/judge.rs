//! What tells whether more is too much: every rule of the check.

use latchline_assess::{Assessment, Depth, Memory, assess_with, is_allowed};
use latchline_finding::{ElementId, Severity};
use latchline_site::model::Site;
use std::collections::BTreeSet;

/// The largest count up to `highest` for which it `works`, looking at `first` before any other.
pub(crate) fn most(highest: usize, first: usize, works: impl Fn(usize) -> bool) -> usize {
    let (mut known, mut fails) = (0, highest + 1);
    let mut next = first.min(highest);
    // Most answers are small: the interval is doubled until it holds the answer, then halved.
    let mut step = 1;
    while fails - known > 1 {
        if works(next) {
            known = next;
        } else {
            fails = next;
        }
        next = if fails > highest { (known + step).min(highest) } else { known.midpoint(fails) };
        step *= 2;
    }
    known
}

/// Findings of one severity: code and place of each.
type Places = BTreeSet<(&'static str, Option<ElementId>)>;

fn places(assessment: &Assessment, severity: Severity) -> Places {
    assessment
        .findings
        .iter()
        .filter(|finding| finding.severity == severity)
        .map(|finding| (finding.code.as_str(), finding.element.clone()))
        .collect()
}

/// What tells whether more is too much.
#[derive(Debug)]
pub(crate) struct Judge {
    /// Errors that are there today.
    known: Places,
    /// Warnings that are there today.
    warnings: Places,
    memory: Memory,
}

impl Judge {
    /// Where no error is to be there at all.
    pub fn of_a_new_site() -> Self {
        Judge { known: Places::new(), warnings: Places::new(), memory: Memory::default() }
    }

    /// Where an error of this code may stand on this element alone, since the site was made up so.
    pub fn of_a_site_with(code: &'static str, element: &str) -> Self {
        Judge { known: Places::from([(code, Some(ElementId::from(element)))]), ..Judge::of_a_new_site() }
    }

    /// Against the errors and warnings of an assessment.
    pub fn new(assessment: &Assessment, memory: Memory) -> Self {
        let of = |severity| places(assessment, severity);
        Judge { known: of(Severity::Error), warnings: of(Severity::Warning), memory }
    }

    /// The largest count up to `highest` for which nothing goes wrong, and what goes wrong with one more.
    pub fn most(&self, highest: usize, changed: impl Fn(usize) -> Site) -> (usize, Option<&'static str>) {
        let holds = |depth| {
            let changed = &changed;
            move |count: usize| self.holds(&changed(count), depth)
        };
        let by_wiring = most(highest, 1, holds(Depth::Wiring));
        let by_voltages = most(by_wiring, by_wiring, holds(Depth::Voltages));
        let works = most(by_voltages, by_voltages, holds(Depth::Everything));
        let limit = if works < highest { self.first_new(&changed(works + 1)) } else { None };
        (works, limit)
    }

    /// Whether there is no error, as far as rules of a depth find them, that is not there today.
    pub fn holds(&self, site: &Site, depth: Depth) -> bool {
        is_allowed(site, depth, &self.memory, &|finding| {
            finding.severity != Severity::Error
                || self.known.contains(&(finding.code.as_str(), finding.element.clone()))
        })
    }

    /// The first error that is not there today.
    pub fn first_new(&self, site: &Site) -> Option<&'static str> {
        let assessment = assess_with(site, &self.memory);
        let found = assessment.findings.iter().filter(|finding| finding.severity == Severity::Error);
        found
            .map(|finding| (finding.code.as_str(), finding.element.clone()))
            .find(|key| !self.known.contains(key))
            .map(|(code, _)| code)
    }

    /// Codes of warnings that are not there today, each once.
    pub fn new_warnings(&self, site: &Site) -> Vec<&'static str> {
        let now = places(&assess_with(site, &self.memory), Severity::Warning);
        let mut codes: Vec<&'static str> = now.difference(&self.warnings).map(|(code, _)| *code).collect();
        codes.dedup();
        codes
    }
}
