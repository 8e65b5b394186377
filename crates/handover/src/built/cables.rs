//! Lengths and types of cables, as they were laid.

use super::difference::{Built, Difference, Takes, entry, length_text, path};
use crate::language::BuiltWords;
use crate::subject::Subject;
use crate::table::{Cell, Entry, Table};
use crate::tables::piece_names;
use latchline_finding::{EditStep, Language, METRES_PER_FOOT, Unit, Units};
use latchline_site::cables::{CableOwner, DoorCable};
use latchline_wiring::WiredCable;
use std::collections::BTreeMap;

/// A length as a person wrote it: a number in the unit of the column, or a number with its unit.
fn metres(entry: &Entry, units: Units) -> Option<f64> {
    let per_unit = |units| match units {
        Units::Metric => 1.0,
        Units::Us => METRES_PER_FOOT,
    };
    let (number, per) = match entry {
        Entry::Number(number) => (*number, per_unit(units)),
        Entry::Words(words) => {
            let words = words.trim();
            let (number, per) = if let Some(number) = words.strip_suffix("ft") {
                (number, per_unit(Units::Us))
            } else if let Some(number) = words.strip_suffix('m') {
                (number, 1.0)
            } else {
                (words, per_unit(units))
            };
            (number.trim().replace(',', ".").parse().ok()?, per)
        }
        Entry::Date(_) => return None,
    };
    let metres = number * per;
    // The bounds of a length in the site file.
    (0.01..=20_000.0).contains(&metres).then_some(metres)
}

/// What the cable list says.
pub(super) fn add(
    subject: &Subject<'_>,
    table: &Table,
    [name, length, kind]: [usize; 3],
    has: &dyn Fn(&[EditStep]) -> bool,
    built: &mut Built,
) {
    let locale = &subject.locale;
    let rows: BTreeMap<&str, &[Cell]> = table.body().map(|cells| (cells[name].words(), cells)).collect();
    let tolerance = subject.site.conditions.length_tolerance.value.as_fraction();
    let allowed = locale.in_words(tolerance, Unit::Percent);
    let mut types: Vec<(&WiredCable, String)> = Vec::new();
    for wired in &subject.wiring.cables {
        let pieces: Vec<&[Cell]> =
            piece_names(wired).iter().filter_map(|piece| rows.get(piece.as_str()).copied()).collect();
        let of = &wired.designation;
        // Of cables side by side the longest counts.
        let mut laid: Option<f64> = None;
        for written in pieces.iter().filter_map(|cells| entry(&cells[length])) {
            match metres(written, locale.units) {
                Some(metres) => laid = Some(laid.map_or(metres, |before| before.max(metres))),
                None => built.say(
                    locale.built(&BuiltWords::LengthUnread { cable: of, written: &locale.entry(written) }),
                ),
            }
        }
        let planned = wired.laid.length.as_metres();
        // What is printed is rounded to a tenth.
        if let Some(laid) = laid.filter(|laid| (laid - planned).abs() >= 0.05) {
            let is_within = (laid - planned).abs() <= tolerance * planned;
            let [laid_words, planned_words] =
                [laid, planned].map(|metres| locale.in_words(metres, Unit::Metre));
            let (cable, laid_words, planned) = (of.as_str(), &*laid_words, &*planned_words);
            let says = locale.built(&match is_within {
                true => BuiltWords::LengthWithin { cable, laid: laid_words, planned, allowed: &allowed },
                false => BuiltWords::LengthBeyond { cable, laid: laid_words, planned, allowed: &allowed },
            });
            let takes = match wired.laid.owner {
                CableOwner::Section { run, section } => Takes::Section { run, section, metres: laid },
                CableOwner::AtDoor(cable) => {
                    door_key(subject, cable, "length", length_text(laid, locale.units), has)
                }
            };
            built.differences.push(Difference { says, takes, is_within });
        }
        let written = pieces.iter().find_map(|cells| entry(&cells[kind]));
        let laid = written.map(|entry| locale.entry(entry).trim().to_string());
        types.extend(
            laid.filter(|laid| !laid.eq_ignore_ascii_case(&wired.laid.cable)).map(|laid| (wired, laid)),
        );
    }
    for (wired, laid) in &types {
        cable_type(subject, wired, laid, &types, has, built);
    }
    for cable in &subject.wiring.unstated {
        let Some(cells) = rows.get(cable.designation.as_str()) else { continue };
        let written: Vec<String> = [kind, length]
            .iter()
            .filter_map(|column| entry(&cells[*column]))
            .map(|entry| locale.entry(entry))
            .collect();
        if !written.is_empty() {
            let (cable, written) = (cable.designation.as_str(), &written.join(", "));
            built.say(locale.built(&BuiltWords::NotInThePlan { cable, written }));
        }
    }
}

/// A key of a cable at a door, set to this; nothing where the site file states the cable in another way.
fn door_key(
    subject: &Subject<'_>,
    cable: DoorCable,
    key: &str,
    value: String,
    has: &dyn Fn(&[EditStep]) -> bool,
) -> Takes {
    match door_path(subject, cable, has) {
        Some(mut at) => {
            at.push(EditStep::from(key));
            Takes::Key(at, value)
        }
        None => Takes::Nothing,
    }
}

/// Where the site file states the cable of a lock, a light or a contact; `None` if it does so in another way.
fn door_path(
    subject: &Subject<'_>,
    cable: DoorCable,
    has: &dyn Fn(&[EditStep]) -> bool,
) -> Option<Vec<EditStep>> {
    let (entrance, list, at) = match cable {
        DoorCable::Lock { entrance, lock } => (entrance, "locks", lock),
        DoorCable::Light { entrance, light } => (entrance, "lights", light),
        DoorCable::AlarmContact { entrance, input } => (entrance, "alarm_inputs", input),
        DoorCable::LockPart { .. } => return None,
    };
    let base = path(&["entrances", subject.site.entrances[entrance].id.as_str()]);
    let mut single = base.clone();
    single.push(EditStep::from("lock"));
    let mut listed = base;
    listed.extend([EditStep::from(list), EditStep::from(at)]);
    let candidates = if list == "locks" { vec![single, listed] } else { vec![listed] };
    candidates.into_iter().find(|path| {
        let mut length = path.clone();
        length.push(EditStep::from("length"));
        has(&length)
    })
}

/// A cable of another type than planned, with all others that are.
fn cable_type(
    subject: &Subject<'_>,
    wired: &WiredCable,
    laid: &str,
    all: &[(&WiredCable, String)],
    has: &dyn Fn(&[EditStep]) -> bool,
    built: &mut Built,
) {
    let locale = &subject.locale;
    let (cable, planned) = (wired.designation.as_str(), wired.laid.cable.as_str());
    let known = subject.site.catalogue.cables.iter().find(|(name, part)| {
        let titles = Language::ALL.map(|language| part.head.title.of(language));
        name.eq_ignore_ascii_case(laid) || titles.iter().any(|title| title.eq_ignore_ascii_case(laid))
    });
    let Some((name, _)) = known else {
        return built.say(locale.built(&BuiltWords::TypeUnknown { cable, laid, planned }));
    };
    let value = format!("\"{name}\"");
    let takes = match wired.laid.owner {
        CableOwner::Section { run: index, .. } => {
            let run = &subject.site.runs[index];
            let is_of_run = |wired: &WiredCable| matches!(wired.laid.owner, CableOwner::Section { run, .. } if run == index);
            let alike = all.iter().filter(|(wired, other)| is_of_run(wired) && other == laid).count();
            if alike < run.sections.len() {
                let run = run.id.as_str();
                let words = BuiltWords::TypeOfOneLength { cable, laid: name, planned, run };
                return built.say(locale.built(&words));
            }
            Takes::Key(path(&["runs", run.id.as_str(), "cable"]), value)
        }
        CableOwner::AtDoor(door) => door_key(subject, door, "cable", value, has),
    };
    let says = locale.built(&BuiltWords::TypeOther { cable, laid: name, planned });
    built.differences.push(Difference { says, takes, is_within: false });
}
