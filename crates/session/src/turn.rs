//! One job in its turn: what is left of it, and the change that does that on the site as it is then.

use crate::after::{After, Key, key, now_standing, settle, standing};
use crate::alike::is_alike;
use latchline_assess::jobs::{InOrder, Job, JobChange, Jobs, change_for, excess, replaced_supply};
use latchline_assess::rules::codes;
use latchline_assess::{Assessment, GivenUp};
use latchline_finding::{Code, Edit, Finding, Money, Remedy};
use latchline_remedy::{Bench, again, changes_for, offered};
use latchline_site::changes::dwellings_to_enter;
use latchline_site::model::Site;
use std::collections::BTreeSet;

impl After<'_> {
    /// Which of the findings of the first assessment that still stand go with a change.
    pub(crate) fn cleared(&self, remedy: &Remedy, standing: &BTreeSet<Key>) -> Vec<usize> {
        let clears: BTreeSet<&Key> = remedy.clears.iter().collect();
        let of_it = |one: &Finding| clears.contains(&key(one)) && standing.contains(&key(one));
        let all = self.first.findings.iter().enumerate();
        all.filter(|(_, one)| of_it(one)).map(|(at, _)| at).collect()
    }

    /// Does a job in its turn: of those done before it nothing may be left to do, or another change than on the site as it was first.
    pub(crate) fn try_job(&mut self, jobs: &mut Jobs, index: usize) -> Result<(), GivenUp> {
        let (Some(site), Some(now)) = (self.now.site(), self.now.assessment()?) else { return Ok(()) };
        let standing: BTreeSet<Key> = standing(now).map(key).collect();
        settle(&mut self.last, &mut self.went, &standing);
        let own = self.keys(jobs, index);
        let mut wanted = own.clone();
        wanted.retain(|key| standing.contains(key));
        if wanted.is_empty() {
            let by: BTreeSet<usize> = own.iter().filter_map(|key| self.went.get(key).copied()).collect();
            let done_by = by.into_iter().collect();
            jobs.jobs[index].in_order = Some(InOrder { change: None, is_other: false, done_by });
            return Ok(());
        }
        let Some(change) = jobs.jobs[index].change.clone() else { return Ok(()) };
        // An acceptance that matches nothing goes without changing anything else.
        if own.iter().all(|(code, _)| *code == codes::ACCEPTANCE_WITHOUT_MATCH) {
            jobs.jobs[index].in_order =
                Some(InOrder { change: Some(change), is_other: false, done_by: Vec::new() });
            return Ok(());
        }
        let Some(bench) = self.now.bench()? else { return Ok(()) };
        // The same fault with the same remedy at other doors goes with it.
        let alike: Vec<usize> = (index + 1..jobs.jobs.len())
            .filter(|other| is_alike(site, self.first, jobs, index, *other))
            .collect();
        let is_of_several = !alike.is_empty();
        let mut remedy = is_of_several.then(|| self.at_all_doors(jobs, now, &bench, index, &alike)).flatten();
        let together = remedy.is_some();
        if together {
            for other in alike.into_iter().rev() {
                let other = jobs.jobs.remove(other);
                jobs.jobs[index].causes.extend(other.causes);
            }
            let head = |cause: &usize| &self.first.findings[jobs.causes[*cause].findings[0]];
            let mut causes = std::mem::take(&mut jobs.jobs[index].causes);
            causes.sort_by(|a, b| excess(head(b)).total_cmp(&excess(head(a))));
            jobs.jobs[index].causes = causes;
            jobs.jobs[index].is_of_several = true;
        } else {
            let head = self.head(jobs, index);
            // Where nothing was done yet it is the change that was chosen for the site as it is.
            let is_first = self.last.is_none() && self.went.is_empty();
            remedy = match is_first {
                true => Some(change.remedy.clone()),
                false => self.chosen(site, now, &bench, &head, &wanted, &change)?,
            };
            // The figure of another finding says nothing of the one that is named.
            if !wanted.contains(&head) {
                remedy.iter_mut().for_each(|remedy| remedy.value_after = None);
            }
        }
        let Some(remedy) = remedy else {
            jobs.jobs[index].in_order = Some(InOrder { change: None, is_other: true, done_by: Vec::new() });
            return Ok(());
        };
        let Some(next) = self.with_change(&remedy.edit) else { return Ok(()) };
        let enters = match (&change.enters, next.site()) {
            (Some(enters), _) if change.remedy.edit == remedy.edit => Some(enters.clone()),
            (_, Some(changed)) => Some(dwellings_to_enter(site, changed)),
            (_, None) => None,
        };
        let is_other = change.remedy.edit != remedy.edit && !together;
        let clears = self.cleared(&remedy, &standing);
        let carried_by = change.carried_by.filter(|_| change.remedy.edit == remedy.edit);
        let change = JobChange { carried_by, remedy, clears, enters };
        jobs.jobs[index].in_order = Some(InOrder { change: Some(change), is_other, done_by: Vec::new() });
        self.now = next;
        self.last = Some((index, standing));
        Ok(())
    }

    /// The change that a list of jobs made now would have for these findings, the one that was chosen first among those it chooses from: what
    /// `fix` makes of the job at its turn.
    fn chosen(
        &self,
        site: &Site,
        now: &Assessment,
        bench: &Bench<'_>,
        head: &Key,
        wanted: &[Key],
        first: &JobChange,
    ) -> Result<Option<Remedy>, GivenUp> {
        let name = (self.now.text().to_string(), wanted.to_vec());
        let known = self.remembered.borrow().chosen.get(&name).cloned();
        if let Some(known) = known {
            return Ok(known);
        }
        let chosen = self.chosen_now(site, now, bench, head, wanted, first);
        // A trial that was given up mends nothing.
        self.now.still_wanted()?;
        self.remembered.borrow_mut().chosen.insert(name, chosen.clone());
        Ok(chosen)
    }

    fn chosen_now(
        &self,
        site: &Site,
        now: &Assessment,
        bench: &Bench<'_>,
        head: &Key,
        wanted: &[Key],
        first: &JobChange,
    ) -> Option<Remedy> {
        let worst = now_standing(now, head, wanted)?;
        let worst_key = key(worst);
        let known = &first.remedy;
        let mends_all = |remedy: &Remedy| wanted.iter().all(|key| remedy.clears.contains(key));
        // Of a pair one half may be done by now: what mends all on the site as it is then goes before.
        if !known.parts.is_empty() {
            let mut now = offered(bench, worst).into_iter().filter(Remedy::changes_the_file);
            if let Some(now) = now.find(mends_all) {
                return Some(now);
            }
        }
        // A change that a finding carries which is gone by then is not offered any more.
        let is_offered = first.carried_by.is_none_or(|(finding, _)| {
            let carrier = key(&self.first.findings[finding]);
            standing(now).any(|one| key(one) == carrier)
        });
        let same = again(bench, worst, known).filter(|_| is_offered);
        // Nothing is chosen before what takes nothing.
        let takes_nothing = |remedy: &Remedy| {
            !remedy.buys
                && remedy.cost.map(Money::rounded) == Some(Money::ZERO)
                && remedy.minutes.is_some_and(|minutes| minutes <= 0.0)
                && remedy.brings.is_empty()
                && remedy.parts.is_empty()
                && !remedy.edit.changes_stations_of_dwellings()
                && first.enters.as_ref().is_some_and(Vec::is_empty)
        };
        if let Some(same) = same.as_ref().filter(|same| mends_all(same) && takes_nothing(same)) {
            return Some(same.clone());
        }
        // What is known for the worst of each kind is known for the others of it.
        let mut kinds: BTreeSet<Code> = BTreeSet::from([worst_key.0]);
        let mut looked_for: BTreeSet<&Key> = BTreeSet::from([&worst_key]);
        looked_for.extend(wanted.iter().filter(|key| kinds.insert(key.0)));
        let choose = |most_cost: Option<Money>| {
            let mut findings = changes_for(bench, most_cost, |finding| looked_for.contains(&key(finding)));
            let is_carried =
                findings.iter().flat_map(|finding| &finding.remedies).any(|one| one.edit == known.edit);
            if let Some(finding) = findings.iter_mut().find(|finding| key(finding) == worst_key) {
                finding.remedies.extend(same.clone().filter(|_| !is_carried));
            }
            let own = |one: &Key| {
                findings.iter().position(|finding| finding.is_to_be_mended() && key(finding) == *one)
            };
            let of_worst = own(&worst_key).into_iter();
            let others = wanted.iter().filter(|one| **one != worst_key).filter_map(own);
            let own: Vec<usize> = of_worst.chain(others).collect();
            let with = Assessment { findings, ..now.clone() };
            let chosen = change_for(site, &with, &own, &|change| bench.changed(change))?;
            Some(chosen.remedy).filter(|remedy| remedy.clears.contains(&worst_key))
        };
        let most_cost =
            same.as_ref().filter(|same| mends_all(same)).and_then(|same| bounds(site, bench, same));
        // The supply that does for other jobs as well may be a dearer one.
        let is_final = |remedy: &Option<Remedy>| {
            remedy.as_ref().is_some_and(|remedy| replaced_supply(&remedy.edit).is_none())
        };
        most_cost.and_then(|cost| Some(choose(Some(cost))).filter(is_final)).unwrap_or_else(|| choose(None))
    }

    /// What names the worst finding of a job, that of its headline.
    pub(crate) fn head(&self, jobs: &Jobs, index: usize) -> Key {
        key(&self.first.findings[jobs.causes[jobs.jobs[index].causes[0]].findings[0]])
    }

    /// The changes of jobs that are alike as one, if that mends what each of them was for; with the figure of the worst of them.
    fn at_all_doors(
        &self,
        jobs: &Jobs,
        now: &Assessment,
        bench: &Bench<'_>,
        index: usize,
        alike: &[usize],
    ) -> Option<Remedy> {
        let all: Vec<&Job> = std::iter::once(&index).chain(alike).map(|one| &jobs.jobs[*one]).collect();
        let remedies: Vec<&Remedy> =
            all.iter().filter_map(|job| Some(&job.change.as_ref()?.remedy)).collect();
        let edit = remedies.iter().fold(Edit::default(), |edit, one| edit.then(one.edit.clone()));
        let findings: Vec<&Finding> = all
            .iter()
            .flat_map(|job| &job.causes)
            .flat_map(|cause| &jobs.causes[*cause].findings)
            .map(|finding| &self.first.findings[*finding])
            .collect();
        let worst = findings.iter().max_by(|a, b| excess(a).total_cmp(&excess(b)))?;
        let wanted: Vec<Key> = findings.iter().map(|finding| key(finding)).collect();
        let worst = now_standing(now, &key(worst), &wanted)?;
        let parts = remedies.iter().flat_map(|one| one.parts.iter().cloned()).collect();
        let remedy = again(bench, worst, &Remedy { edit, parts, ..(*remedies.first()?).clone() })?;
        wanted.iter().all(|key| remedy.clears.contains(key)).then_some(remedy)
    }
}

/// What a change that mends all costs, if none that is dearer can be chosen before it: it brings nothing and nobody's dwelling is entered
/// for it, so that of changes that mend as much the cheaper one is taken.
fn bounds(site: &Site, bench: &Bench<'_>, remedy: &Remedy) -> Option<Money> {
    let is_plain =
        remedy.brings.is_empty() && remedy.parts.is_empty() && !remedy.edit.changes_stations_of_dwellings();
    let enters = || Some(dwellings_to_enter(site, &bench.changed(&remedy.edit)?));
    remedy.cost.filter(|_| is_plain && enters().is_some_and(|dwellings| dwellings.is_empty()))
}
