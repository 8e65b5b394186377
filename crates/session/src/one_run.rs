//! A run is worked on once.
//!
//! Two jobs may each change the same run: one pairs its conductors, another replaces its cable; or one replaces a cable that is not allowed by
//! the cheapest that is, and another splits the run since that is too thin as well. Done one after the other they open the same terminals and
//! enter the same dwellings twice. Where one change of the run does what both are for, and enters fewer dwellings in all or else
//! takes no more money and labour, they are one job. The change that does both is looked for anew: the cheapest cable for the one and the
//! cheapest for the other may both be too poor for the two together.

use crate::view::View;
use latchline_assess::jobs::{Job, JobChange, Jobs};
use latchline_assess::{Assessment, GivenUp};
use latchline_finding::{Edit, EditStep, Finding, Remedy};
use latchline_remedy::{for_all, tried};
use latchline_site::changes::dwellings_to_enter;
use latchline_site::model::USUAL_LABOUR_PER_HOUR;

/// The run that a change is of, if it changes nothing else.
fn only_run(edit: &Edit) -> Option<&str> {
    let mut runs = edit.changes.iter().map(|(path, _)| match &path[..] {
        [EditStep::Key(table), EditStep::Key(run), ..] if table == "runs" => Some(run.as_str()),
        _ => None,
    });
    let first = runs.next()??;
    runs.all(|run| run == Some(first)).then_some(first)
}

/// Money and labour together; `None` where something has no price.
fn weighed(remedy: &Remedy) -> Option<f64> {
    Some(remedy.cost?.as_units() + remedy.minutes.unwrap_or(0.0) / 60.0 * USUAL_LABOUR_PER_HOUR)
}

/// Whether one change in place of two enters fewer dwellings in all, or as many for no more money and labour.
fn takes_less(both: &JobChange, two: [&JobChange; 2]) -> bool {
    let entered = |change: &JobChange| change.enters.as_ref().map(Vec::len);
    let in_all = two[0].enters.as_ref().zip(two[1].enters.as_ref()).map(|(a, b)| a.len() + b.len());
    let costs = weighed(&two[0].remedy).zip(weighed(&two[1].remedy)).map(|(one, other)| one + other);
    let is_no_dearer = weighed(&both.remedy).zip(costs).is_some_and(|(both, two)| both <= two);
    match entered(both).zip(in_all) {
        Some((both, in_all)) => both < in_all || both == in_all && is_no_dearer,
        None => is_no_dearer,
    }
}

/// Makes jobs one that one change of one run does, where it is a change of that run that does one of them.
///
/// # Errors
/// As [`View::voltages`].
pub(crate) fn join(view: &View, assessment: &Assessment, jobs: &mut Jobs) -> Result<(), GivenUp> {
    let Some(bench) = view.bench()? else { return Ok(()) };
    let run_of =
        |job: &Job| job.change.as_ref().and_then(|change| only_run(&change.remedy.edit)).map(String::from);
    // Of two jobs one at least changes a run alone: a thousand that do not are not held against each other.
    let mut runs: Vec<Option<String>> = jobs.jobs.iter().map(run_of).collect();
    let mut with_run: Vec<usize> = (0..runs.len()).filter(|job| runs[*job].is_some()).collect();
    let mut first = 0;
    while first < jobs.jobs.len() {
        let for_both = |other: usize| {
            let two = [first, other].map(|job| &jobs.jobs[job]);
            let changes = [two[0].change.as_ref()?, two[1].change.as_ref()?];
            let mut of_either: Vec<&str> =
                [first, other].iter().filter_map(|job| runs[*job].as_deref()).collect();
            of_either.dedup();
            let of = |job: &Job| -> Vec<usize> {
                job.causes.iter().flat_map(|cause| &jobs.causes[*cause].findings).copied().collect()
            };
            let wanted: Vec<&Finding> =
                two.into_iter().flat_map(of).map(|finding| &assessment.findings[finding]).collect();
            let on_one_run = |run: &str| {
                let is_of_it = |edit: &Edit| only_run(edit) == Some(run);
                let is_known = |index: usize| {
                    let head = jobs.causes[two[index].causes[0]].findings[0];
                    is_of_it(&changes[index].remedy.edit)
                        || tried(&bench, &assessment.findings[head]).iter().any(|one| is_of_it(&one.edit))
                };
                if !is_known(0) || !is_known(1) {
                    return None;
                }
                let change = change_of(view, assessment, for_all(&bench, &wanted, &is_of_it)?);
                takes_less(&change, changes).then_some((other, change))
            };
            of_either.into_iter().find_map(on_one_run)
        };
        let found = match runs[first] {
            Some(_) => (first + 1..jobs.jobs.len()).find_map(for_both),
            None => with_run.iter().copied().filter(|other| *other > first).find_map(for_both),
        };
        // A trial that was given up mends nothing.
        view.still_wanted()?;
        let Some((other, change)) = found else {
            first += 1;
            continue;
        };
        let other = jobs.jobs.remove(other);
        jobs.jobs[first].causes.extend(other.causes);
        jobs.jobs[first].change = Some(change);
        runs = jobs.jobs.iter().map(run_of).collect();
        with_run = (0..runs.len()).filter(|job| runs[*job].is_some()).collect();
    }
    Ok(())
}

/// A change of the site as it is, with what it clears and whom it enters, and the finding that carries it if one does.
fn change_of(view: &View, assessment: &Assessment, remedy: Remedy) -> JobChange {
    let mut carried_by = None;
    let mut clears = Vec::new();
    for (index, finding) in assessment.findings.iter().enumerate() {
        let number = finding.remedies.iter().position(|known| known.edit == remedy.edit);
        carried_by = carried_by.or(number.map(|number| (index, number)));
        if finding.accepted.is_none() && remedy.clears.contains(&(finding.code, finding.element.clone())) {
            clears.push(index);
        }
    }
    let changed = view.changed(&remedy.edit);
    let enters = view.site().zip(changed).map(|(site, changed)| dwellings_to_enter(site, &changed));
    JobChange { carried_by, remedy, clears, enters }
}
