//! How the switches of a station stand: the question of `latchline ask switches`.

use super::asked::{Answered, Book, Kind, Question};
use super::fields::{chosen, family_field, number};
use crate::refused::Refused;
use latchline_finding::{Language, Locale};
use latchline_reach::telephone::{SwitchRow, switches_for, usual_family};
use latchline_report::addresses::{field_word, labelled};
use latchline_report::wording::capital;
use latchline_site::catalogue::{AddressField, FieldKind};
use latchline_words::commands::AskWords;
use latchline_words::office::Label;
use maud::html;
use serde::Deserialize;

/// As an address asks it.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct Switches {
    family: String,
    building: String,
    dwelling: String,
    extension: String,
}

fn sentence(family: &str, rows: &[SwitchRow], language: Language) -> (String, bool) {
    if let Some(row) = rows.iter().find(|row| row.setting.is_none()) {
        let words = AskWords::OutOfRange {
            field: &capital(field_word(row.kind, language)),
            number: row.number as usize,
            low: row.range.0 as usize,
            high: row.range.1 as usize,
        };
        return (words.say(language), false);
    }
    let numbers: Vec<String> =
        rows.iter().map(|row| format!("{} {}", field_word(row.kind, language), row.number)).collect();
    let set = rows.iter().filter_map(|row| Some((row.label.as_str(), row.setting.as_ref()?)));
    let words =
        AskWords::Switches { family, numbers: &numbers.join(", "), settings: &labelled(set, language) };
    (words.say(language), true)
}

impl Question for Switches {
    const KIND: Kind = Kind::Switches;

    fn answered(&self, book: &Book, locale: Locale) -> Result<Answered, Refused> {
        let language = locale.language;
        let catalogue = book.loaded.catalogue();
        let usual = usual_family(catalogue).unwrap_or_default();
        let family = chosen(&self.family, usual, catalogue.families.contains_key(&self.family));
        let family = catalogue.families.get(family).ok_or(Refused::NotFound)?;
        let asked = |kind: FieldKind| match kind {
            FieldKind::Building => ("building", &self.building),
            FieldKind::Extension => ("extension", &self.extension),
            _ => ("dwelling", &self.dwelling),
        };
        let number_of = |field: &AddressField| {
            let text = asked(field.kind).1;
            match text.trim().is_empty() {
                true => (field.kind == FieldKind::Dwelling).then_some(12.min(field.last.value)),
                false => Some(number(text, 0.0, 0.0, f64::from(u32::MAX)) as u32),
            }
        };
        let rows = switches_for(family, &number_of);
        let (sentence, works) = sentence(&family.head.name, &rows, language);
        let word = |row: &SwitchRow| capital(field_word(row.kind, language));
        let numbers: Vec<String> = rows.iter().map(|row| format!("{} {}", word(row), row.number)).collect();
        let say = |label: Label| label.say(language);
        Ok(Answered {
            question: vec![
                (say(Label::Family), family.head.name.clone()),
                (say(Label::Address), numbers.join(", ")),
            ],
            lines: vec![sentence],
            works,
            form: html! {
                (family_field(catalogue, &family.head.name, language))
                div #of-family {
                    @for row in &rows {
                        @let name = asked(row.kind).0;
                        div.field { label for=(name) { (word(row)) " (" (row.range.0) "–" (row.range.1) ")" } input id=(name) name=(name) inputmode="numeric" value=(row.number) autocomplete="off"; }
                    }
                }
            },
            more: html! {
                table.list { tbody { @for row in &rows { tr { th scope="row" { (word(row)) } td.number { (row.number) } td { strong { (row.setting.as_ref().map_or_else(|| String::from("–"), ToString::to_string)) } } } } } }
            },
        })
    }
}
