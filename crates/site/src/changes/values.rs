//! The values of the keys of a site that no list of models, places, runs or numbers tells, and where two sites differ in them.

use super::keys::{Bearing, bearing_of};
use crate::catalogue::Gauge;
use crate::model::{
    AlarmInput, Building, Entrance, EntranceRole, LightFeed, LightUse, LitWhen, LockFeed, LockPart, LockUse,
    RelayContact, Run, Scope, Site,
};
use latchline_finding::quantity::{Length, Resistance, Temperature, Voltage};
use latchline_finding::{ElementId, Sourced};
use latchline_words::reading::Thing;
use std::collections::{BTreeMap, BTreeSet};

/// The part of an element that has a key.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum KeyOwner {
    /// The element itself.
    Whole,
    /// A lock of an entrance, by index.
    Lock(usize),
    /// The cable to a part of such a lock.
    LockPart(usize, LockPart),
    /// A light of an entrance, by index.
    Light(usize),
    /// An alarm input of an entrance, by index.
    AlarmInput(usize),
    /// What was measured of a run.
    Measured,
    /// An accepted finding: code and element.
    Acceptance(String),
    /// A revision of the plan, by its mark.
    Revision(String),
}

/// The value of a key.
#[derive(Debug, Clone, PartialEq)]
pub enum KeyValue {
    /// A number with its unit; none for a count.
    Amount(f64, &'static str),
    /// Yes or no.
    Yes(bool),
    /// A word or name as the file has it.
    Word(String),
    /// Names of which some come and some go.
    Names(BTreeSet<String>),
}

/// A key in which two sites differ.
#[derive(Debug, Clone, PartialEq)]
pub struct KeyChange {
    /// The element; `None` for the site, its conditions, its policy and what it accepts.
    pub element: Option<ElementId>,
    /// Whose key it is.
    pub owner: KeyOwner,
    /// Table of the site file.
    pub table: Thing,
    /// The key.
    pub key: &'static str,
    /// What a difference in it is.
    pub bearing: Bearing,
    /// Before; `None` where nothing was stated.
    pub old: Option<KeyValue>,
    /// After.
    pub new: Option<KeyValue>,
}

/// Where a value stands: the element or nothing, whose key, the table, the key.
type Slot = (Option<ElementId>, KeyOwner, Thing, &'static str);

#[derive(Default)]
struct Values {
    /// Each value, and whether it is the one that leaving the key out says.
    all: BTreeMap<Slot, (KeyValue, bool)>,
    owners: BTreeSet<(Option<ElementId>, KeyOwner)>,
    at: Option<(Option<ElementId>, KeyOwner, Thing)>,
}

impl Values {
    fn begin(&mut self, element: Option<&ElementId>, owner: KeyOwner, table: Thing) {
        self.owners.insert((element.cloned(), owner.clone()));
        self.at = Some((element.cloned(), owner, table));
    }

    fn put(&mut self, key: &'static str, value: KeyValue, is_usual: bool) {
        if let Some((element, owner, table)) = self.at.clone() {
            self.all.insert((element, owner, table, key), (value, is_usual));
        }
    }

    /// A key with a usual value.
    fn or(&mut self, key: &'static str, value: KeyValue, usual: KeyValue) {
        let is_usual = value == usual;
        self.put(key, value, is_usual);
    }

    /// A key that may be left out.
    fn may(&mut self, key: &'static str, value: Option<KeyValue>) {
        if let Some(value) = value {
            self.put(key, value, false);
        }
    }

    fn yes(&mut self, key: &'static str, value: bool) {
        self.or(key, KeyValue::Yes(value), KeyValue::Yes(false));
    }

    /// A cable without a length, or a length without a cable, is in no list of cables.
    fn half_a_cable(&mut self, cable: Option<&Sourced<String>>, length: Option<&Sourced<Length>>) {
        if cable.is_some() != length.is_some() {
            self.may("cable", cable.map(|cable| word(&cable.value)));
            self.may("length", length.map(|length| metres(length.value)));
        }
    }
}

fn word(text: &str) -> KeyValue {
    KeyValue::Word(text.to_string())
}

fn count(value: u32) -> KeyValue {
    KeyValue::Amount(f64::from(value), "")
}

fn metres(length: Length) -> KeyValue {
    KeyValue::Amount(length.as_metres(), "m")
}

fn volts(voltage: Voltage) -> KeyValue {
    KeyValue::Amount(voltage.as_volts(), "V")
}

fn ohms(resistance: Resistance) -> KeyValue {
    KeyValue::Amount(resistance.as_ohms(), "ohm")
}

fn gauge(gauge: Gauge) -> KeyValue {
    KeyValue::Word(gauge.written())
}

fn celsius(temperature: Temperature) -> KeyValue {
    KeyValue::Amount(temperature.as_celsius(), "°C")
}

fn percent(fraction: f64) -> KeyValue {
    // So that 5 % is 5 and not what a binary fraction makes of it.
    KeyValue::Amount((fraction * 1e8).round() / 1e6, "%")
}

fn stated<T: Copy>(value: Option<&Sourced<T>>, of: impl Fn(T) -> KeyValue) -> Option<KeyValue> {
    value.map(|stated| of(stated.value))
}

/// The values of a site.
fn values(site: &Site) -> Values {
    let mut all = Values::default();
    head(site, &mut all);
    for building in &site.buildings {
        of_building(building, &mut all);
    }
    for supply in &site.supplies {
        all.begin(Some(&supply.id), KeyOwner::Whole, Thing::Supply);
        all.or("batteries", count(supply.batteries.value), count(1));
        all.may("set_voltage", stated(supply.set_voltage.as_ref(), volts));
        all.may("ambient", stated(supply.ambient.as_ref(), celsius));
        all.may("coldest_ambient", stated(supply.coldest_ambient.as_ref(), celsius));
    }
    for entrance in &site.entrances {
        of_entrance(site, entrance, &mut all);
    }
    for management in &site.management {
        all.begin(Some(&management.id), KeyOwner::Whole, Thing::ManagementStation);
        scope(site, "calls", &management.calls, &mut all);
    }
    for dwelling in &site.dwellings {
        all.begin(Some(&dwelling.id), KeyOwner::Whole, Thing::Dwelling);
        all.may("label", dwelling.label.as_deref().map(word));
    }
    for run in &site.runs {
        of_run(run, &mut all);
    }
    for accepted in &site.acceptances {
        let element = accepted.element.as_ref().map_or("", |element| &element.value);
        let name = format!("{} {element}", accepted.code.value).trim_end().to_string();
        all.begin(None, KeyOwner::Acceptance(name), Thing::Acceptance);
        all.put("reason", word(&accepted.reason), false);
        all.put("date", word(&accepted.date), false);
    }
    for revision in &site.revisions {
        all.begin(None, KeyOwner::Revision(revision.mark.value.clone()), Thing::Revision);
        all.put("date", word(&revision.date.value), false);
        all.put("change", word(&revision.change), false);
        all.may("by", revision.by.as_deref().map(word));
        all.may("checked_by", revision.checked_by.as_deref().map(word));
    }
    all
}

fn head(site: &Site, all: &mut Values) {
    all.begin(None, KeyOwner::Whole, Thing::Site);
    all.put("title", word(&site.title), false);
    all.put("family", word(&site.family.value), false);
    all.may("country", site.country.as_ref().map(|country| word(&country.value)));
    all.begin(None, KeyOwner::Whole, Thing::Condition);
    let conditions = &site.conditions;
    all.put("usual_temperature", celsius(conditions.usual_temperature.value), false);
    all.put("hottest_temperature", celsius(conditions.hottest_temperature.value), false);
    all.put("coldest_temperature", celsius(conditions.coldest_temperature.value), false);
    all.put("length_tolerance", percent(conditions.length_tolerance.value.as_fraction()), false);
    all.put("end_allowance", metres(conditions.end_allowance.value), false);
    all.put("joint_resistance", ohms(conditions.joint_resistance.value), false);
    all.begin(None, KeyOwner::Whole, Thing::Policy);
    let policy = &site.policy;
    let number = |value: f64| KeyValue::Amount(value, "");
    all.put("thin_margin", volts(policy.thin_margin.value), false);
    all.may("largest_silenced_group", stated(policy.largest_silenced_group.as_ref(), count));
    all.put("chains_through_dwellings", KeyValue::Yes(policy.chains_through_dwellings.value), false);
    all.may("spare_ports", stated(policy.spare_ports.as_ref(), count));
    all.may("releases_at_once", stated(policy.releases_at_once.as_ref(), count));
    all.may("standby_hours", stated(policy.standby_hours.as_ref(), |hours| KeyValue::Amount(hours, "h")));
    all.may("calls_per_hour", stated(policy.calls_per_hour.as_ref(), number));
    all.may(
        "call_duration",
        stated(policy.call_duration.as_ref(), |time| KeyValue::Amount(time.as_seconds(), "s")),
    );
}

fn of_building(building: &Building, all: &mut Values) {
    all.begin(Some(&building.id), KeyOwner::Whole, Thing::Building);
    let list = |names: &[Sourced<String>]| {
        // A building without cores has one without a name.
        let names: Vec<&str> =
            names.iter().map(|name| name.value.as_str()).filter(|name| !name.is_empty()).collect();
        (!names.is_empty()).then(|| word(&names.join(", ")))
    };
    all.or("title", word(&building.title), word(building.id.as_str()));
    all.may("floors", list(&building.floors));
    all.may("cores", list(&building.cores));
    all.or("floor_height", metres(building.floor_height.value), KeyValue::Amount(2.8, "m"));
}

/// Whom it calls or tells. That it reaches everybody needs no word where it is new.
fn scope(site: &Site, key: &'static str, scope: &Scope, all: &mut Values) {
    let dwellings = scope.dwellings.iter().map(|index| site.dwellings[*index].id.to_string());
    let management = scope.management.iter().map(|index| site.management[*index].id.to_string());
    let is_everyone = scope.dwellings.len() == site.dwellings.len();
    let is_usual = if key == "calls" { is_everyone } else { scope == &Scope::default() };
    all.put(key, KeyValue::Names(dwellings.chain(management).collect()), is_usual);
}

fn of_entrance(site: &Site, entrance: &Entrance, all: &mut Values) {
    let id = Some(&entrance.id);
    all.begin(id, KeyOwner::Whole, Thing::Entrance);
    all.or("role", word(entrance.role.value.word()), word(EntranceRole::Secondary.word()));
    all.yes("outdoors", entrance.place.outdoors);
    scope(site, "calls", &entrance.calls, all);
    let modules: Vec<&str> = entrance.accessories.iter().map(|name| name.value.as_str()).collect();
    all.may("accessories", (!modules.is_empty()).then(|| word(&modules.join(", "))));
    all.may("escape_route", stated(entrance.escape_route.as_ref(), KeyValue::Yes));
    all.may("escape_decided_by", entrance.escape_decided_by.as_ref().map(|who| word(&who.value)));
    all.may("escape_decided_on", entrance.escape_decided_on.as_deref().map(word));
    all.yes("fire_interlock", entrance.fire_interlock.value);
    let text = |stated: &Option<Sourced<String>>| stated.as_ref().map(|stated| word(&stated.value));
    all.may("fire_alarm_owner", text(&entrance.fire_alarm_owner));
    all.may("fire_alarm_terminals", text(&entrance.fire_alarm_terminals));
    all.may("control_height", stated(entrance.control_height.as_ref(), metres));
    all.yes("heater", entrance.heater.value);
    all.may("surge_protection", stated(entrance.surge_protection.as_ref(), ohms));
    all.may("surge_earth", stated(entrance.surge_earth.as_ref(), gauge));
    for (index, lock) in entrance.locks.iter().enumerate() {
        of_lock(&entrance.id, index, lock, all);
    }
    for (index, light) in entrance.lights.iter().enumerate() {
        of_light(&entrance.id, index, light, all);
    }
    for (index, input) in entrance.alarm_inputs.iter().enumerate() {
        of_input(site, &entrance.id, index, input, all);
    }
}

fn of_lock(entrance: &ElementId, index: usize, lock: &LockUse, all: &mut Values) {
    all.begin(Some(entrance), KeyOwner::Lock(index), Thing::Lock);
    let seconds = |time: latchline_finding::quantity::Duration| KeyValue::Amount(time.as_seconds(), "s");
    all.put("model", word(&lock.model.value), false);
    all.or("feed", word(lock.feed.value.word()), word(LockFeed::Station.word()));
    all.may("supply_voltage", stated(lock.supply_voltage.as_ref(), volts));
    if lock.supply_voltage.is_some() {
        all.put("supply_tolerance", percent(lock.supply_tolerance.value.as_fraction()), false);
    }
    all.yes("supply_ac", lock.supply_ac.value);
    all.half_a_cable(lock.cable.as_ref(), lock.length.as_ref());
    all.or("joints", count(lock.joints.value), count(2));
    all.or("contact", word(lock.contact.value.word()), word(RelayContact::NormallyOpen.word()));
    all.may(
        "relay_between",
        stated(lock.relay_between.as_ref(), |current| KeyValue::Amount(current.as_amps(), "A")),
    );
    all.or("hold_time", seconds(lock.hold_time.value), KeyValue::Amount(5.0, "s"));
    all.may("suppression", stated(lock.suppression.as_ref(), |kind| word(kind.word())));
    all.may("relay_on_secure_side", stated(lock.relay_on_secure_side.as_ref(), KeyValue::Yes));
    all.yes("exit_button", lock.exit_button.value);
    all.may("mechanical_escape", stated(lock.mechanical_escape.as_ref(), KeyValue::Yes));
    all.may("emergency_release", stated(lock.emergency_release.as_ref(), KeyValue::Yes));
    all.may("delayed_egress", stated(lock.delayed_egress.as_ref(), seconds));
    all.yes("door_contact", lock.door_contact.value);
    all.may("suppression_voltage", stated(lock.suppression_voltage.as_ref(), volts));
    let text = |stated: &Option<Sourced<String>>| stated.as_ref().map(|stated| word(&stated.value));
    all.may("owner", text(&lock.owner));
    all.may("owner_terminals", text(&lock.owner_terminals));
    all.may("contact_voltage", stated(lock.contact_voltage.as_ref(), volts));
    all.may(
        "contact_current",
        stated(lock.contact_current.as_ref(), |current| KeyValue::Amount(current.as_amps(), "A")),
    );
    for cable in &lock.cables {
        all.begin(Some(entrance), KeyOwner::LockPart(index, cable.to.value), Thing::CableAtLock);
        all.or("joints", count(cable.joints.value), count(2));
    }
}

fn of_light(entrance: &ElementId, index: usize, light: &LightUse, all: &mut Values) {
    all.begin(Some(entrance), KeyOwner::Light(index), Thing::LightAtDoor);
    all.put("model", word(&light.model.value), false);
    all.or("feed", word(light.feed.value.word()), word(LightFeed::Station.word()));
    all.or("lit", word(light.lit.value.word()), word(LitWhen::Night.word()));
    all.half_a_cable(light.cable.as_ref(), light.length.as_ref());
}

fn of_input(site: &Site, entrance: &ElementId, index: usize, input: &AlarmInput, all: &mut Values) {
    all.begin(Some(entrance), KeyOwner::AlarmInput(index), Thing::AlarmInput);
    all.put("kind", word(input.kind.value.word()), false);
    all.or("contact", word(input.contact.value.word()), word(RelayContact::NormallyClosed.word()));
    all.yes("end_of_line_resistor", input.end_of_line_resistor.value);
    all.half_a_cable(input.cable.as_ref(), input.length.as_ref());
    all.or("joints", count(input.joints.value), count(2));
    scope(site, "tells", &input.tells, all);
}

fn of_run(run: &Run, all: &mut Values) {
    all.begin(Some(&run.id), KeyOwner::Whole, Thing::Run);
    all.or("joints", count(run.joints.value), count(0));
    all.may("terminator", stated(run.terminator.as_ref(), KeyValue::Yes));
    all.or("terminator_capacitor", KeyValue::Yes(run.terminator_capacitor.value), KeyValue::Yes(true));
    all.or("environment", word(run.environment.value.word()), word("indoors"));
    all.yes("beside_mains", run.beside_mains.value);
    all.yes("existing", run.existing.value);
    all.may("surge_protection", stated(run.surge_protection.as_ref(), ohms));
    all.may("surge_protection_at", stated(run.surge_protection_at.as_ref(), |at| word(at.word())));
    all.may("surge_earth", stated(run.surge_earth.as_ref(), gauge));
    all.begin(Some(&run.id), KeyOwner::Measured, Thing::Measurement);
    let measured = &run.measured;
    all.may("loop", stated(measured.loop_resistance.as_ref(), ohms));
    all.may(
        "capacitance",
        stated(measured.capacitance.as_ref(), |all| {
            KeyValue::Amount((all.as_farads() * 1e15).round() / 1e6, "nF")
        }),
    );
    all.may("insulation", stated(measured.insulation.as_ref(), ohms));
}

/// Keys by which it is told that a part of an element came or went.
const LEADING: [&str; 3] = ["model", "kind", "reason"];

/// Where two sites differ in such keys, in the order of the elements' names.
pub(super) fn key_changes(before: &Site, after: &Site) -> Vec<KeyChange> {
    let (old, new) = (values(before), values(after));
    let slots: BTreeSet<&Slot> = old.all.keys().chain(new.all.keys()).collect();
    slots.into_iter().filter_map(|slot| key_change(slot, &old, &new)).collect()
}

fn key_change(slot: &Slot, old: &Values, new: &Values) -> Option<KeyChange> {
    let (element, owner, table, key) = slot;
    let is_in = |values: &Values| values.owners.contains(&(element.clone(), owner.clone()));
    let has_element = |values: &Values| values.owners.contains(&(element.clone(), KeyOwner::Whole));
    let (was, is) = (old.all.get(slot), new.all.get(slot));
    // What is gone is told as gone, by what leads to it.
    if !(is_in(new) || has_element(new) && LEADING.contains(key)) {
        return None;
    }
    // What is new says what is not as usual.
    if !is_in(old) && is.is_none_or(|(_, is_usual)| *is_usual) {
        return None;
    }
    let (mut was, mut is) = (was.map(|(value, _)| value.clone()), is.map(|(value, _)| value.clone()));
    if let (Some(KeyValue::Names(was)), Some(KeyValue::Names(is))) = (&mut was, &mut is) {
        // Who is new or gone is told as that.
        let in_both = |name: &String| {
            let id = Some(ElementId::from(name.clone()));
            let known = |values: &Values| values.owners.contains(&(id.clone(), KeyOwner::Whole));
            known(old) && known(new)
        };
        was.retain(in_both);
        is.retain(in_both);
    }
    // A terminator that comes or goes is told with its run.
    let is_set = |value: &Option<KeyValue>| *value == Some(KeyValue::Yes(true));
    let is_told = *key == "terminator" && *table == Thing::Run && (is_set(&was) || is_set(&is));
    if was == is || is_told {
        return None;
    }
    Some(KeyChange {
        element: element.clone(),
        owner: owner.clone(),
        table: *table,
        key,
        bearing: bearing_of(*table, key).unwrap_or(Bearing::Known),
        old: was,
        new: is,
    })
}
