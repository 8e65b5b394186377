//! Where there is no design: what would make one, each way tried and priced.

use crate::design::design;
use crate::effort::Effort;
use crate::outcome::{Design, Texts};
use latchline_finding::{Both, Figure, Language, Money, Unit};
use latchline_survey::model::Wiring;
use latchline_survey::{Decision, Survey};
use latchline_words::design::{LimitWords, WayOutWords};
use std::collections::BTreeSet;

/// Plans that are assessed for each way, at most: it must take seconds, not minutes.
const MOST_PLANS: usize = 8;

/// Locked decisions that are tried to be without, each in turn, at most.
const MOST_UNLOCKED: usize = 8;

/// A way out that was tried.
#[derive(Debug, Clone, PartialEq)]
pub struct WayOut {
    /// What is done.
    pub what: Both,
    /// What the site then costs; `None`: there is no design that way either, as far as was tried.
    pub cost: Option<Money>,
}

/// What would make a design of one family, cheapest first; then what was tried in vain.
pub fn ways_out(survey: &Survey, family: &str, texts: Texts<'_>) -> Vec<WayOut> {
    let mut tried = Vec::new();
    let mut attempt = |changed: &Survey, family: &str, what: &dyn Fn(Option<&Design>) -> Both| {
        let effort = Effort {
            orders: 1,
            most_orders: 1,
            most_plans: MOST_PLANS,
            takes_first: false,
            prices_limits: false,
            seed: 0,
        };
        let made = design(changed, family, texts, effort, &mut |_, _, _| false).ok();
        tried.push(WayOut { what: what(made.as_ref()), cost: made.map(|made| made.cost) });
    };
    for (what, changed) in loosened(survey) {
        attempt(&changed, family, &|_| what.clone());
    }
    if !survey.existing.is_empty() {
        let changed = Survey { existing: Vec::new(), ..survey.clone() };
        attempt(&changed, family, &|_| WayOutWords::NewCable.both());
    }
    let without_mains: Vec<usize> =
        (0..survey.places.len()).filter(|at| survey.places[*at].boxes && !survey.places[*at].mains).collect();
    if !without_mains.is_empty() {
        let mut changed = survey.clone();
        without_mains.iter().for_each(|at| changed.places[*at].mains = true);
        attempt(&changed, family, &|made| {
            let used: BTreeSet<usize> = made.map_or_else(BTreeSet::new, |made| {
                made.supply_places.iter().copied().filter(|at| without_mains.contains(at)).collect()
            });
            let names: Vec<&str> = used.iter().map(|at| survey.places[*at].name.value.as_str()).collect();
            match names.is_empty() {
                true => WayOutWords::MainsAnywhere.both(),
                false => WayOutWords::Mains { places: &names.join(", ") }.both(),
            }
        });
    }
    if let Some((changed, left)) = apart(survey) {
        let left = left.join(", ");
        let left = Some(left.as_str()).filter(|left| !left.is_empty());
        attempt(&changed, family, &|_| WayOutWords::OwnBuses { left }.both());
    }
    let others = texts.catalogues.catalogue().families.keys().filter(|other| *other != family);
    for other in others {
        let mut changed = survey.clone();
        // Wanted models are of the other family: the cheapest of their kind takes their place.
        changed.settings.cables.clear();
        attempt(&changed, other, &|_| WayOutWords::Family { family: other }.both());
    }
    tried.sort_by_key(|way| (way.cost.is_none(), way.cost));
    tried
}

/// The survey without one of its limits, each in turn.
fn loosened(survey: &Survey) -> Vec<(Both, Survey)> {
    let mut list = Vec::new();
    let without = |limit: Both| {
        let say = |language| WayOutWords::Without { limit: &limit }.say(language);
        Both::new(say(Language::English), say(Language::German))
    };
    let settings = &survey.settings;
    if let Some(group) = &settings.largest_group {
        let mut changed = survey.clone();
        changed.settings.largest_group = None;
        list.push((without(LimitWords::Dwellings { dwellings: group.value as usize }.both()), changed));
    }
    if let Some(spare) = settings.spare_ports.as_ref().filter(|spare| spare.value > 0) {
        let mut changed = survey.clone();
        changed.settings.spare_ports = None;
        list.push((without(LimitWords::SparePorts { ports: spare.value as usize }.both()), changed));
    }
    if let Some(margin) = &settings.least_margin_v {
        let mut changed = survey.clone();
        changed.settings.least_margin_v = None;
        list.push((
            without(LimitWords::Margin { volts: Figure::new(margin.value, Unit::Volt) }.both()),
            changed,
        ));
    }
    if settings.no_warnings.as_ref().is_some_and(|strict| strict.value) {
        let mut changed = survey.clone();
        changed.settings.no_warnings = None;
        list.push((WayOutWords::Warnings.both(), changed));
    }
    if settings.one_cable_type.as_ref().is_some_and(|one| one.value) {
        let mut changed = survey.clone();
        changed.settings.one_cable_type = None;
        list.push((WayOutWords::AnyCableTypes.both(), changed));
    }
    if settings.boxes_in_dwellings.as_ref().is_some_and(|may| !may.value) {
        let mut changed = survey.clone();
        changed.settings.boxes_in_dwellings = None;
        list.push((WayOutWords::BoxesInDwellings.both(), changed));
    }
    for (number, locked) in survey.locked.iter().enumerate().take(MOST_UNLOCKED) {
        let mut changed = survey.clone();
        changed.locked.remove(number);
        if let Decision::Route { from, to } = locked.decision {
            changed.routes.unlock(from, to);
        }
        list.push((WayOutWords::Unlocked { decision: &locked.written.value }.both(), changed));
    }
    if settings.standby_hours.is_some() {
        let mut changed = survey.clone();
        changed.settings.standby_hours = None;
        list.push((WayOutWords::NoBattery.both(), changed));
    }
    if !settings.cables.is_empty() {
        let mut changed = survey.clone();
        changed.settings.cables.clear();
        list.push((WayOutWords::AnyCable.both(), changed));
    }
    if settings.wiring.value != Wiring::Chains {
        let mut changed = survey.clone();
        changed.settings.wiring.value = Wiring::Chains;
        list.push((WayOutWords::Chains.both(), changed));
    }
    list
}

/// Every door calls its own building alone, and what stands in no building is left out; with the names of what is left out. `None` where
/// that changes nothing, or a building has no door.
fn apart(survey: &Survey) -> Option<(Survey, Vec<String>)> {
    let building = |place: usize| survey.places[place].building;
    let lived_in: BTreeSet<usize> =
        survey.dwellings.iter().filter_map(|dwelling| building(dwelling.place)).collect();
    let doors: BTreeSet<usize> =
        survey.entrances.iter().filter_map(|entrance| building(entrance.place)).collect();
    let outside = survey.dwellings.iter().any(|dwelling| building(dwelling.place).is_none());
    if lived_in.len() < 2 || outside || !lived_in.is_subset(&doors) {
        return None;
    }
    let mut changed = survey.clone();
    let mut left: Vec<String> = changed.desks.drain(..).map(|desk| desk.name.value).collect();
    changed.entrances.retain_mut(|entrance| match building(entrance.place) {
        Some(at) => {
            entrance.calls = vec![survey.buildings[at].name.value.clone()];
            true
        }
        None => {
            left.push(entrance.name.value.clone());
            false
        }
    });
    Some((changed, left))
}
