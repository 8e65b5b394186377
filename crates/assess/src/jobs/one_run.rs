//! A run is worked on once.
//!
//! Two jobs may each change the same run: one pairs its conductors, another replaces its cable. Done one after the other they open the same
//! terminals and enter the same dwellings twice. Where one change of the run does what both are for and takes no more money and labour
//! together than the two, they are one job.

use super::offers::{JobChange, Offered, Offers, entered};
use latchline_finding::{Brought, Edit, EditStep, Remedy};
use latchline_site::model::Site;
use std::collections::BTreeSet;

/// An hour of an installer in units of the catalogue's currency, where money and labour are weighed against each other (common practice,
/// no source; the same that a survey has where it states none).
const HOUR: f64 = 45.0;

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
    Some(remedy.cost?.as_units() + remedy.minutes.unwrap_or(0.0) / 60.0 * HOUR)
}

/// The change that does two jobs on one run, of which all these findings are, for no more than their own changes take.
pub(super) fn for_both(
    site: &Site,
    offers: &Offers<'_>,
    changes: [&JobChange; 2],
    wanted: &BTreeSet<usize>,
    changed: &dyn Fn(&Edit) -> Option<Site>,
) -> Option<JobChange> {
    let [one, two] = changes.map(|change| &change.remedy);
    let run = only_run(&one.edit).filter(|run| only_run(&two.edit) == Some(run))?;
    let most = weighed(one)? + weighed(two)?;
    let is_brought = |kind: &Brought| one.brings.contains(kind) || two.brings.contains(kind);
    let does = |offer: &&Offered<'_>| {
        only_run(&offer.remedy.edit) == Some(run)
            && wanted.iter().all(|finding| offer.clears.contains(finding))
            && offer.remedy.brings.iter().all(is_brought)
            && weighed(offer.remedy).is_some_and(|cost| cost <= most)
    };
    let cost = |offer: &Offered<'_>| weighed(offer.remedy).unwrap_or(f64::INFINITY);
    let best = offers.all.iter().filter(does).min_by(|a, b| cost(a).total_cmp(&cost(b)))?;
    Some(JobChange {
        carried_by: Some((best.finding, best.number)),
        remedy: best.remedy.clone(),
        clears: best.clears.clone(),
        enters: entered(site, best.remedy, changed),
    })
}
