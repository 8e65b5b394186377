//! The switches of a number, with their picture.

use super::super::catalogue::Parts;
use super::super::part_named::known;
use super::answer::Answer;
use crate::refusal::{Refusal, Result};
use latchline_finding::{Both, Language};
use latchline_reach::telephone::{SwitchRow, switches_for, usual_family};
use latchline_report::Look;
use latchline_report::addresses::picture::picture;
use latchline_report::addresses::{SettingDocument, field_word, labelled};
use latchline_report::table::paragraph;
use latchline_report::wording::capital;
use latchline_site::addresses::number_in_name;
use latchline_site::catalogue::{AddressField, FieldKind};
use latchline_words::commands::AskWords;
use latchline_words::refusals::{ArgumentRefusal, PartKind, PartRefusal};
use serde::Serialize;

/// A dwelling by its number, or by a name with a number in it.
#[derive(Debug, Clone)]
pub(super) struct NamedDwelling {
    pub number: u32,
    /// The so-manieth station of the dwelling, its main one being the first.
    pub station: Option<u32>,
    /// The name, where it says more than the number.
    name: Option<String>,
}

impl NamedDwelling {
    /// As it is asked for.
    fn asked(&self) -> String {
        let name = self.name.clone().unwrap_or_else(|| self.number.to_string());
        let asked = match self.station {
            Some(station) => format!("{name}:{station}"),
            None => name,
        };
        in_shell(&asked)
    }
}

/// A name as it is asked for in a shell, which takes one with a space for two.
fn in_shell(name: &str) -> String {
    if name.contains(' ') { format!("\"{name}\"") } else { name.to_string() }
}

/// Reads it: a number, before it at most one word or initial, after it at most one letter, then `:2` for the second station. What is
/// left over may be the station, another number, or a name that no rule is known for: it is refused, since a guess would set switches wrong.
pub(super) fn dwelling(text: &str) -> Result<NamedDwelling> {
    let text = text.trim();
    let (name, station) = match text.split_once(':') {
        Some((name, station)) => (name.trim_end(), Some(station.trim())),
        None => (text, None),
    };
    let wrong = || Refusal::from(ArgumentRefusal::NoNumberIn { text, name: &in_shell(text) });
    let Some((before, number, after)) = around_number(name) else { return Err(wrong()) };
    let letter = single_letter(after);
    if letter.is_none() || !at_most_one_word(before) {
        return Err(unclear(text, number, after));
    }
    let station = match station.map(str::parse::<u32>) {
        None => None,
        Some(Ok(0)) => return Err(ArgumentRefusal::StationFromOne.into()),
        Some(Ok(station)) => Some(station),
        Some(Err(_)) => return Err(unclear(text, number, after)),
    };
    let says_more = name.parse::<u32>().is_err();
    let number = number_in_name(name).ok_or_else(wrong)?;
    Ok(NamedDwelling { number, station, name: says_more.then(|| name.to_string()) })
}

/// What stands before the first group of digits, the digits, and what stands after them.
fn around_number(name: &str) -> Option<(&str, &str, &str)> {
    let start = name.find(|letter: char| letter.is_ascii_digit())?;
    let length = name[start..].find(|letter: char| !letter.is_ascii_digit()).unwrap_or(name.len() - start);
    Some((&name[..start], &name[start..start + length], &name[start + length..]))
}

/// The letter of "27B", empty where there is none; `None` where more follows the number than one letter.
fn single_letter(after: &str) -> Option<&str> {
    let letter = after.trim_start();
    let mut letters = letter.chars();
    match (letters.next(), letters.next()) {
        (None, _) => Some(""),
        (Some(one), None) if one.is_alphabetic() => Some(letter),
        _ => None,
    }
}

/// Whether it is empty, or one word or initial with what parts it from the number: "Flat ", "A-", "No. ".
fn at_most_one_word(before: &str) -> bool {
    let word = before.trim_end_matches([' ', '-', '_', '.']);
    word.chars().all(char::is_alphabetic)
}

/// What to write instead, if the station is meant by what follows the number.
fn unclear(text: &str, number: &str, after: &str) -> Refusal {
    let mut letters = after.trim_start().chars();
    let letter = match (letters.next(), letters.next()) {
        (Some(one), second) if one.is_alphabetic() && !second.is_some_and(char::is_alphabetic) => {
            one.to_string()
        }
        _ => String::new(),
    };
    let other = after.chars().any(|one| one.is_ascii_digit());
    let station = station_meant(text, after);
    let (dwelling, ordinal) = (&format!("{number}{letter}"), &ordinal(station));
    let (station, name) = (station as usize, &in_shell(text));
    match other {
        true => ArgumentRefusal::SeveralNumbers { text, name, dwelling, station, ordinal },
        false => ArgumentRefusal::SaysMore { text, name, dwelling, station, ordinal },
    }
    .into()
}

/// The station that is probably meant: only for what to write, never taken by itself.
fn station_meant(text: &str, after: &str) -> u32 {
    let word = text.to_lowercase();
    let named = ["third", "fourth"].iter().position(|ordinal| word.contains(ordinal));
    let numbered = around_number(after).and_then(|(_, number, _)| number.parse().ok());
    named.map(|place| place as u32 + 3).or(numbered.filter(|one| (2..=4).contains(one))).unwrap_or(2)
}

fn ordinal(station: u32) -> Both {
    match station {
        3 => Both::new("third", "dritte"),
        4 => Both::new("fourth", "vierte"),
        _ => Both::new("second", "zweite"),
    }
}

#[derive(Serialize)]
struct SwitchFigures<'a> {
    family: &'a str,
    fields: Vec<FieldFigures<'a>>,
}

#[derive(Serialize)]
struct FieldFigures<'a> {
    field: &'static str,
    label: &'a str,
    number: u32,
    lowest: u32,
    highest: u32,
    /// Whether the family keeps the number for something else.
    reserved: bool,
    /// Missing where the switches cannot show the number.
    #[serde(skip_serializing_if = "Option::is_none")]
    setting: Option<SettingDocument>,
}

fn figures<'a>(family: &'a str, rows: &'a [SwitchRow]) -> SwitchFigures<'a> {
    let fields = rows.iter().map(|row| FieldFigures {
        field: row.kind.word(),
        label: &row.label,
        number: row.number,
        lowest: row.range.0,
        highest: row.range.1,
        reserved: row.is_reserved,
        setting: row.setting.clone().map(SettingDocument::from),
    });
    SwitchFigures { family, fields: fields.collect() }
}

/// All that nobody said, in a sentence, each with how to say it outright; `None` where all was said.
fn assumed(dwelling: &NamedDwelling, rows: &[SwitchRow], language: Language) -> Option<String> {
    let asked = dwelling.asked();
    let number = dwelling.name.as_ref().map(|name| {
        AskWords::AssumedNumber { name, number: dwelling.number as usize, asked: &asked }.say(language)
    });
    let fields = rows.iter().filter(|row| row.is_assumed).map(|row| {
        let number = row.number as usize;
        match row.kind {
            FieldKind::Building => AskWords::AssumedBuilding { number }.say(language),
            FieldKind::Extension => {
                let second = NamedDwelling { station: Some(2), ..dwelling.clone() }.asked();
                AskWords::AssumedExtension { second: &second }.say(language)
            }
            other => AskWords::AssumedOther { field: field_word(other, language), number }.say(language),
        }
    });
    let mut all: Vec<String> = number.into_iter().chain(fields).collect();
    let last = all.pop()?;
    if all.is_empty() {
        return Some(last);
    }
    Some(AskWords::AssumedBoth { first: &all.join(", "), last: &last }.say(language))
}

/// How the switches of an indoor station stand; `number` gives the number of each field, or `None` for the usual one.
pub(super) fn of_switches(
    parts: &Parts,
    family: Option<&str>,
    dwelling: &NamedDwelling,
    number: &dyn Fn(&AddressField) -> Option<u32>,
    look: &Look,
) -> Result<Answer> {
    let language = look.language;
    let catalogue = parts.loaded.catalogue();
    let Some(family) = family.or_else(|| usual_family(catalogue)) else {
        return Err(PartRefusal::NoFamily.into());
    };
    known(catalogue, PartKind::Family, family, catalogue.families.keys())?;
    let rows = switches_for(&catalogue.families[family], number);
    let outside = rows.iter().find(|row| row.setting.is_none());
    if let Some(row) = outside
        && row.kind == FieldKind::Extension
        && let Some(station) = dwelling.station
    {
        let (station, most) = (station as usize, (row.range.1 - row.range.0 + 1) as usize);
        let words = AskWords::NoSuchStation { station, family, most };
        return Answer::new("switches", vec![words.say(language)], false, look, figures(family, &rows));
    }
    if let Some(row) = outside {
        let (field, number) = (&*capital(field_word(row.kind, language)), row.number as usize);
        let (low, high) = (row.range.0 as usize, row.range.1 as usize);
        let words = match row.is_reserved {
            true => AskWords::Reserved { field, number, family },
            false => AskWords::OutOfRange { field, number, low, high },
        };
        return Answer::new("switches", vec![words.say(language)], false, look, figures(family, &rows));
    }
    let set = || rows.iter().filter_map(|row| Some((row, row.setting.as_ref()?)));
    let numbers: Vec<String> =
        rows.iter().map(|row| format!("{} {}", field_word(row.kind, language), row.number)).collect();
    let settings = &labelled(set().map(|(row, setting)| (row.label.as_str(), setting)), language);
    let numbers = &numbers.join(", ");
    let assumed = assumed(dwelling, &rows, language);
    let words = match &assumed {
        Some(assumed) => AskWords::SwitchesAssumed { assumed, family, numbers, settings },
        None => AskWords::Switches { family, numbers, settings },
    };
    let sentence = words.say(language);
    let mut text = paragraph(&sentence, 0, look.width);
    text.push('\n');
    for (row, setting) in set() {
        for line in picture(&row.label, setting) {
            text.push_str(&format!("  {line}\n"));
        }
    }
    Answer::drawn("switches", vec![sentence], text, true, figures(family, &rows))
}
