//! Changes to a site file that mend findings.
//!
//! A remedy is never guessed: every candidate is an [`Edit`] that is applied
//! to a copy of the text, resolved and assessed as a whole. It is kept only if its finding is gone
//! and no finding has come that was not there before (by code and element), but that, where an error goes, what is no error may
//! come, and is named. What remains is priced by what it takes and ranked; of changes that cost the same those that
//! bring nothing come first. What is no change of the file comes last: a delay from run to run with which a supply was seen to start, and
//! a loop that would do if it measured no more than so much.
//!
//! * [`Bench`]: one site with its assessment, on which candidates are tried;
//! * [`propose`]: the remedies of one finding; [`again`]: a remedy that was found on another version of the site;
//! * [`for_all`]: one change for several findings; [`idle_acceptances`]: what matches nothing, all at once;
//! * [`pair`]: where no single change mends it, a pair of changes;
//! * [`shortfalls`]: where that does not either, what was tried and why it does not do.

mod bench;
mod candidate;
mod candidates;
mod first_look;
mod mains_lost;
mod measured;
mod outcome;
mod pair;
mod shortcut;
mod shortfall;

pub use bench::Bench;
pub use candidate::{Candidate, TWO_CHANGES};
pub use pair::pair;
pub use shortfall::{Shortfall, Why, shortfalls};

use bench::Most;
use latchline_assess::rules::codes;
use latchline_finding::{Code, Edit, ElementId, Figure, Finding, Money, Remedy, Rounded, Severity, Unit};
use latchline_network::start_up::least_stagger;
use std::collections::BTreeMap;

/// Most remedies kept for one finding.
pub const MOST_REMEDIES: usize = 4;

/// The remedies of one finding: single changes, cheapest first, then least labour; where none of them leaves dwellings the stations that
/// were chosen for them, the cheapest pair before what is left. What `check` and `fix` offer is this, as far as there is time to look.
pub fn offered(bench: &Bench<'_>, finding: &Finding) -> Vec<Remedy> {
    with_a_pair(bench, finding, propose(bench, finding))
}

/// Most changes that are looked at to offer what mends a finding; none where nothing is known that could.
pub fn most_looked_at(bench: &Bench<'_>, finding: &Finding) -> usize {
    let candidates = candidates::of(bench, finding).count();
    candidates + pair::most_pairs(candidates)
}

/// Every change that is tried for a finding, most promising first.
pub fn tried(bench: &Bench<'_>, finding: &Finding) -> Vec<Candidate> {
    candidates::of(bench, finding).collect()
}

/// The cheapest change of a kind that mends a finding, a pair of changes among them.
pub fn of_kind(bench: &Bench<'_>, finding: &Finding, kind: &str) -> Option<Remedy> {
    let candidates: Vec<Candidate> = candidates::of(bench, finding).filter(|one| one.kind == kind).collect();
    let Some(mending) = bench.cheapest_of_each_kind(&candidates, finding, Most::kinds(1)).pop() else {
        return (kind == TWO_CHANGES).then(|| pair(bench, finding)).flatten();
    };
    Some(bench.remedy(&candidates[mending.index], &mending, finding))
}

/// Most changes that are looked at for one that mends several findings.
const MOST_FOR_ALL: usize = 40;

/// The cheapest change that mends all of these findings and brings no error or warning, of those that are known for any of them and wanted;
/// with the figure of the first.
pub fn for_all(
    bench: &Bench<'_>,
    findings: &[&Finding],
    is_wanted: &dyn Fn(&Edit) -> bool,
) -> Option<Remedy> {
    let first = *findings.first()?;
    let mut list: Vec<Candidate> = Vec::new();
    for candidate in findings.iter().flat_map(|finding| candidates::of(bench, finding)) {
        if is_wanted(&candidate.edit) && !list.iter().any(|known| known.edit == candidate.edit) {
            list.push(candidate);
        }
        if list.len() >= MOST_FOR_ALL {
            break;
        }
    }
    let mending = bench.cheapest_for_all(&list, findings)?;
    Some(bench.remedy(&list[mending.index], &mending, first))
}

/// A remedy that was found elsewhere, tried on this bench: with its cost and figures as they are here; `None` if it does not mend the
/// finding here.
pub fn again(bench: &Bench<'_>, finding: &Finding, remedy: &Remedy) -> Option<Remedy> {
    if finding.code == codes::ACCEPTANCE_WITHOUT_MATCH {
        return without_trial(bench, finding)?.into_iter().find(|one| one.edit == remedy.edit);
    }
    let parts = remedy.parts.clone();
    let candidate = Candidate { parts, ..Candidate::new(remedy.kind, remedy.edit.clone()) };
    let candidate = if remedy.cost.is_some() { candidate } else { candidate.unpriced() };
    let only = std::slice::from_ref(&candidate);
    let mending = bench.cheapest_of_each_kind(only, finding, Most::kinds(1)).pop()?;
    Some(bench.remedy(&candidate, &mending, finding))
}

/// Whether it changes the file, and leaves dwellings the stations that were chosen for them.
fn keeps_choice(remedy: &Remedy) -> bool {
    remedy.changes_the_file() && !remedy.edit.changes_stations_of_dwellings()
}

/// Where no single change mends a finding, or only one that takes other stations than were chosen, a pair of changes before what there is.
fn with_a_pair(bench: &Bench<'_>, finding: &Finding, single: Vec<Remedy>) -> Vec<Remedy> {
    if single.iter().any(keeps_choice) {
        return single;
    }
    let is_mended = single.iter().any(Remedy::changes_the_file);
    let pair = pair(bench, finding).filter(|both| !is_mended || keeps_choice(both));
    pair.into_iter().chain(single).collect()
}

/// The remedies of one finding, cheapest first, then least labour. Empty if no single change of the
/// kinds that are known mends it.
pub fn propose(bench: &Bench<'_>, finding: &Finding) -> Vec<Remedy> {
    if let Some(known) = without_trial(bench, finding) {
        return known;
    }
    with_what_is_no_change(
        bench,
        finding,
        among(bench, finding, &tried(bench, finding), Most::kinds(MOST_REMEDIES)),
    )
}

fn among(bench: &Bench<'_>, finding: &Finding, candidates: &[Candidate], most: Most) -> Vec<Remedy> {
    let kept = bench.cheapest_of_each_kind(candidates, finding, most);
    kept.iter().map(|mending| bench.remedy(&candidates[mending.index], mending, finding)).collect()
}

/// Changes of the file, and behind them what helps without one.
fn with_what_is_no_change(bench: &Bench<'_>, finding: &Finding, mut remedies: Vec<Remedy>) -> Vec<Remedy> {
    remedies.extend(staggered_start(bench, finding));
    remedies.extend(measured::loop_to_measure(bench, finding));
    remedies
}

/// Remedies that need no trial: an acceptance that matches nothing changes nothing else when it goes.
fn without_trial(bench: &Bench<'_>, finding: &Finding) -> Option<Vec<Remedy>> {
    if finding.code != codes::ACCEPTANCE_WITHOUT_MATCH {
        return None;
    }
    // Where another entry accepts the same, its finding would stay.
    let removed = acceptance_removed(bench, finding).filter(|_| bench.is_alone(finding));
    Some(removed.into_iter().collect())
}

fn acceptance_removed(bench: &Bench<'_>, finding: &Finding) -> Option<Remedy> {
    Some(Remedy {
        kind: "acceptance-removed",
        edit: candidates::idle_acceptance(bench, finding)?,
        cost: Some(Money::ZERO),
        minutes: Some(0.0),
        clears: vec![(finding.code, finding.element.clone())],
        ..Remedy::default()
    })
}

/// All acceptances that match nothing and are of at least this severity, each with what removes it, and one edit that removes them together.
/// As none of them matches anything, none is needed by another.
pub fn idle_acceptances(bench: &Bench<'_>, at_least: Severity) -> (Vec<(Finding, Remedy)>, Edit) {
    let idle = |finding: &&Finding| {
        finding.code == codes::ACCEPTANCE_WITHOUT_MATCH
            && finding.accepted.is_none()
            && finding.severity >= at_least
    };
    let findings = bench.assessment.findings.iter().filter(idle);
    let mut list: Vec<(Finding, Remedy)> =
        findings.filter_map(|one| Some((one.clone(), acceptance_removed(bench, one)?))).collect();
    let number = |finding: &Finding| bench.acceptance_at(&finding.origin);
    list.sort_by_key(|(finding, _)| number(finding));
    // The last entry first, so that the numbers of the others hold.
    let together = list.iter().rev().fold(Edit::default(), |edit, (_, one)| edit.then(one.edit.clone()));
    (list, together)
}

/// A delay from run to run with which a supply or box was seen to start.
fn staggered_start(bench: &Bench<'_>, finding: &Finding) -> Option<Remedy> {
    if !matches!(finding.code, codes::START_UP_FAILS | codes::START_UP_HICCUPS) {
        return None;
    }
    let layout = bench.layout();
    let element = finding.element.as_ref()?;
    let stage = layout.stages.iter().position(|stage| stage.id == *element)?;
    let stagger_s = least_stagger(bench.site, layout, stage)?;
    Some(Remedy {
        kind: "staggered-start",
        value_after: Some(Rounded::up(Figure::new(stagger_s, Unit::Second))),
        ..Remedy::default()
    })
}

/// Most changes looked at by [`with_remedies`], times the stations of the site: what is looked for takes time in proportion to both.
const MOST_WORK: usize = 60_000;
/// Changes looked at whatever the size of the site.
const LEAST_CHANGES: usize = 40;

/// The findings of the bench's assessment, each with its remedies. Accepted ones and advice keep none:
/// they need none.
///
/// The first finding of each code on each supply's tree has its turn before the others. When as much was looked at as
/// `MOST_WORK` allows, the rest is not tried; the second figure is how many findings that leaves.
pub fn with_remedies(bench: &Bench<'_>) -> (Vec<Finding>, usize) {
    sought(bench, Sought::Everything, |_| true)
}

/// The same, but only those findings that are wanted get remedies, and only changes of the file; with a most that they may cost, of each
/// none that is dearer, but where nothing mends it that costs no more.
pub fn changes_for(
    bench: &Bench<'_>,
    most_cost: Option<Money>,
    is_wanted: impl Fn(&Finding) -> bool,
) -> Vec<Finding> {
    sought(bench, Sought::Changes(most_cost), is_wanted).0
}

/// What is looked for.
#[derive(Clone, Copy)]
enum Sought {
    /// Whatever helps.
    Everything,
    /// Changes of the file, with the most that they may cost.
    Changes(Option<Money>),
}

fn sought(bench: &Bench<'_>, what: Sought, is_wanted: impl Fn(&Finding) -> bool) -> (Vec<Finding>, usize) {
    let cost = match what {
        Sought::Everything => None,
        Sought::Changes(most_cost) => most_cost,
    };
    let mut findings = bench.assessment.findings.clone();
    let most = (MOST_WORK / bench.site.stations.len().max(1)).max(LEAST_CHANGES);
    let mut groups: BTreeMap<(Code, Option<&ElementId>), usize> = BTreeMap::new();
    let mut turns: Vec<(usize, usize)> = Vec::new();
    for (index, finding) in bench.assessment.findings.iter().enumerate() {
        if finding.is_to_be_mended() && is_wanted(finding) {
            let turn = groups.entry((finding.code, source_of(bench, finding))).or_default();
            turns.push((*turn, index));
            *turn += 1;
        }
    }
    turns.sort();
    let mut looked_at = 0;
    let mut left = 0;
    for (_, index) in turns {
        if let Some(known) = without_trial(bench, &findings[index]) {
            findings[index].remedies = known;
            continue;
        }
        // What was looked at for others costs little.
        let Some((candidates, new)) = within(bench, &findings[index], most - looked_at) else {
            left += 1;
            continue;
        };
        looked_at += new;
        let changes = among(bench, &findings[index], &candidates, Most { kinds: MOST_REMEDIES, cost });
        let single = match what {
            Sought::Everything => with_what_is_no_change(bench, &findings[index], changes),
            Sought::Changes(_) => changes,
        };
        let is_mended = single.iter().any(Remedy::changes_the_file);
        let pairs = pair::most_pairs(candidates.len());
        findings[index].remedies =
            if single.iter().any(keeps_choice) || pairs == 0 || looked_at + pairs > most {
                left += usize::from(!is_mended && pairs > 0);
                single
            } else {
                looked_at += pairs;
                with_a_pair(bench, &findings[index], single)
            };
        if bench.memory.check().is_err() {
            break;
        }
    }
    (findings, left)
}

/// The candidates of a finding and how many of them were not looked at before, if these are no more than so many.
fn within(bench: &Bench<'_>, finding: &Finding, most_new: usize) -> Option<(Vec<Candidate>, usize)> {
    let (mut list, mut new) = (Vec::new(), 0);
    for candidate in candidates::of(bench, finding) {
        new += usize::from(!bench.is_known(&candidate.edit));
        if new > most_new {
            return None;
        }
        list.push(candidate);
    }
    Some((list, new))
}

/// The supply or box that feeds what a finding is about.
fn source_of<'a>(bench: &'a Bench<'_>, finding: &Finding) -> Option<&'a ElementId> {
    let element = finding.element.as_ref()?;
    let assessment = bench.assessment;
    let device = assessment.devices.iter().find(|device| device.id == *element).map(|device| &device.source);
    let run = || assessment.runs.iter().find(|run| run.id == *element || run.from == *element);
    device.or_else(|| run().map(|run| &run.source))
}
