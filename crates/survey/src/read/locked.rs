//! The sheet of locked decisions.

use super::{Names, Reader};
use crate::fields::{Form, Row, site_name, split};
use crate::locked::{Decision, Locked, Who};
use crate::model::Survey;
use crate::problem::ProblemKind;
use crate::scope;
use crate::sheets::nearest;
use latchline_finding::Sourced;
use latchline_words::reading::Thing;

impl Reader<'_> {
    /// Reads the decisions into the survey. A place that is decided for a supply has mains, one for a box may have boxes.
    pub(super) fn locked(&mut self, form: Option<&Form<'_>>, places: &Names, survey: &mut Survey) {
        for row in form.iter().flat_map(|form| form.rows()) {
            let before = self.problems.len();
            let word = row.choice("Decision", self.problems);
            if word.is_none() && self.problems.len() == before {
                row.wrong("Decision", ProblemKind::Empty("Decision"), self.problems);
            }
            let Some(what) = row.need("What", self.problems) else { continue };
            let Some(word) = word else { continue };
            let part = row.text("Part", self.problems);
            if let Some(part) = &part
                && !matches!(word, "box" | "cable")
            {
                row.wrong("Part", ProblemKind::NothingTakesThis(part.value.clone()), self.problems);
            }
            if let Some(to) = row.text("To", &mut Vec::new()).filter(|_| word != "route") {
                row.wrong("To", ProblemKind::NothingTakesThis(to.value), self.problems);
            }
            let decision = match word {
                "supply" | "box" => self.place(&row, "What", places).map(|place| {
                    let model = part.clone();
                    if word == "supply" { Decision::Supply { place } } else { Decision::Box { place, model } }
                }),
                "route" => self.locked_route(&row, places, survey),
                "cable" => {
                    let who = self.who(&row, &what, survey, true);
                    who.map(|who| Decision::Cable { who, cable: part.clone() })
                }
                _ => self.who(&row, &what, survey, false).map(|who| {
                    let dwelling = |one: Who| match one {
                        Who::Dwelling(at) => Some(at),
                        Who::Entrance(_) | Who::Desk(_) => None,
                    };
                    let dwellings: Vec<usize> = who.into_iter().filter_map(dwelling).collect();
                    if word == "together" {
                        Decision::Together { dwellings }
                    } else {
                        Decision::NotThrough { dwellings }
                    }
                }),
            };
            let Some(decision) = decision else { continue };
            match decision {
                Decision::Supply { place } => survey.places[place].mains = true,
                Decision::Box { place, .. } => survey.places[place].boxes = true,
                _ => {}
            }
            let to = row.text("To", &mut Vec::new()).map(|to| format!(" - {}", to.value));
            let part = part.map(|part| format!(" ({})", part.value));
            let written =
                format!("{word} {}{}{}", what.value, to.unwrap_or_default(), part.unwrap_or_default());
            let locked = Locked { written: what.map(|_| written), decision };
            if let Some(other) =
                survey.locked.iter().find(|other| contradict(&locked.decision, &other.decision))
            {
                let (one, other) = (locked.written.value.clone(), other.written.value.clone());
                row.wrong("What", ProblemKind::DecisionsContradict { one, other }, self.problems);
            }
            survey.locked.push(locked);
        }
    }

    fn locked_route(&mut self, row: &Row<'_, '_>, places: &Names, survey: &mut Survey) -> Option<Decision> {
        let from = self.place(row, "What", places);
        let to = self.place(row, "To", places);
        let (from, to) = (from?, to?);
        if !survey.routes.lock(from, to) {
            let name = |place: usize| survey.places[place].name.value.clone();
            let kind = ProblemKind::NoSuchRoute { from: name(from), to: name(to) };
            row.wrong("What", kind, self.problems);
            return None;
        }
        Some(Decision::Route { from, to })
    }

    /// Those whom a cell names; `None` where one of its words means nobody.
    fn who(
        &mut self,
        row: &Row<'_, '_>,
        cell: &Sourced<String>,
        survey: &Survey,
        has_callers: bool,
    ) -> Option<Vec<Who>> {
        let mut found: Vec<Who> = Vec::new();
        let mut is_whole = true;
        for word in split(&cell.value) {
            let name = site_name(&word);
            let entrance = survey.entrances.iter().position(|one| one.name.value == name).map(Who::Entrance);
            let desk = survey.desks.iter().position(|one| one.name.value == name).map(Who::Desk);
            if let Some(caller) = entrance.or(desk).filter(|_| has_callers) {
                found.push(caller);
                continue;
            }
            let words = scope::meant(survey, &word).unwrap_or_default();
            let named = (0..survey.dwellings.len())
                .filter(|at| words.iter().any(|word| survey.means_dwelling(word, *at)))
                .map(Who::Dwelling);
            let before = found.len();
            found.extend(named);
            if found.len() == before {
                is_whole = false;
                let nearest = nearest(&word, scope::known(survey));
                let kind = ProblemKind::UnknownName { kind: Thing::Dwelling, name: word, nearest };
                row.wrong("What", kind, self.problems);
            }
        }
        found.sort_unstable();
        found.dedup();
        is_whole.then_some(found)
    }
}

/// Whether no design keeps both.
fn contradict(one: &Decision, other: &Decision) -> bool {
    match (one, other) {
        (Decision::Box { place, model }, Decision::Box { place: there, model: theirs }) => {
            let differ = model.as_ref().zip(theirs.as_ref()).is_some_and(|(a, b)| a.value != b.value);
            place == there && differ
        }
        (Decision::Cable { who, cable }, Decision::Cable { who: others, cable: theirs }) => {
            let name = |cable: &Option<Sourced<String>>| cable.as_ref().map(|cable| cable.value.clone());
            name(cable) != name(theirs) && who.iter().any(|one| others.contains(one))
        }
        (Decision::Together { dwellings }, Decision::Together { dwellings: others }) => {
            dwellings.iter().any(|dwelling| others.contains(dwelling))
        }
        _ => false,
    }
}
