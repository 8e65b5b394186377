//! Whom a door or a desk calls: the words of its cell held against the survey.

use crate::fields::{site_name, split};
use crate::model::Survey;
use crate::problem::{Problem, ProblemKind};
use crate::sheets::nearest;
use latchline_finding::Sourced;
use latchline_site::ranges;
use latchline_words::reading::Thing;
use std::collections::{BTreeMap, BTreeSet};

/// Who calls.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Caller {
    /// Index into the entrances.
    Entrance(usize),
    /// Index into the desks.
    Desk(usize),
}

/// A cell of a column "Calls": who calls, and what is written there.
pub(crate) type Written = (Caller, Sourced<String>);

impl Survey {
    /// Whether a word of "Calls" means this dwelling: "everyone", its name, its building, or a part of that ("A/1", "A/North/1").
    pub fn means_dwelling(&self, word: &str, dwelling: usize) -> bool {
        let dwelling = &self.dwellings[dwelling];
        if word == "everyone" || word == dwelling.name.value {
            return true;
        }
        let place = &self.places[dwelling.place];
        let building = dwelling.numbered_in.or(place.building);
        let building = building.map(|at| self.buildings[at].name.value.as_str());
        let mut parts = word.split('/');
        let is_here =
            |part: &str| Some(part) == place.core.as_deref() || Some(part) == place.floor.as_deref();
        parts.next() == building && building.is_some() && parts.all(is_here)
    }

    /// Whether a word of "Calls" means this desk.
    pub fn means_desk(&self, word: &str, desk: usize) -> bool {
        word == "everyone" || word == "management" || word == self.desks[desk].name.value
    }

    /// The place at which a caller stands, its name, and whom it calls.
    fn caller(&self, caller: Caller) -> (usize, &Sourced<String>, &[String]) {
        match caller {
            Caller::Entrance(at) => {
                (self.entrances[at].place, &self.entrances[at].name, &self.entrances[at].calls)
            }
            Caller::Desk(at) => (self.desks[at].place, &self.desks[at].name, &self.desks[at].calls),
        }
    }
}

/// Puts names in place of ranges, and tells words that mean nothing, each once a cell.
pub(crate) fn settle(survey: &mut Survey, written: &[Written], problems: &mut Vec<Problem>) {
    for (caller, cell) in written {
        let mut told = false;
        let mut words = Vec::new();
        for word in split(&cell.value) {
            match meant(survey, &word) {
                Some(names) => words.extend(names),
                None if told => {}
                None => {
                    told = true;
                    let nearest = nearest(&word, known(survey));
                    let kind = ProblemKind::UnknownName { kind: Thing::ScopeOfSurvey, name: word, nearest };
                    problems.push(Problem::new(cell.origin.clone(), kind).under("Calls"));
                }
            }
        }
        match *caller {
            Caller::Entrance(at) => survey.entrances[at].calls = words,
            Caller::Desk(at) => survey.desks[at].calls = words,
        }
    }
}

/// The words that one word stands for; `None` if nothing is meant by it.
pub(crate) fn meant(survey: &Survey, word: &str) -> Option<Vec<String>> {
    let is_known = |word: &str| {
        (0..survey.dwellings.len()).any(|at| survey.means_dwelling(word, at))
            || (0..survey.desks.len()).any(|at| survey.means_desk(word, at))
            || word == "everyone"
            || word == "management"
    };
    let one = site_name(word);
    if is_known(&one) {
        return Some(vec![one]);
    }
    // Of a range both ends are dwellings; what the numbers between them name is called if it is there.
    let (first, last) = word.split_once("..")?;
    let all = ranges::names(&format!("{}..{}", site_name(first), site_name(last)))?.ok()?;
    let names: BTreeSet<&str> =
        survey.dwellings.iter().map(|dwelling| dwelling.name.value.as_str()).collect();
    let there = |name: &&String| names.contains(name.as_str());
    let ends = [all.first(), all.last()];
    ends.iter()
        .all(|end| end.as_ref().is_some_and(there))
        .then(|| all.iter().filter(there).cloned().collect())
}

/// Every word that means somebody.
pub(crate) fn known(survey: &Survey) -> impl Iterator<Item = &str> {
    let names = survey.dwellings.iter().map(|dwelling| dwelling.name.value.as_str());
    let buildings = survey.buildings.iter().map(|building| building.name.value.as_str());
    let desks = survey.desks.iter().map(|desk| desk.name.value.as_str());
    names.chain(buildings).chain(desks).chain(["everyone", "management"])
}

/// What no cable can join: places that no route joins to the mains, and callers that no route joins to whom they call. One finding for each
/// part of the routes, and for each caller.
pub(crate) fn off_the_routes(survey: &Survey, problems: &mut Vec<Problem>) {
    let part = survey.routes.parts();
    let fed: BTreeSet<usize> =
        survey.places.iter().zip(&part).filter(|(place, _)| place.mains).map(|(_, part)| *part).collect();
    let dwellings = survey.dwellings.iter().map(|one| (&one.name, one.place));
    let entrances = survey.entrances.iter().map(|one| (&one.name, one.place));
    let desks = survey.desks.iter().map(|one| (&one.name, one.place));
    let mut apart: BTreeMap<usize, Vec<(&Sourced<String>, usize)>> = BTreeMap::new();
    for (name, place) in dwellings.chain(entrances).chain(desks) {
        if !fed.contains(&part[place]) {
            apart.entry(part[place]).or_default().push((name, place));
        }
    }
    for all in apart.values() {
        let (name, place) = all[0];
        let kind = ProblemKind::OffTheRoutes {
            element: name.value.clone(),
            place: survey.places[place].name.value.clone(),
            others: all.len() - 1,
        };
        problems.push(Problem::new(name.origin.clone(), kind));
    }
    if !apart.is_empty() {
        return;
    }
    let callers = (0..survey.entrances.len()).map(Caller::Entrance);
    for caller in callers.chain((0..survey.desks.len()).map(Caller::Desk)) {
        let (place, name, calls) = survey.caller(caller);
        let everyone = [String::from("everyone")];
        let words = if calls.is_empty() { &everyone } else { calls };
        let is_called = |at: &usize| words.iter().any(|word| survey.means_dwelling(word, *at));
        let away = (0..survey.dwellings.len())
            .filter(|at| part[survey.dwellings[*at].place] != part[place])
            .filter(is_called)
            .collect::<Vec<_>>();
        if let Some(first) = away.first() {
            let kind = ProblemKind::NoRouteToCalled {
                caller: name.value.clone(),
                called: survey.dwellings[*first].name.value.clone(),
                others: away.len() - 1,
            };
            problems.push(Problem::new(name.origin.clone(), kind));
        }
    }
}
