//! What to buy, pull, move and set again.

use super::at_doors::cables_at_doors;
use super::effort::{Effort, Pieces, is_pulled_anew};
use super::keys::Bearing;
use super::same::SAME_M;
use super::told::{Changes, OtherCableAtDoor, OtherRun, QuantityChange, RunWork, Set, Swap};
use super::values::key_changes;
use crate::addresses::{self, SwitchSetting, fields_of, settings};
use crate::bill::{Bill, BillKind, BillLine};
use crate::model::{Place, Run, Site, Station};
use latchline_finding::ElementId;
use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

impl Changes {
    /// What turns one version of a site into the other.
    pub fn between(before: &Site, after: &Site) -> Changes {
        let (old, new) = (Bill::of(before), Bill::of(after));
        let mut quantities = quantities(&old, &new);
        let currencies = [before, after].map(|site| site.catalogue.currency.clone());
        let currencies = (currencies[0] != currencies[1]).then_some(currencies);
        if currencies.is_some() {
            quantities.iter_mut().for_each(|one| one.cost = None);
        }
        let (models, places) = elements(before, after);
        Changes {
            unpriced: quantities.iter().filter(|one| one.cost.is_none()).count(),
            material: quantities.iter().filter_map(|one| one.cost).sum(),
            quantities,
            currencies,
            minutes: Effort::of(before, &old, after).minutes,
            models,
            places,
            runs: runs(before, after),
            at_doors: at_doors(before, after),
            keys: key_changes(before, after),
            set: set(before, after),
            enters: super::dwellings_to_enter(before, after),
        }
    }

    /// Whether nothing on site is different.
    pub fn is_empty(&self) -> bool {
        self.quantities.is_empty()
            && self.models.is_empty()
            && self.places.is_empty()
            && self.runs.is_empty()
            && self.at_doors.is_empty()
            && self.set.is_empty()
            && self.keys.iter().all(|one| one.bearing == Bearing::Known)
    }
}

fn quantities(old: &Bill, new: &Bill) -> Vec<QuantityChange> {
    let mut lines: BTreeMap<(BillKind, &str), (f64, &BillLine)> = BTreeMap::new();
    for line in &new.lines {
        lines.insert((line.kind, &line.name), (line.quantity, line));
    }
    for line in &old.lines {
        lines.entry((line.kind, &line.name)).or_insert((0.0, line)).0 -= line.quantity;
    }
    lines
        .into_values()
        .filter(|(quantity, _)| quantity.abs() > SAME_M)
        .map(|(quantity, line)| QuantityChange {
            kind: line.kind,
            name: line.name.clone(),
            title: line.title.clone(),
            quantity,
            cost: line.unit_price.map(|price| price.times(quantity)),
        })
        .collect()
}

/// Models and places of all elements, in the order of the site.
fn inventory(site: &Site) -> Vec<(ElementId, (String, String))> {
    let place = |place: &Place| site.place_words(place).of(latchline_finding::Language::English).to_string();
    let supplies =
        site.supplies.iter().map(|one| (one.id.clone(), (one.model.value.clone(), place(&one.place))));
    let boxes = site.boxes.iter().map(|one| (one.id.clone(), (one.model.value.clone(), place(&one.place))));
    let stations = site
        .stations
        .iter()
        .map(|one: &Station| (one.id.clone(), (one.model.value.clone(), place(site.station_place(one)))));
    supplies.chain(boxes).chain(stations).collect()
}

fn elements(before: &Site, after: &Site) -> (Vec<Swap>, Vec<Swap>) {
    let (was, now) = (inventory(before), inventory(after));
    let old: BTreeMap<&ElementId, &(String, String)> =
        was.iter().map(|(element, has)| (element, has)).collect();
    let new: BTreeSet<&ElementId> = now.iter().map(|(element, _)| element).collect();
    let (mut models, mut places) = (Vec::new(), Vec::new());
    let swap = |element: &ElementId, old: Option<&String>, new: Option<&String>| Swap {
        element: element.clone(),
        old: old.cloned(),
        new: new.cloned(),
    };
    for (element, (model, place)) in &now {
        match old.get(element) {
            None => {
                models.push(swap(element, None, Some(model)));
                places.push(swap(element, None, Some(place)));
            }
            Some((was, was_at)) => {
                if was != model {
                    models.push(swap(element, Some(was), Some(model)));
                }
                if was_at != place {
                    places.push(swap(element, Some(was_at), Some(place)));
                }
            }
        }
    }
    for (element, (model, _)) in was.iter().filter(|(element, _)| !new.contains(element)) {
        models.push(swap(element, Some(model), None));
    }
    (models, places)
}

fn stops(site: &Site, run: &Run) -> Vec<ElementId> {
    run.sections.iter().map(|section| site.stop_id(section.to).clone()).collect()
}

/// A run that goes on behind its last stop, or ends at an earlier one, and is the same up to there; with the pieces of cable of both sites.
fn further_or_less_far(
    old: (&Site, &Run),
    new: (&Site, &Run),
    (was, is): (&Pieces<'_>, &Pieces<'_>),
) -> Option<RunWork> {
    let (was_to, to) = (stops(old.0, old.1), stops(new.0, new.1));
    let common = was_to.len().min(to.len());
    let (was_m, is_m) = (old.1.section_lengths_m(), new.1.section_lengths_m());
    let is_same = was_to[..common] == to[..common]
        && was_m.iter().zip(&is_m).all(|(old, new)| (old - new).abs() <= SAME_M);
    let last = to.get(common.checked_sub(1)?)?.clone();
    let cable = new.1.cable.value.clone();
    match (is_same, to.len().cmp(&was_to.len())) {
        (true, Ordering::Greater) => Some(RunWork::Extended {
            cable,
            more_m: is_m[common..].iter().sum(),
            there_m: is_m[common..].iter().sum::<f64>() - pulled_m(was, new.0, new.1),
            after: last,
            to: to[common..].to_vec(),
        }),
        (true, Ordering::Less) => Some(RunWork::Shortened {
            cable,
            less_m: is.lacking_m(old.0, old.1),
            at: last,
            without: was_to[common..].to_vec(),
        }),
        _ => None,
    }
}

/// Metres of a run that are not there yet.
fn pulled_m(was: &Pieces<'_>, site: &Site, run: &Run) -> f64 {
    if run.existing.value { 0.0 } else { was.lacking_m(site, run) }
}

fn runs(before: &Site, after: &Site) -> Vec<OtherRun> {
    let (was, is) = (Pieces::of(before), Pieces::of(after));
    let mut all = Vec::new();
    for run in &after.runs {
        let mut add = |work| all.push(OtherRun { run: run.id.clone(), work });
        let length_m = run.length().as_metres();
        let Some(old) = before.runs.iter().find(|old| old.id == run.id) else {
            add(RunWork::New {
                cable: run.cable.value.clone(),
                length_m,
                from: after.start_id(run.from),
                to: stops(after, run),
                there_m: length_m - pulled_m(&was, after, run),
            });
            continue;
        };
        let old_m = old.length().as_metres();
        let mut is_told_with_length = false;
        if is_pulled_anew(before, old, after, run) {
            let (old, new) = (old.cable.value.clone(), run.cable.value.clone());
            add(RunWork::Cable { old, new, length_m });
        } else if old.cable.value != run.cable.value {
            add(RunWork::InPlace { old: old.cable.value.clone(), new: run.cable.value.clone() });
        } else if let Some(work) = further_or_less_far((before, old), (after, run), (&was, &is)) {
            add(work);
            is_told_with_length = true;
        } else if (old_m - length_m).abs() > SAME_M {
            let (cable, is_there) = (run.cable.value.clone(), run.existing.value);
            add(RunWork::Length { is_there, cable, old_m, new_m: length_m });
        }
        let (was_from, from) = (before.start_id(old.from), after.start_id(run.from));
        if was_from != from {
            add(RunWork::From { old: was_from, new: from });
        }
        let (was_to, to) = (stops(before, old), stops(after, run));
        let is_same_way = was_to == to;
        if !is_same_way && !is_told_with_length {
            add(RunWork::Stops { old: was_to, new: to });
        }
        let (old_m, new_m) = (old.section_lengths_m(), run.section_lengths_m());
        if is_same_way
            && (old.length().as_metres() - length_m).abs() <= SAME_M
            && old_m.iter().zip(&new_m).any(|(old, new)| (old - new).abs() > SAME_M)
        {
            add(RunWork::Sections { old_m, new_m });
        }
        if old.pairs.value != run.pairs.value {
            add(RunWork::Pairs { old: old.pairs.value, new: run.pairs.value });
            let [had, has] = [(before, old), (after, run)].map(|(site, run)| site.cables_side_by_side(run));
            if has > had && old.cable.value == run.cable.value && !run.existing.value {
                add(RunWork::Beside { cable: run.cable.value.clone(), cables: has - had, length_m });
            }
        }
        let terminated = |run: &Run| run.terminator.as_ref().is_some_and(|stated| stated.value);
        if terminated(old) != terminated(run) {
            add(RunWork::Terminator { set: terminated(run) });
        }
    }
    for old in before.runs.iter().filter(|old| after.runs.iter().all(|run| run.id != old.id)) {
        all.push(OtherRun { run: old.id.clone(), work: RunWork::Gone });
    }
    all
}

fn at_doors(before: &Site, after: &Site) -> Vec<OtherCableAtDoor> {
    let (mut old, new) = (cables_at_doors(before), cables_at_doors(after));
    let mut all: Vec<OtherCableAtDoor> = Vec::new();
    for ((entrance, to), new) in new {
        let was = old.remove(&(entrance.clone(), to));
        if was.as_ref() != Some(&new) {
            let pulled = new.cables_beyond(was.as_ref().filter(|was| was.is_of_use_for(&new)), after);
            all.push(OtherCableAtDoor { entrance, to, old: was, new: Some(new), pulled });
        }
    }
    all.extend(old.into_iter().map(|((entrance, to), old)| OtherCableAtDoor {
        entrance,
        to,
        old: Some(old),
        new: None,
        pulled: 0,
    }));
    all.sort_by(|a, b| (&a.entrance, a.to).cmp(&(&b.entrance, b.to)));
    all
}

/// Label and positions of the switches of every station.
fn positions(site: &Site) -> BTreeMap<ElementId, Vec<(String, SwitchSetting)>> {
    let plan = addresses::assign(site);
    plan.stations
        .iter()
        .map(|address| {
            let fields = fields_of(site, address.class).iter().zip(address.numbers.iter().flatten());
            let set =
                fields.filter_map(|(field, number)| Some((field.label.clone(), settings(field, *number)?)));
            (site.stations[address.station].id.clone(), set.collect())
        })
        .collect()
}

fn set(before: &Site, after: &Site) -> Vec<Set> {
    let (old, new) = (positions(before), positions(after));
    new.into_iter()
        .filter_map(|(station, new)| {
            let was = old.get(&station).cloned().unwrap_or_default();
            (was != new && old.contains_key(&station)).then_some(Set { station, old: was, new })
        })
        .collect()
}
