//! The changes that findings carry, and what a job makes of one.

use super::standing::standing;
use crate::assessment::Assessment;
use latchline_finding::{Code, Edit, EditStep, ElementId, Remedy, Severity};
use latchline_site::changes::dwellings_to_enter;
use latchline_site::model::Site;
use std::collections::{BTreeMap, BTreeSet};

/// A change that was verified to mend something, of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct JobChange {
    /// The finding that carries it, index into [`Assessment::findings`], and its number among the remedies of that finding, from 0;
    /// `None` if none carries it.
    pub carried_by: Option<(usize, usize)>,
    /// The change with its cost. Its figure is that of the job's worst finding; it has none where that is not known.
    pub remedy: Remedy,
    /// Standing findings that go with it: indices into [`Assessment::findings`].
    pub clears: Vec<usize>,
    /// Dwellings that have to be entered for it; `None` where the changed site cannot be told.
    pub enters: Option<Vec<ElementId>>,
}

/// A change that a finding carries.
pub(super) struct Offered<'a> {
    pub finding: usize,
    pub number: usize,
    pub remedy: &'a Remedy,
    /// The standing findings that go with it, in their order.
    pub clears: Vec<usize>,
    pub warns: bool,
}

/// Every change of the file that standing findings carry, and by finding which of them mend it.
pub(super) struct Offers<'a> {
    pub all: Vec<Offered<'a>>,
    mending: BTreeMap<usize, Vec<usize>>,
}

impl<'a> Offers<'a> {
    pub fn new(assessment: &'a Assessment) -> Self {
        let mut named: BTreeMap<(Code, Option<&ElementId>), Vec<usize>> = BTreeMap::new();
        for (index, one) in standing(assessment) {
            named.entry((one.code, one.element.as_ref())).or_default().push(index);
        }
        let mut offers = Offers { all: Vec::new(), mending: BTreeMap::new() };
        for (finding, found) in standing(assessment) {
            // What a client has chosen is not thrown out to quieten a warning.
            let is_fit = |remedy: &Remedy| {
                remedy.changes_the_file()
                    && (found.severity == Severity::Error || !remedy.edit.changes_stations_of_dwellings())
            };
            for (number, remedy) in found.remedies.iter().enumerate().filter(|(_, one)| is_fit(one)) {
                let of =
                    |(code, element): &'a (Code, Option<ElementId>)| named.get(&(*code, element.as_ref()));
                let clears: BTreeSet<usize> =
                    remedy.clears.iter().filter_map(of).flatten().copied().collect();
                for mended in &clears {
                    offers.mending.entry(*mended).or_default().push(offers.all.len());
                }
                let warns = remedy.brings.iter().any(|brought| brought.severity > Severity::Advice);
                let clears = clears.into_iter().collect();
                offers.all.push(Offered { finding, number, remedy, clears, warns });
            }
        }
        offers
    }

    /// Those that mend a finding.
    pub fn mending(&self, finding: usize) -> impl Iterator<Item = &Offered<'a>> {
        self.mending.get(&finding).into_iter().flatten().map(|offer| &self.all[*offer])
    }

    /// Those that mend any of some findings, in their order.
    pub fn of(&self, findings: &[usize]) -> BTreeSet<usize> {
        findings.iter().filter_map(|finding| self.mending.get(finding)).flatten().copied().collect()
    }
}

/// Whether a change is of acceptances alone, for which nobody goes anywhere.
fn is_of_paper(edit: &Edit) -> bool {
    let of_acceptances =
        |path: &[EditStep]| matches!(path.first(), Some(EditStep::Key(key)) if key == "accept");
    edit.changes.iter().all(|(path, _)| of_acceptances(path))
}

/// The dwellings that have to be entered for a change; `None` where the changed site cannot be told.
pub(super) fn entered(
    site: &Site,
    remedy: &Remedy,
    changed: &dyn Fn(&Edit) -> Option<Site>,
) -> Option<Vec<ElementId>> {
    match is_of_paper(&remedy.edit) {
        true => Some(Vec::new()),
        false => changed(&remedy.edit).map(|after| dwellings_to_enter(site, &after)),
    }
}
