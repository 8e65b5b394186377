//! Cables that are already in the walls: which of them can stay.

use crate::assessment::RunSummary;
use crate::existing_cable::ExistingCable;
use crate::not_judged::NotJudged;
use latchline_finding::{Code, ElementId, Finding, Severity};
use latchline_site::model::Site;
use std::collections::BTreeSet;

/// Says of each existing run whether it can stay.
pub(crate) fn judge_existing(
    site: &Site,
    runs: &mut [RunSummary],
    findings: &[Finding],
    not_judged: &[NotJudged],
) {
    for summary in runs {
        let run = &site.runs[summary.run];
        if !run.existing.value {
            continue;
        }
        let mut own: BTreeSet<&ElementId> =
            run.sections.iter().map(|section| site.stop_id(section.to)).collect();
        own.extend([&summary.id, &summary.from]);
        let is_own =
            |element: &Option<ElementId>| element.as_ref().is_some_and(|element| own.contains(element));
        let standing = findings
            .iter()
            .filter(|one| one.accepted.is_none() && one.severity > Severity::Advice && is_own(&one.element));
        let mut codes: Vec<Code> = standing.map(|one| one.code).collect();
        codes.sort_unstable();
        codes.dedup();
        let is_measured = run.measured.loop_resistance.is_some() && run.measured.insulation.is_some();
        let is_open = not_judged.iter().any(|one| one.elements.iter().any(|element| own.contains(element)));
        summary.existing = Some(match (codes.is_empty(), is_open, is_measured) {
            (false, _, _) => ExistingCable::Found(codes),
            (true, true, _) => ExistingCable::NotJudged,
            (true, false, true) => ExistingCable::CanStay,
            (true, false, false) => ExistingCable::CanStayIfMeasured,
        });
    }
}
