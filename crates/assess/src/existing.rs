//! Whether cable that is there already can stay.

use crate::rules::codes;
use latchline_finding::{Code, ElementId, Finding, Severity};
use latchline_site::model::{RunStop, Site};

/// Whether a run of existing cable can stay.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Standing {
    /// It was measured, and nothing stands against it.
    CanStay,
    /// Nothing stands against it as drawn, but it was not measured.
    OnceMeasured,
    /// These errors stand against it.
    CannotStay(Vec<Code>),
}

/// A run of existing cable.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ExistingRun {
    /// The run.
    pub run: ElementId,
    /// Whether it can stay.
    pub standing: Standing,
}

/// What the cable of a run may be the reason for at the stations on it.
const OF_THE_CABLE: &[Code] = &[codes::VOLTAGE_TOO_LOW, codes::SIGNAL_TOO_WEAK, codes::SIGNAL_NOTCH];

/// Every run of existing cable, in file order, with what was found of it: an error about the run, or too little voltage or signal at a
/// station on it. What was accepted stands against nothing.
pub fn existing_runs(site: &Site, findings: &[Finding]) -> Vec<ExistingRun> {
    let of_run = |run: &latchline_site::model::Run| {
        let is_on_it = |element: &ElementId| {
            run.sections.iter().any(|section| match section.to {
                RunStop::Station(station) => site.stations[station].id == *element,
                RunStop::BoxInput(_) | RunStop::BoxLink(_) => false,
            })
        };
        let mut against: Vec<Code> = findings
            .iter()
            .filter(|finding| finding.severity == Severity::Error && finding.accepted.is_none())
            .filter(|finding| {
                finding.element.as_ref().is_some_and(|element| {
                    *element == run.id || (OF_THE_CABLE.contains(&finding.code) && is_on_it(element))
                })
            })
            .map(|finding| finding.code)
            .collect();
        against.sort_unstable();
        against.dedup();
        let is_unmeasured = findings.iter().any(|finding| {
            finding.code == codes::EXISTING_RUN_NOT_MEASURED && finding.element.as_ref() == Some(&run.id)
        });
        match (against.is_empty(), is_unmeasured) {
            (false, _) => Standing::CannotStay(against),
            (true, true) => Standing::OnceMeasured,
            (true, false) => Standing::CanStay,
        }
    };
    let existing = site.runs.iter().filter(|run| run.existing.value);
    existing.map(|run| ExistingRun { run: run.id.clone(), standing: of_run(run) }).collect()
}
