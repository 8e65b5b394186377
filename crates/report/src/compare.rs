//! Two versions of a site: what to buy, pull, move and set again, and what got better and worse.

mod document;

pub use document::{CompareDocument, document, schema};

use crate::job_change::named;
use crate::paint::Look;
use crate::table::{hanging, paragraph};
use crate::template::plain;
use crate::{figures, wording};
use latchline_assess::comparison::{Comparison, FigureChange, StateOfOne};
use latchline_assess::door::words::part as part_word;
use latchline_finding::{ElementId, Figure, Finding, Language, Money, Unit};
use latchline_site::addresses::SwitchSetting;
use latchline_site::bill::BillKind;
use latchline_site::cables::DoorCable;
use latchline_site::changes::{
    Bearing, CableAtDoor, Changes, KeyChange, KeyOwner, KeyValue, OtherCableAtDoor, OtherRun, QuantityChange,
    RunWork, Swap,
};
use latchline_words::codes;
use latchline_words::commands::{CompareHead, CompareKey, CompareWords};
use latchline_words::reading::Thing;
use latchline_words::report::severity;
use latchline_words::states;
use latchline_words::terms::Term;

/// Figures of one kind that are shown; the rest is counted.
const MOST_FIGURES: usize = 5;
/// Findings of one block that are shown.
const MOST_FINDINGS: usize = 12;

/// What the comparison is of.
#[derive(Debug, Clone, Copy)]
pub struct Compared<'a> {
    /// The verdict before, in words.
    pub old: &'a str,
    /// The verdict after, in words.
    pub new: &'a str,
    /// What is different on site.
    pub changes: &'a Changes,
    /// What got better and worse.
    pub comparison: &'a Comparison,
    /// Parts that both catalogues have and of which they do not say the same.
    pub parts: &'a [String],
    /// Currency of the catalogue.
    pub currency: &'a str,
}

/// For a person.
pub fn text(compared: &Compared<'_>, look: &Look) -> String {
    let language = look.language;
    let Compared { old, new, changes, comparison, currency, .. } = *compared;
    let mut text = paragraph(&CompareWords::Verdicts { old, new }.say(language), 0, look.width);
    if changes.is_empty() {
        text.push_str(&paragraph(&CompareWords::Same.say(language), 0, look.width));
    } else {
        text.push_str(&paragraph(&cost(changes, currency, language), 0, look.width));
    }
    for one in &comparison.states_of_one {
        text.push_str(&paragraph(&state_of_one(one, language), 0, look.width));
    }
    let mut block = |head: CompareHead, lines: Vec<String>| {
        if !lines.is_empty() {
            text.push_str(&format!("\n{}\n", look.bold(head.say(language))));
            text.extend(lines.iter().map(|line| hanging("  ", line, look.width)));
        }
    };
    block(CompareHead::Buy, changes.quantities.iter().map(|one| quantity(one, language)).collect());
    let (pull, moved): (Vec<&OtherRun>, Vec<&OtherRun>) = changes.runs.iter().partition(|one| is_pulled(one));
    let (known, moved): (Vec<&OtherRun>, Vec<&OtherRun>) = moved.into_iter().partition(|one| is_known(one));
    let (pull_at_doors, at_doors): (Vec<&OtherCableAtDoor>, Vec<&OtherCableAtDoor>) =
        changes.at_doors.iter().partition(|one| one.pulled > 0);
    let pull_at_doors = pull_at_doors.into_iter().map(|one| at_door(one, language));
    block(CompareHead::Cables, pull.iter().map(|one| run(one, language)).chain(pull_at_doors).collect());
    let (come, other): (Vec<&Swap>, Vec<&Swap>) = changes.models.iter().partition(|one| one.old.is_none());
    let new = come.iter().map(|one| {
        let place = changes.places.iter().find(|place| place.element == one.element && place.old.is_none());
        let place = place.map(|place| text_of(&place.new));
        let (element, model) = (&name(&one.element), &text_of(&one.new));
        CompareWords::New { element, model, place: place.as_deref() }.say(language)
    });
    block(CompareHead::New, new.collect());
    // One change of model at many stations is one line.
    let mut alike: Vec<(&Swap, Vec<ElementId>)> = Vec::new();
    for one in other {
        match alike.iter_mut().find(|(first, _)| (&first.old, &first.new) == (&one.old, &one.new)) {
            Some((_, elements)) => elements.push(one.element.clone()),
            None => alike.push((one, vec![one.element.clone()])),
        }
    }
    let elements = alike.iter().map(|(one, elements)| model(one, elements, language));
    let places = changes.places.iter().filter(|one| one.old.is_some()).map(|one| {
        let (old, new) = (&text_of(&one.old), &text_of(&one.new));
        CompareWords::OtherPlace { element: &name(&one.element), old, new }.say(language)
    });
    block(
        CompareHead::Move,
        elements
            .chain(places)
            .chain(moved.iter().map(|one| run(one, language)))
            .chain(at_doors.into_iter().map(|one| at_door(one, language)))
            .collect(),
    );
    let set = changes.set.iter().map(|one| {
        let (old, new) = (&positions(&one.old, language), &positions(&one.new, language));
        CompareWords::OtherNumber { element: &name(&one.station), old, new }.say(language)
    });
    let keys = |bearing: Bearing| -> Vec<String> {
        changes.keys.iter().filter(|one| one.bearing == bearing).map(|one| key(one, language)).collect()
    };
    block(CompareHead::Fit, keys(Bearing::Fit));
    block(CompareHead::Set, set.chain(keys(Bearing::Set)).collect());
    block(CompareHead::Label, keys(Bearing::Label));
    let parts = compared.parts.iter().map(|part| {
        let part = &plain(part);
        CompareWords::OtherPart { part }.say(language)
    });
    let hours = comparison.leaves_out_hours.then(|| CompareWords::HoursNotCompared.say(language));
    let lengths = known.into_iter().map(|one| run(one, language));
    block(
        CompareHead::Known,
        keys(Bearing::Known).into_iter().chain(lengths).chain(parts).chain(hours).collect(),
    );
    block(CompareHead::Better, better_or_worse(comparison, true, language));
    block(CompareHead::Worse, better_or_worse(comparison, false, language));
    text
}

fn cost(changes: &Changes, currency: &str, language: Language) -> String {
    let money = changes.material.rounded();
    let amount = &format!("{} {currency}", figures::cost(money, language));
    let amount = amount.trim_end();
    let material = match money {
        Money::ZERO => CompareWords::CostSame.say(language),
        money if money > Money::ZERO => CompareWords::CostMore { amount }.say(language),
        _ => CompareWords::CostLess { amount }.say(language),
    };
    let material = match (&changes.currencies, changes.unpriced) {
        (Some([old, new]), _) => {
            CompareWords::CostUnknown { old: &plain(old), new: &plain(new) }.say(language)
        }
        (None, 0) => material,
        (None, parts) => format!("{material} ({})", CompareWords::Unpriced { parts }.say(language)),
    };
    let labour = wording::minutes_of_work(changes.minutes, language);
    let labour = labour.unwrap_or_else(|| CompareWords::NoWork.say(language));
    let enters = crate::job_change::entered(&changes.enters, language);
    CompareWords::Cost { cost: &material, labour: &labour, enters: &enters }.say(language)
}

fn name(element: &ElementId) -> String {
    plain(element.as_str())
}

fn names(elements: &[ElementId]) -> String {
    elements.iter().map(name).collect::<Vec<_>>().join(", ")
}

fn text_of(text: &Option<String>) -> String {
    text.as_deref().map(plain).unwrap_or_default()
}

fn signed(value: f64, decimals: usize, language: Language) -> String {
    let sign = if value > 0.0 { "+" } else { "−" };
    format!("{sign}{}", figures::decimals(figures::trimmed(value.abs(), decimals), language))
}

fn quantity(change: &QuantityChange, language: Language) -> String {
    let cost = change.cost.map(|cost| {
        let sign = if change.quantity > 0.0 { "+" } else { "−" };
        format!("{sign}{}", figures::cost(cost, language))
    });
    let (name, cost) = (&plain(&change.name), cost.as_deref());
    match change.kind {
        BillKind::Cable => {
            CompareWords::Metres { quantity: &signed(change.quantity, 1, language), name, cost }.say(language)
        }
        // What is in no catalogue has no name but what it is.
        BillKind::Small => {
            let name = change.title.of(language);
            CompareWords::Line { quantity: &signed(change.quantity, 0, language), name, cost }.say(language)
        }
        _ => CompareWords::Line { quantity: &signed(change.quantity, 0, language), name, cost }.say(language),
    }
}

/// Whether a cable is pulled for it.
fn is_pulled(one: &OtherRun) -> bool {
    match &one.work {
        RunWork::New { length_m: wanted_m, there_m, .. }
        | RunWork::Extended { more_m: wanted_m, there_m, .. } => is_some_metres(wanted_m - there_m),
        RunWork::Cable { .. } | RunWork::Beside { .. } => true,
        RunWork::Length { is_there, .. } => !is_there,
        _ => false,
    }
}

/// Whether it is only known better than before.
fn is_known(one: &OtherRun) -> bool {
    matches!(one.work, RunWork::Length { is_there: true, .. })
}

/// Whether a length is told: less than a decimetre is not.
fn is_some_metres(length_m: f64) -> bool {
    length_m >= 0.05
}

fn run(one: &OtherRun, language: Language) -> String {
    let run = &name(&one.run);
    let metres = |length_m: f64| figures::decimals(figures::trimmed(length_m, 1), language);
    let there = |there_m: &f64| is_some_metres(*there_m).then(|| metres(*there_m));
    match &one.work {
        RunWork::New { cable, length_m, from, to, there_m } => CompareWords::NewRun {
            run,
            cable: &plain(cable),
            length: &metres(*length_m),
            from: &name(from),
            to: &names(to),
            there: there(there_m).as_deref(),
        }
        .say(language),
        RunWork::Gone => CompareWords::RunGone { run }.say(language),
        RunWork::Cable { old, new, length_m } => {
            CompareWords::OtherCable { run, old: &plain(old), new: &plain(new), length: &metres(*length_m) }
                .say(language)
        }
        RunWork::InPlace { old, new } => {
            CompareWords::InPlace { run, old: &plain(old), new: &plain(new) }.say(language)
        }
        RunWork::Beside { cable, cables, length_m } => CompareWords::Beside {
            run,
            cable: &plain(cable),
            cables: *cables as usize,
            length: &metres(*length_m),
        }
        .say(language),
        RunWork::Extended { cable, more_m, after, to, there_m } => CompareWords::Extended {
            run,
            cable: &plain(cable),
            more: &metres(*more_m),
            after: &name(after),
            to: &names(to),
            there: there(there_m).as_deref(),
        }
        .say(language),
        RunWork::Shortened { cable, less_m, at, without } => CompareWords::Shortened {
            run,
            cable: &plain(cable),
            less: &metres(*less_m),
            at: &name(at),
            without: &names(without),
        }
        .say(language),
        RunWork::Sections { old_m, new_m } => {
            let list = |all: &[f64]| all.iter().map(|one| metres(*one)).collect::<Vec<_>>().join(" + ");
            CompareWords::Sections { run, old: &list(old_m), new: &list(new_m) }.say(language)
        }
        RunWork::Length { cable, old_m, new_m, is_there: _ } => CompareWords::OtherLength {
            run,
            cable: &plain(cable),
            old: &metres(*old_m),
            new: &metres(*new_m),
        }
        .say(language),
        RunWork::From { old, new } => {
            CompareWords::OtherPort { run, old: &name(old), new: &name(new) }.say(language)
        }
        RunWork::Stops { old, new } => {
            CompareWords::OtherStops { run, old: &names(old), new: &names(new) }.say(language)
        }
        RunWork::Pairs { old, new } => {
            CompareWords::OtherPairs { run, old: *old as usize, new: *new as usize }.say(language)
        }
        RunWork::Terminator { set: true } => CompareWords::TerminatorOn { run }.say(language),
        RunWork::Terminator { set: false } => CompareWords::TerminatorOff { run }.say(language),
    }
}

/// A cable at a door that comes, goes or is another one.
fn at_door(one: &OtherCableAtDoor, language: Language) -> String {
    let to = match one.to {
        DoorCable::Lock { lock, .. } => CompareWords::AtDoorLock { number: lock + 1 }.say(language),
        DoorCable::LockPart { lock, part, .. } => {
            let part = part_word(part).say(language);
            CompareWords::AtDoorPart { part, number: lock + 1 }.say(language)
        }
        DoorCable::Light { light, .. } => CompareWords::AtDoorLight { number: light + 1 }.say(language),
        DoorCable::AlarmContact { input, .. } => {
            CompareWords::AtDoorContact { number: input + 1 }.say(language)
        }
    };
    let (entrance, to) = (&name(&one.entrance), &to);
    let metres = |length_m: f64| figures::decimals(figures::trimmed(length_m, 1), language);
    let pairs = |laid: &CableAtDoor| (laid.pairs > 1).then(|| laid.pairs.to_string());
    let old = one.old.as_ref().map(|old| {
        let (length, cable, pairs) = (&metres(old.length_m), &plain(&old.cable), pairs(old));
        CompareWords::OldCableAtDoor { length, cable, pairs: pairs.as_deref() }.say(language)
    });
    let old = old.as_deref();
    match &one.new {
        Some(new) => {
            let (length, cable, pairs) = (&metres(new.length_m), &plain(&new.cable), pairs(new));
            CompareWords::CableAtDoor { entrance, to, length, cable, pairs: pairs.as_deref(), old }
                .say(language)
        }
        None => CompareWords::CableAtDoorGone { entrance, to, old: old.unwrap_or_default() }.say(language),
    }
}

fn model(one: &Swap, elements: &[ElementId], language: Language) -> String {
    let element = &named(elements, language);
    match (&one.old, &one.new) {
        (Some(old), Some(new)) => {
            CompareWords::OtherModel { element, old: &plain(old), new: &plain(new) }.say(language)
        }
        (None, Some(new)) => CompareWords::New { element, model: &plain(new), place: None }.say(language),
        (old, None) => CompareWords::Gone { element, model: &text_of(old) }.say(language),
    }
}

/// All switches of a station, in the words of `addresses`.
fn positions(fields: &[(String, SwitchSetting)], language: Language) -> String {
    crate::addresses::labelled(fields.iter().map(|(label, setting)| (label.as_str(), setting)), language)
}

/// Says a figure that differs: of which element, what it was, if it was any, and what it is.
type SayChange<'a> = dyn Fn(&FigureChange, &str, Option<&str>, &str) -> String + 'a;

/// The figures and findings that got better, or those that got worse.
fn better_or_worse(comparison: &Comparison, better: bool, language: Language) -> Vec<String> {
    let mut lines = Vec::new();
    let findings = if better { &comparison.gone } else { &comparison.come };
    let mut told: Vec<String> = findings.iter().map(|one| finding(one, better, language)).collect();
    let regraded = if better { &comparison.lesser } else { &comparison.graver };
    told.extend(regraded.iter().map(|(old, finding)| {
        CompareWords::FindingGraver {
            severity: severity(finding.severity, language),
            old: severity(*old, language),
            code: finding.code.as_str(),
            message: &codes::wording(finding, language).message,
        }
        .say(language)
    }));
    cut(&mut told, MOST_FINDINGS, language);
    lines.extend(told);
    let gaps = if better { &comparison.judged_now } else { &comparison.no_longer_judged };
    lines.extend(gaps.iter().map(|gap| {
        let missing = &wording::not_judged(gap, language);
        match better {
            true => CompareWords::GapGone { missing }.say(language),
            false => CompareWords::GapNew { missing }.say(language),
        }
    }));
    let chosen = |all: &[FigureChange], rounded: fn(f64, Language) -> String, say: &SayChange<'_>| {
        let shown = all.iter().filter(|one| one.better == better);
        let mut told: Vec<String> = shown
            .filter_map(|one| {
                let element = &name(&one.element);
                let (old, new) = match (one.old, one.new) {
                    (Some(old), Some(new)) => (rounded(old, language), rounded(new, language)),
                    // Without an operating point there is no figure, and a dash would look like one.
                    (None, Some(new)) => return Some(say(one, element, None, &rounded(new, language))),
                    (Some(_), None) => return Some(CompareWords::WorksNoMore { element }.say(language)),
                    (None, None) => return None,
                };
                // What is equal as it is shown is no difference to who reads it.
                let differs = old != new || one.is_bound[0] != one.is_bound[1];
                differs.then(|| say(one, element, Some(&old), &new))
            })
            .collect();
        cut(&mut told, MOST_FIGURES, language);
        told
    };
    lines.extend(chosen(&comparison.margins_v, volts, &|one, device, old, new| {
        let [old_bound, new_bound] =
            one.is_bound.map(|is_bound| is_bound.then(|| Term::AtLeast.both().of(language).to_string()));
        let (old_bound, new_bound) = (old_bound.as_deref(), new_bound.as_deref());
        match old {
            Some(old) => CompareWords::Tightest { device, old, new, old_bound, new_bound },
            None => CompareWords::TightestNow { device, new, new_bound },
        }
        .say(language)
    }));
    lines.extend(chosen(&comparison.currents_a, figures::amperes, &|_, supply, old, new| {
        match old {
            Some(old) => CompareWords::SupplyCurrent { supply, old, new },
            None => CompareWords::SupplyCurrentNow { supply, new },
        }
        .say(language)
    }));
    lines.extend(chosen(&comparison.lock_margins_v, volts, &|_, door, old, new| {
        let old = old.unwrap_or_default();
        CompareWords::LockMargin { door, old, new }.say(language)
    }));
    lines.extend(chosen(&comparison.battery_hours, figures::battery_hours, &|one, supply, old, new| {
        let old = old.unwrap_or_default();
        let words = match (one.old, one.new) {
            (_, Some(0.0)) => CompareWords::BatteryLost { supply, old },
            (Some(0.0), _) => CompareWords::BatteryCome { supply, new },
            _ => CompareWords::BatteryHours { supply, old, new },
        };
        words.say(language)
    }));
    lines
}

/// A state that only one of the two has, with the least margin there.
fn state_of_one(one: &StateOfOne, language: Language) -> String {
    let state = &*states::name(&one.state, language);
    let device = &*name(&one.device);
    let margin = &*one.margin_v.map_or_else(|| String::from("–"), |margin| volts(margin, language));
    match one.is_new {
        true => CompareWords::StateOfNew { state, device, margin },
        false => CompareWords::StateOfOld { state, device, margin },
    }
    .say(language)
}

/// A margin; with the minus sign of the page.
fn volts(value: f64, language: Language) -> String {
    figures::volts(value, language).replace('-', "−")
}

/// A key of the site file that differs.
fn key(change: &KeyChange, language: Language) -> String {
    let say = |words: CompareWords<'_>| words.say(language);
    let element = change.element.as_ref().map(name);
    let number =
        |words: CompareWords<'_>| Some(format!("{}, {}", element.clone().unwrap_or_default(), say(words)));
    let owner = match &change.owner {
        KeyOwner::Whole | KeyOwner::Measured => element.clone(),
        KeyOwner::Lock(lock) => number(CompareWords::AtDoorLock { number: lock + 1 }),
        KeyOwner::LockPart(lock, part) => {
            let part = part_word(*part).say(language);
            number(CompareWords::AtDoorPart { part, number: lock + 1 })
        }
        KeyOwner::Light(light) => number(CompareWords::AtDoorLight { number: light + 1 }),
        KeyOwner::AlarmInput(input) => number(CompareWords::AtDoorContact { number: input + 1 }),
        KeyOwner::Acceptance(finding) => Some(plain(&format!("accept {finding}"))),
        KeyOwner::Revision(mark) => Some(plain(&format!("revision {mark}"))),
    };
    let owner = owner.as_deref();
    let words = key_words(change.table, change.key);
    let key = &words.map_or_else(|| format!("`{}`", change.key), |words| words.say(language).to_string());
    if let (Some(KeyValue::Names(old)), Some(KeyValue::Names(new))) = (&change.old, &change.new) {
        let list = |names: Vec<&String>| {
            (!names.is_empty())
                .then(|| names.into_iter().map(|name| plain(name)).collect::<Vec<_>>().join(", "))
        };
        let (come, go) = (list(new.difference(old).collect()), list(old.difference(new).collect()));
        let owner = owner.unwrap_or_default();
        return say(CompareWords::OtherNames { owner, key, come: come.as_deref(), go: go.as_deref() });
    }
    let value = |value: &Option<KeyValue>| match value {
        None => say(CompareWords::NotStated),
        Some(KeyValue::Yes(true)) => say(CompareWords::Yes),
        Some(KeyValue::Yes(false)) => say(CompareWords::No),
        Some(KeyValue::Word(word)) if word.contains(' ') => format!("\"{}\"", plain(word)),
        Some(KeyValue::Word(word)) => plain(word),
        Some(KeyValue::Names(names)) => plain(&names.iter().cloned().collect::<Vec<_>>().join(", ")),
        Some(KeyValue::Amount(amount, unit)) => {
            let text = match *unit {
                "ohm" => latchline_words::figures::sentence(Figure::new(*amount, Unit::Ohm), language),
                unit => format!("{} {unit}", figures::decimals(figures::trimmed(*amount, 6), language)),
            };
            text.trim_end().replace('-', "−")
        }
    };
    let (old, new) = (&value(&change.old), &value(&change.new));
    say(CompareWords::OtherValue { owner, key, new, old })
}

/// A key that is work on site, in words; others go by their names in the file.
pub fn key_words(table: Thing, key: &str) -> Option<CompareKey> {
    Some(match (table, key) {
        (_, "set_voltage") => CompareKey::SetVoltage,
        (_, "batteries") => CompareKey::Batteries,
        (_, "role") => CompareKey::Role,
        (_, "calls") => CompareKey::Calls,
        (_, "accessories") => CompareKey::Accessories,
        (_, "fire_interlock") => CompareKey::FireInterlock,
        (_, "control_height") => CompareKey::ControlHeight,
        (_, "heater") => CompareKey::Heater,
        (_, "surge_protection") => CompareKey::SurgeProtection,
        (_, "surge_protection_at") => CompareKey::SurgeProtectionAt,
        (_, "surge_earth") => CompareKey::SurgeEarth,
        (_, "model") => CompareKey::Model,
        (_, "feed") => CompareKey::Feed,
        (_, "supply_voltage") => CompareKey::SupplyVoltage,
        (_, "supply_tolerance") => CompareKey::SupplyTolerance,
        (_, "supply_ac") => CompareKey::SupplyAc,
        (Thing::AlarmInput, "contact") => CompareKey::AlarmContact,
        (_, "contact") => CompareKey::Contact,
        (_, "relay_between") => CompareKey::RelayBetween,
        (_, "hold_time") => CompareKey::HoldTime,
        (_, "suppression") => CompareKey::Suppression,
        (_, "suppression_voltage") => CompareKey::SuppressionVoltage,
        (_, "relay_on_secure_side") => CompareKey::RelayOnSecureSide,
        (_, "exit_button") => CompareKey::ExitButton,
        (_, "emergency_release") => CompareKey::EmergencyRelease,
        (_, "delayed_egress") => CompareKey::DelayedEgress,
        (_, "door_contact") => CompareKey::DoorContact,
        (_, "lit") => CompareKey::Lit,
        (_, "kind") => CompareKey::AlarmKind,
        (_, "end_of_line_resistor") => CompareKey::EndOfLineResistor,
        (_, "tells") => CompareKey::Tells,
        (_, "label") => CompareKey::Label,
        (_, "terminator_capacitor") => CompareKey::TerminatorCapacitor,
        _ => return None,
    })
}

fn cut(lines: &mut Vec<String>, most: usize, language: Language) {
    if lines.len() > most {
        let count = lines.len() - most;
        lines.truncate(most);
        lines.push(CompareWords::More { count }.say(language));
    }
}

fn finding(finding: &Finding, better: bool, language: Language) -> String {
    let message = &codes::wording(finding, language).message;
    let code = finding.code.as_str();
    match better {
        true => CompareWords::FindingGone { code, message }.say(language),
        false => CompareWords::FindingNew { code, message }.say(language),
    }
}
