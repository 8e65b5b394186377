//! Ways to do one thing to an installed site, each with its cost.

use super::installed::{Installed, InstalledBox, Run, Stop, price};
use crate::instance::Instance;
use crate::item::{Item, Owner};
use crate::money::Amount;
use crate::parts::cost_of;
use crate::sections::{Sections, sections};
use crate::toml_text::{array, entrance_keys, joined, lengths_keys, list, place_key, quoted, surroundings};
use latchline_finding::{Both, Edit};
use latchline_site::catalogue::BoxRole;
use latchline_site::edit;
use latchline_words::design::StepWords;

/// One thing done: words, cost, and what it changes in the text.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// What and why.
    pub words: Both,
    /// Material and labour.
    pub cost: Amount,
    pub(super) parts: Vec<Part>,
}

/// A change of the text.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Part {
    /// Sets a key.
    Set(Vec<String>, String),
    /// Gives a run these lengths, in metres.
    Lengths(String, Vec<f64>),
}

impl Way {
    /// Nothing in the text yet.
    pub fn new(words: Both, cost: Amount) -> Self {
        Way { words, cost, parts: Vec::new() }
    }

    /// Sets a key.
    pub fn set(&mut self, path: &[&str], value: String) {
        self.parts.push(Part::Set(path.iter().map(|key| (*key).to_string()).collect(), value));
    }

    /// Gives a run these lengths.
    pub fn lengths(&mut self, run: &str, lengths_m: &[f64]) {
        self.parts.push(Part::Lengths(run.to_string(), lengths_m.to_vec()));
    }

    /// The edit of this text.
    pub fn edit(&self, text: &str) -> Edit {
        let mut whole = Edit::default();
        for part in &self.parts {
            match part {
                Part::Set(path, value) => {
                    let path: Vec<&str> = path.iter().map(String::as_str).collect();
                    whole = whole.then(Edit::set(&path, value.clone()));
                }
                Part::Lengths(run, lengths_m) => {
                    let pairs = lengths_keys(lengths_m);
                    for old in ["length", "lengths", "first", "spacing"] {
                        let remove = Edit::remove(&["runs", run, old]);
                        let is_there = edit::apply(text, &remove).is_ok();
                        if is_there && !pairs.iter().any(|(key, _)| *key == old) {
                            whole = whole.then(remove);
                        }
                    }
                    for (key, value) in pairs {
                        whole = whole.then(Edit::set(&["runs", run, key], value));
                    }
                }
            }
        }
        whole
    }
}

/// What is installed then, with the way there.
pub type Ways = Vec<(Installed, Way)>;

/// Ways to hang a new item: into a run, on a free port, on a further box.
pub fn hangings(instance: &Instance<'_>, installed: &Installed, item: usize) -> Ways {
    let mut ways = Vec::new();
    let new = &instance.items[item];
    if !new.solo && instance.limits.dwellings > 1 {
        for at in 0..installed.runs.len() {
            looped(instance, installed, item, at, &mut ways);
        }
    }
    for at in 0..installed.boxes.len() {
        if let (Some(place), Some(port)) =
            (installed.boxes[at].place, installed.free_ports(instance, at).first())
        {
            for wire in 0..instance.wires.len() {
                ways.extend(on_port(instance, installed, (at, place, *port), item, wire));
            }
        }
    }
    further_boxes(instance, installed, item, &mut ways);
    for (_, way) in &mut ways {
        define(instance, new, way);
    }
    ways
}

/// The new item looped into a run, at every place of it.
fn looped(instance: &Instance<'_>, installed: &Installed, item: usize, at: usize, ways: &mut Ways) {
    let run = &installed.runs[at];
    let (Some(items), Some(place)) = (run.items(), run.place) else { return };
    let is_dwelling = |item: &usize| matches!(instance.items[*item].owner, Owner::Dwelling(_));
    let Some(per_dm) = per_dm(instance, &run.cable) else { return };
    if run.existing || items.is_empty() || !items.iter().all(is_dwelling) {
        return;
    }
    if items.len() >= instance.limits.dwellings || items.iter().any(|item| instance.items[*item].solo) {
        return;
    }
    let stations = instance.items[item].models.len();
    for position in 0..=items.len() {
        let mut order = items.clone();
        order.insert(position, item);
        let Some(planned) = sections(instance, place, &order) else { continue };
        if planned.lengths_dm.len() != run.stops.len() + stations {
            continue;
        }
        // The section before the new one and, where it is not the last, the section behind are new cable.
        let first: usize = items[..position].iter().map(|item| instance.items[*item].models.len()).sum();
        let behind = usize::from(position < items.len());
        let new_dm: u32 = planned.lengths_dm[first..first + stations + behind].iter().sum();
        let metres = |length: &u32| f64::from(*length) / 10.0;
        let mut lengths_m = run.lengths_m.clone();
        lengths_m.splice(
            first..first + behind,
            planned.lengths_dm[first..first + stations + behind].iter().map(metres),
        );
        let mut changed = installed.clone();
        let target = &mut changed.runs[at];
        target.lengths_m.clone_from(&lengths_m);
        target.stops.splice(first..first, stops_of(instance, item));
        let names = target.names(instance, installed);
        let name = &instance.items[item].name;
        let cost = Amount::from(new_dm) * per_dm;
        let words = match names.get(first + stations) {
            Some(before) if behind == 1 => StepWords::LoopedInBefore { item: name, run: &run.name, before },
            _ => StepWords::LoopedInAtEnd { item: name, run: &run.name },
        };
        let mut way = Way::new(words.both(), cost);
        way.set(&["runs", &run.name, "to"], list(&names));
        way.lengths(&run.name, &lengths_m);
        ways.push((changed, way));
    }
}

fn stops_of(instance: &Instance<'_>, item: usize) -> Vec<Stop> {
    let item_of = &instance.items[item];
    let further =
        (2..=item_of.models.len()).map(|ordinal| Stop::Other(format!("{}:{ordinal}", item_of.name)));
    std::iter::once(Stop::Item(item)).chain(further).collect()
}

/// Price of a tenth of a metre of a cable that may be bought.
pub(super) fn per_dm(instance: &Instance<'_>, cable: &str) -> Option<Amount> {
    let cable = instance.catalogue.cables.get(cable)?;
    Some(cost_of(&cable.head, instance.survey)? / 10)
}

/// A run of its own from a port; `None` if that cable may not run there.
pub(super) fn on_port(
    instance: &Instance<'_>,
    installed: &Installed,
    (at, place, port): (usize, usize, usize),
    item: usize,
    wire: usize,
) -> Option<(Installed, Way)> {
    let planned = sections(instance, place, &[item])?;
    let wire = &instance.wires[wire];
    if !wire.environments.contains(&planned.environment) {
        return None;
    }
    let mut changed = installed.clone();
    let new = &instance.items[item];
    let building = instance.survey.places[new.place].building;
    let prefix =
        building.map_or(String::new(), |at| format!("{}-", instance.survey.buildings[at].name.value));
    let name = changed.name(&format!("{prefix}R"));
    let from = format!("{}.{port}", installed.boxes[at].name);
    let run = Run {
        name: name.clone(),
        from: from.clone(),
        port: Some((at, port)),
        place: Some(place),
        stops: stops_of(instance, item),
        lengths_m: planned.lengths_dm.iter().map(|length| f64::from(*length) / 10.0).collect(),
        cable: wire.name.clone(),
        existing: false,
    };
    let total: u32 = planned.lengths_dm.iter().sum();
    let cost = Amount::from(total) * wire.per_dm;
    let words = StepWords::OnPort { item: &new.name, port: &from, cable: &wire.name };
    let mut way = Way::new(words.both(), cost);
    way.set(&["runs", &name], run_text(instance, &changed, &run, &planned, place, new));
    changed.runs.push(run);
    Some((changed, way))
}

fn run_text(
    instance: &Instance<'_>,
    installed: &Installed,
    run: &Run,
    planned: &Sections,
    place: usize,
    item: &Item,
) -> String {
    let mut keys = vec![
        ("from", quoted(&run.from)),
        ("to", list(&run.names(instance, installed))),
        ("cable", quoted(&run.cable)),
    ];
    keys.extend(lengths_keys(&run.lengths_m));
    let survey = instance.survey;
    let between = survey.places[place].building != survey.places[item.place].building;
    surroundings(survey, &mut keys, planned.environment, planned.beside_mains, between);
    if instance.family.terminator_required.value {
        keys.push(("terminator", String::from("true")));
    }
    let parts: Vec<String> = keys.iter().map(|(key, value)| format!("{key} = {value}")).collect();
    format!("{{ {} }}", parts.join(", "))
}

/// A further box at the end of a trunk, with the new item on its first port.
fn further_boxes(instance: &Instance<'_>, installed: &Installed, item: usize, ways: &mut Ways) {
    for at in 0..installed.runs.len() {
        let trunk = &installed.runs[at];
        let (Some(Stop::Box(last)), Some(per_dm)) = (trunk.stops.last(), per_dm(instance, &trunk.cable))
        else {
            continue;
        };
        let role = |index: &usize| {
            let model = instance.catalogue.boxes.get(&installed.boxes[*index].model);
            model.is_some_and(|model| model.role.value == BoxRole::Distributor)
        };
        let Some(before) = installed.boxes[*last].place.filter(|_| role(last)) else { continue };
        for &place in &instance.box_places {
            let Some(step) = instance.way(before, place) else { continue };
            let suits = instance
                .catalogue
                .cables
                .get(&trunk.cable)
                .is_some_and(|cable| cable.environments.value.contains(&step.environment));
            if !suits {
                continue;
            }
            let length_dm = instance.section_dm(step.length_mm, 0);
            for kind in &instance.distributors {
                if kind.ports <= instance.limits.spare {
                    continue;
                }
                let mut changed = installed.clone();
                let building = instance.survey.places[place].building;
                let prefix = building
                    .map_or(String::new(), |at| format!("{}-", instance.survey.buildings[at].name.value));
                let name = changed.name(&format!("{prefix}D"));
                changed.boxes.push(InstalledBox {
                    name: name.clone(),
                    model: kind.name.clone(),
                    place: Some(place),
                });
                let new_box = changed.boxes.len() - 1;
                changed.runs[at].stops.push(Stop::Box(new_box));
                changed.runs[at].lengths_m.push(f64::from(length_dm) / 10.0);
                for wire in 0..instance.wires.len() {
                    let Some((changed, mut way)) =
                        on_port(instance, &changed, (new_box, place, 1), item, wire)
                    else {
                        continue;
                    };
                    let trunk = &changed.runs[at];
                    way.cost += kind.cost + Amount::from(length_dm) * per_dm;
                    let words = StepWords::FurtherBox {
                        name: &name,
                        model: &kind.name,
                        trunk: &trunk.name,
                        then: &way.words,
                    };
                    way.words = words.both();
                    let keys =
                        [Some(format!("model = {}", quoted(&kind.name))), place_key(instance.survey, place)];
                    way.set(&["distributors", &name], format!("{{ {} }}", joined(keys)));
                    way.set(&["runs", &trunk.name, "to"], list(&trunk.names(instance, &changed)));
                    way.lengths(&trunk.name, &trunk.lengths_m);
                    ways.push((changed, way));
                }
            }
        }
    }
}

/// Adds the item itself: its entry in the file and its stations' cost.
fn define(instance: &Instance<'_>, item: &Item, way: &mut Way) {
    let survey = instance.survey;
    let main = &item.models[0];
    match item.owner {
        Owner::Dwelling(index) => {
            let dwelling = &survey.dwellings[index];
            let keys = [
                place_key(survey, dwelling.place),
                Some(format!("station = {}", quoted(main))),
                (item.models.len() > 1).then(|| format!("extensions = {}", array(&item.models[1..]))),
                dwelling.label.as_ref().map(|label| format!("label = {}", quoted(label))),
            ];
            way.set(&["dwellings", &item.name], format!("{{ {} }}", joined(keys)));
        }
        Owner::Entrance(index) => {
            let keys = entrance_keys(survey, &survey.entrances[index], main);
            way.set(&["entrances", &item.name], format!("{{ {} }}", keys.join(", ")));
        }
        Owner::Desk(index) => {
            let desk = &survey.desks[index];
            let keys = [
                Some(format!("model = {}", quoted(main))),
                place_key(survey, desk.place),
                (!desk.calls.is_empty()).then(|| format!("calls = {}", array(&desk.calls))),
            ];
            way.set(&["management", &item.name], format!("{{ {} }}", joined(keys)));
        }
    }
    way.cost += item.models.iter().map(|model| price(instance, model)).sum::<Amount>();
}
