//! Parts of site files as text: names, lists, lengths, places, entrances.

pub use latchline_site::edit::quoted;

use latchline_site::catalogue::Environment;
use latchline_survey::model::{Entrance, Survey};

/// Where a place of the survey is, as a key; `None` where nothing is known.
pub fn place_key(survey: &Survey, place: usize) -> Option<String> {
    place_key_in(survey, place, survey.places[place].building)
}

/// The same under another building.
pub fn place_key_in(survey: &Survey, place: usize, building: Option<usize>) -> Option<String> {
    let place = &survey.places[place];
    let Some(building) = building else {
        return place.outdoors.then(|| String::from("place = \"outdoors\""));
    };
    let building = &survey.buildings[building].name.value;
    let parts = [Some(building), place.core.as_ref(), place.floor.as_ref()];
    let words: Vec<&str> = parts.into_iter().flatten().map(String::as_str).collect();
    Some(format!("place = {}", quoted(&words.join("/"))))
}

/// Tenths of a metre as metres.
pub(crate) fn in_metres(lengths_dm: &[u32]) -> Vec<f64> {
    lengths_dm.iter().map(|length| f64::from(*length) / 10.0).collect()
}

/// What a run passes, as keys.
pub fn surroundings(
    survey: &Survey,
    keys: &mut Vec<(&'static str, String)>,
    environment: Environment,
    beside_mains: bool,
    between_buildings: bool,
) {
    match environment {
        Environment::Indoors => {}
        Environment::Outdoors => keys.push(("environment", quoted("outdoors"))),
        Environment::Buried => keys.push(("environment", quoted("buried"))),
    }
    if beside_mains {
        keys.push(("beside_mains", String::from("true")));
    }
    if (environment != Environment::Indoors || between_buildings)
        && let Some(ohm) = survey.settings.surge_protection_ohm
    {
        keys.push(("surge_protection", format!("\"{ohm} ohm\"")));
    }
}

/// The keys of an entrance with this door station, one by one.
pub fn entrance_keys(survey: &Survey, entrance: &Entrance, station: &str) -> Vec<String> {
    let mut lines = vec![format!("role = \"{}\"", if entrance.main { "main" } else { "secondary" })];
    lines.extend(place_key(survey, entrance.place));
    if entrance.outdoors {
        lines.push(String::from("outdoors = true"));
    }
    lines.push(format!("station = {}", quoted(station)));
    if !entrance.calls.is_empty() {
        lines.push(format!("calls = {}", array(&entrance.calls)));
    }
    for (flag, name) in [(entrance.heater, "heater"), (entrance.fire_interlock, "fire_interlock")] {
        if flag {
            lines.push(format!("{name} = true"));
        }
    }
    if let Some(is_escape_route) = entrance.escape_route {
        lines.push(format!("escape_route = {is_escape_route}"));
        lines.extend(
            entrance.escape_decided_by.as_ref().map(|who| format!("escape_decided_by = {}", quoted(who))),
        );
        lines.extend(entrance.escape_decided_on.as_ref().map(|when| format!("escape_decided_on = {when}")));
    }
    if let Some(height) = entrance.control_height_m {
        lines.push(format!("control_height = \"{} m\"", tidy(height)));
    }
    if let Some(ohm) = entrance.surge_protection_ohm {
        lines.push(format!("surge_protection = \"{} ohm\"", tidy(ohm)));
    }
    if let Some(lock) = &entrance.lock {
        let quote = |name: &str, text: &Option<String>| {
            text.as_ref().map(|text| format!("{name} = {}", quoted(text)))
        };
        // The relay sits in the door station; where it is wired safely, the survey's person knows.
        let keys = [
            Some(format!("model = {}", quoted(&lock.model.value))),
            quote("feed", &lock.feed),
            quote("contact", &lock.contact),
            quote("cable", &lock.cable.as_ref().map(|cable| cable.value.clone())),
            lock.length_m.map(|length| format!("length = \"{} m\"", tidy(length))),
            lock.hold_s.map(|hold| format!("hold_time = \"{} s\"", tidy(hold))),
            quote("suppression", &lock.suppression),
            lock.exit_button.then(|| String::from("exit_button = true")),
            lock.mechanical_escape.then(|| String::from("mechanical_escape = true")),
        ];
        lines.push(format!("lock = {{ {} }}", joined(keys)));
    }
    lines
}

/// What there is of several keys, with commas between.
pub fn joined<const N: usize>(keys: [Option<String>; N]) -> String {
    keys.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Text without line ends, for a comment.
pub fn one_line(text: &str) -> String {
    text.chars().map(|sign| if sign.is_control() { ' ' } else { sign }).collect()
}

/// A TOML key: bare where it can be.
pub fn key(name: &str) -> String {
    let bare = |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '-' | '_');
    if !name.is_empty() && name.chars().all(bare) { name.to_string() } else { quoted(name) }
}

/// An array of strings.
pub fn array(texts: &[String]) -> String {
    let texts: Vec<String> = texts.iter().map(|text| quoted(text)).collect();
    format!("[{}]", texts.join(", "))
}

/// One text alone, several as an array.
pub fn list(texts: &[String]) -> String {
    match texts {
        [one] => quoted(one),
        several => array(several),
    }
}

/// A number without needless decimals.
pub fn tidy(value: f64) -> String {
    let text = format!("{value:.4}");
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

/// Lengths in metres as keys of a run: one, or first and spacing, or all.
pub fn lengths_keys(lengths_m: &[f64]) -> Vec<(&'static str, String)> {
    let text = |length: &f64| format!("\"{} m\"", tidy(*length));
    match lengths_m {
        [one] => vec![("length", text(one))],
        [first, second, rest @ ..]
            if !rest.is_empty() && rest.iter().all(|length| (length - second).abs() < 1e-9) =>
        {
            vec![("first", text(first)), ("spacing", text(second))]
        }
        all => {
            let all: Vec<String> = all.iter().map(text).collect();
            vec![("lengths", format!("[{}]", all.join(", ")))]
        }
    }
}
