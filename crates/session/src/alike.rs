//! The same fault with the same remedy at several doors.

use latchline_assess::Assessment;
use latchline_assess::jobs::{Job, Jobs};
use latchline_finding::{Code, Edit, EditStep, ElementId, Finding, Severity};
use latchline_site::model::Site;

/// Whether two jobs are the same fault with the same remedy at two doors.
pub(crate) fn is_alike(site: &Site, first: &Assessment, jobs: &Jobs, one: usize, other: usize) -> bool {
    let of = |index: usize| {
        let job: &Job = &jobs.jobs[index];
        let findings: Vec<&Finding> = job
            .causes
            .iter()
            .flat_map(|cause| &jobs.causes[*cause].findings)
            .map(|finding| &first.findings[*finding])
            .collect();
        let door = findings.first()?.element.as_ref()?;
        let is_door = site.entrances.iter().any(|entrance| entrance.id == *door);
        let is_of_it = is_door && findings.iter().all(|finding| finding.element.as_ref() == Some(door));
        let codes: Vec<(Code, Severity)> =
            findings.iter().map(|finding| (finding.code, finding.severity)).collect();
        let remedy = &job.change.as_ref()?.remedy;
        is_of_it.then(|| (jobs.danger(job), codes, remedy.kind, without(&remedy.edit, door)))
    };
    of(one).is_some_and(|shape| of(other).is_some_and(|other| shape == other))
}

/// A change with the name of a door left open.
fn without(edit: &Edit, door: &ElementId) -> Edit {
    let mut edit = edit.clone();
    for step in edit.changes.iter_mut().flat_map(|(path, _)| path) {
        if matches!(step, EditStep::Key(name) if name == door.as_str()) {
            *step = EditStep::Key(String::new());
        }
    }
    edit
}
