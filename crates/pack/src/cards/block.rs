//! A device or a run as a card shows it.

use super::terminals::strip;
use crate::qr::{Code, QUIET_ZONE};
use latchline_drawing::job_card::{CardBlock, CardCode, CardPower, CardStep, DoorPicture};
use latchline_finding::Unit;
use latchline_handover::commissioning::Expected;
use latchline_handover::device_code::code_data;
use latchline_handover::job_cards::assigned::{Assigned, AssignedStep, Spot};
use latchline_handover::job_cards::brief::brief;
use latchline_handover::job_cards::places::{JobCards, run_of_protector, stop_item};
use latchline_handover::language::{Sentence, Word};
use latchline_handover::locale::Rounding;
use latchline_handover::subject::Subject;
use latchline_handover::tables::{
    Interface, address_words, double_words, item_title, kind_words, model_name, start_name,
};
use latchline_site::addresses::{SwitchSetting, fields_of, settings};
use latchline_site::cables::{CableLength, CableOwner};
use latchline_site::model::{LockPart, RunStop, StationOwner};
use latchline_wiring::Item;

/// The block of an item.
pub(super) fn of_item(subject: &Subject<'_>, assigned: &Assigned, item: Item) -> CardBlock {
    let name = subject.name(item);
    let is_device = matches!(item, Item::Supply(_) | Item::Box(_) | Item::Station(_));
    // The maker's own title of a model is in the maker's language, and long: the kind and the model say it.
    let what = match is_device {
        true => format!("{}: {}", kind_words(subject, item), model_name(subject, item)),
        false => item_title(subject, item).into_owned(),
    };
    let what = std::iter::once(what).chain(own_cable(subject, &name)).collect::<Vec<_>>().join(" · ");
    let (address, positions) = address_words(subject, item);
    // The picture of the switches says how they stand; in words only where there is none.
    let pictured = switches(subject, item);
    let positions = if pictured.is_empty() { positions } else { String::new() };
    let locale = &subject.locale;
    let sits = match item {
        Item::Joint { .. } => locale.word(Word::ConnectorSits).to_string(),
        _ => String::new(),
    };
    let theirs = their_terminals(subject, item);
    let named = theirs.iter().flatten();
    let named = named.map(|named| format!("{}: {named}", locale.word(Word::TheirTerminals)));
    let lines = [address, positions, sits].into_iter().filter(|line| !line.is_empty());
    let lines = lines.chain(runs_to_door(subject, item)).chain(named).collect();
    let to_write: &[Word] = match &theirs {
        _ if is_device => &[Word::Serial, Word::Version],
        Some(None) => &[Word::TheirTerminals],
        _ if subject.wiring.unstated.iter().any(|cable| cable.designation == name) => {
            &[Word::CableType, Word::Length]
        }
        _ => &[],
    };
    let blanks = to_write.iter().map(|word| locale.word(*word).to_string()).collect();
    CardBlock {
        warning: double_words(subject, item),
        element: name.clone(),
        code: is_device.then(|| code(subject, item)).flatten(),
        designation: name,
        what,
        lines,
        strip: strip(subject, item),
        switches: pictured,
        pictures: Vec::new(),
        steps: assigned.at(Spot::Item(item)).map(|step| card_step(subject, step)).collect(),
        blanks,
    }
}

/// The terminals of another system at which something ends, as its owner names them: `None` where nothing ends at one, `Some(None)` where
/// the plan does not say.
fn their_terminals(subject: &Subject<'_>, item: Item) -> Option<Option<String>> {
    let stated = match item {
        Item::Lock { entrance, lock } if subject.drives().contains(&item) => {
            &subject.site.entrances[entrance].locks[lock].owner_terminals
        }
        // One that lies in no circuit is joined to nothing.
        Item::Part { entrance, lock, part: LockPart::FireContact }
            if !(Interface::FireContact { entrance, lock }).stays_free(subject) =>
        {
            &subject.site.entrances[entrance].fire_alarm_terminals
        }
        _ => return None,
    };
    Some(stated.as_ref().map(|stated| stated.value.clone()))
}

/// A cable with its length.
fn cable_words(subject: &Subject<'_>, laid: &CableLength) -> String {
    let locale = &subject.locale;
    let length = locale.quantity(laid.length.as_metres(), Unit::Metre, Rounding::Nearest);
    locale.say(&Sentence::CableOnCard { cable: &laid.cable, length: &locale.cell_text(&length, None) })
}

/// The same with the pairs of it that nothing uses.
fn cable_with_spares(subject: &Subject<'_>, laid: &CableLength) -> String {
    let cable = cable_words(subject, laid);
    std::iter::once(cable).chain(spare_pairs(subject, laid)).collect::<Vec<_>>().join(" · ")
}

/// The cable of its own on which something hangs at a door.
fn own_cable(subject: &Subject<'_>, name: &str) -> Option<String> {
    let mut at_doors =
        subject.wiring.cables.iter().filter(|wired| matches!(wired.laid.owner, CableOwner::AtDoor(_)));
    at_doors.find(|wired| wired.designation == name).map(|wired| cable_with_spares(subject, &wired.laid))
}

/// The runs that lead to a door station, each with its cable there: what hangs at a door is wired from one sheet.
fn runs_to_door(subject: &Subject<'_>, item: Item) -> Vec<String> {
    let Item::Station(index) = item else { return Vec::new() };
    let site = subject.site;
    if !matches!(site.stations[index].owner, StationOwner::Entrance { .. }) {
        return Vec::new();
    }
    let stop = RunStop::Station(index);
    let leads_here = subject.wiring.cables.iter().filter_map(|wired| match wired.laid.owner {
        CableOwner::Section { run, section } if site.runs[run].sections[section].to == stop => {
            Some((run, &wired.laid))
        }
        _ => None,
    });
    leads_here
        .map(|(run, laid)| format!("{}: {}", site.runs[run].id, cable_with_spares(subject, laid)))
        .collect()
}

/// The block of a run at its start: from where, which cable, what hangs on it.
pub(super) fn of_run(subject: &Subject<'_>, cards: &JobCards, assigned: &Assigned, run: usize) -> CardBlock {
    let (site, locale) = (subject.site, &subject.locale);
    let name = site.runs[run].id.to_string();
    let stops: Vec<&str> =
        site.runs[run].sections.iter().map(|section| site.stop_id(section.to).as_str()).collect();
    let length = locale.quantity(site.runs[run].length().as_metres(), Unit::Metre, Rounding::Nearest);
    let cable = &site.runs[run].cable.value;
    let cable = match site.runs[run].pairs.value {
        1 => cable.clone(),
        pairs => format!("{pairs} × {cable}"),
    };
    let what = locale.say(&Sentence::RunAtCard {
        from: &start_name(subject, run),
        cable: &cable,
        length: &locale.cell_text(&length, None),
    });
    let owner = CableOwner::Section { run, section: 0 };
    let wired = subject.wiring.cables.iter().find(|cable| cable.laid.owner == owner);
    let spare = wired.and_then(|wired| spare_pairs(subject, &wired.laid));
    // Whoever is here finds the far end, and what is read or joined there, on another card.
    let far = site.runs[run].sections.last().and_then(|section| cards.card_of(stop_item(section.to)));
    let far = far.filter(|card| cards.card_of_run(subject, run) != Some(*card));
    let far = far.map(|card| locale.say(&Sentence::FarEndOnCard { card: card + 1 }));
    let leads = std::iter::once(format!("→ {}", stops.join(", "))).chain(far).chain(spare.iter().cloned());
    let leads: Vec<String> = leads.collect();
    let kept = spare.map(|_| locale.word(Word::SparePairsKept).to_string());
    CardBlock {
        element: locale.say(&Sentence::RunNamed { run: &name }),
        designation: locale.say(&Sentence::RunNamed { run: &name }),
        what,
        lines: std::iter::once(leads.join(" · ")).chain(kept).collect(),
        steps: assigned.at(Spot::Run(run)).map(|step| card_step(subject, step)).collect(),
        ..CardBlock::default()
    }
}

/// The pairs of a cable that nothing uses; existing cable may have some that nobody knows of.
fn spare_pairs(subject: &Subject<'_>, laid: &CableLength) -> Option<String> {
    let pairs = subject.site.catalogue.cables[&laid.cable].pairs.value;
    let (used, all) = (laid.pairs as usize, (laid.side_by_side * pairs) as usize);
    let last = (used + 1 < all).then_some(all);
    (used < all).then(|| subject.locale.say(&Sentence::SparePairs { first: used + 1, last }))
}

/// A step as a card shows it.
fn card_step(subject: &Subject<'_>, at: &AssignedStep) -> CardStep {
    let locale = &subject.locale;
    let step = &at.step;
    let brief = brief(subject, at);
    let is_brief = brief.as_ref().is_some_and(|brief| brief.is_tick);
    let values = step.expected.cells(locale).map(|cell| locale.cell_text(&cell, None));
    let words = brief.map_or_else(|| step.what.clone(), |brief| brief.words);
    let (writes, ticks) = match step.expected {
        Expected::Done | Expected::Polarity => (false, true),
        Expected::Told => (false, false),
        _ => (true, true),
    };
    CardStep {
        number: at.number(),
        what: match (at.stage, at.spot) {
            // Several cables start at a door station, and all are read on its card; a block says its own name.
            (Word::StageBareEnds, Some(Spot::Item(item))) if subject.name(item) != step.place => {
                format!("{}: {words}", step.place)
            }
            _ => words,
        },
        is_brief,
        values,
        writes,
        ticks,
        power: if at.is_live { CardPower::On } else { CardPower::Off },
    }
}

fn code(subject: &Subject<'_>, item: Item) -> Option<CardCode> {
    let number = subject.order.iter().position(|device| *device == item)? + 1;
    let name = subject.name(item);
    let data = code_data(subject, &name, number).unwrap_or(name);
    let code = Code::new(&data).ok()?;
    Some(CardCode { areas: code.areas(), edge: code.size + 2 * QUIET_ZONE })
}

fn switches(subject: &Subject<'_>, item: Item) -> Vec<(String, SwitchSetting)> {
    let Item::Station(station) = item else { return Vec::new() };
    let Some(address) = subject.assessment.addresses.stations.get(station) else { return Vec::new() };
    let Some(numbers) = &address.numbers else { return Vec::new() };
    fields_of(subject.site, address.class)
        .iter()
        .zip(numbers)
        .filter_map(|(field, number)| Some((field.label.clone(), settings(field, *number)?)))
        .collect()
}

/// The pictures of a door: its locks.
pub(super) fn pictures(subject: &Subject<'_>, entrance: usize) -> Vec<DoorPicture> {
    let Some(door) = subject.assessment.doors.iter().position(|sheet| sheet.index == entrance) else {
        return Vec::new();
    };
    let locks = 0..subject.assessment.doors[door].locks.len();
    locks.map(|lock| DoorPicture { door, lock }).collect()
}

/// Whether an item stands before a run rather than among the devices.
pub(super) fn protects(item: Item, run: usize) -> bool {
    run_of_protector(item) == Some(run)
}
