//! The switches of a number, with their picture.

use super::super::catalogue::Parts;
use super::super::part_named::known;
use super::answer::Answer;
use anyhow::{Result, bail};
use latchline_reach::telephone::{SwitchRow, switches_for, usual_family};
use latchline_report::Look;
use latchline_report::addresses::picture::picture;
use latchline_report::addresses::{SettingDocument, field_word, labelled};
use latchline_report::table::paragraph;
use latchline_report::wording::capital;
use latchline_site::addresses::number_in_name;
use latchline_site::catalogue::{AddressField, FieldKind};
use latchline_words::commands::AskWords;
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

/// Reads it.
pub(super) fn dwelling(text: &str) -> Result<NamedDwelling, String> {
    let wrong = || format!("\"{text}\" has no number in it; write for example 27, 27B or 27B:2");
    let (name, station) = match text.trim().split_once(':') {
        Some((name, station)) => {
            let station: u32 = station.parse().map_err(|_| wrong())?;
            if station == 0 {
                return Err(String::from("stations of a dwelling count from 1, its main one"));
            }
            (name, Some(station))
        }
        None => (text.trim(), None),
    };
    let digits = name.split(|letter: char| !letter.is_ascii_digit()).filter(|part| !part.is_empty());
    if digits.count() > 1 && name.split(['.', ',']).filter(|part| !part.is_empty()).count() > 1 {
        return Err(format!(
            "\"{text}\" has more than one number; which is the dwelling's? Write for example 27, 27B or 27B:2"
        ));
    }
    let number = number_in_name(name).ok_or_else(wrong)?;
    let says_more = name.parse::<u32>().is_err();
    Ok(NamedDwelling { number, station, name: says_more.then(|| name.to_string()) })
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
        setting: row.setting.clone().map(SettingDocument::from),
    });
    SwitchFigures { family, fields: fields.collect() }
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
        bail!("the catalogue has no family")
    };
    known(catalogue, "family", family, catalogue.families.keys())?;
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
        let words = AskWords::OutOfRange {
            field: &capital(field_word(row.kind, language)),
            number: row.number as usize,
            low: row.range.0 as usize,
            high: row.range.1 as usize,
        };
        return Answer::new("switches", vec![words.say(language)], false, look, figures(family, &rows));
    }
    let set = || rows.iter().filter_map(|row| Some((row, row.setting.as_ref()?)));
    let numbers: Vec<String> =
        rows.iter().map(|row| format!("{} {}", field_word(row.kind, language), row.number)).collect();
    let settings = &labelled(set().map(|(row, setting)| (row.label.as_str(), setting)), language);
    let sentence = AskWords::Switches { family, numbers: &numbers.join(", "), settings }.say(language);
    let mut text = paragraph(&sentence, 0, look.width);
    text.push('\n');
    for (row, setting) in set() {
        for line in picture(&row.label, setting) {
            text.push_str(&format!("  {line}\n"));
        }
    }
    let mut said = vec![sentence];
    if let Some(name) = &dwelling.name {
        let named = AskWords::SwitchesNamed { name, number: dwelling.number as usize }.say(language);
        text.push_str(&paragraph(&named, 0, look.width));
        said.push(named);
    }
    Answer::drawn("switches", said, text, true, figures(family, &rows))
}
