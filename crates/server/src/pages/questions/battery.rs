//! Hours of battery for so many stations: the question of `latchline ask battery`.

use super::asked::{Answered, Book, Kind, Question};
use super::fields::{
    chosen, family_field, is_indoor, number, station_field, supplies, supply_asked, supply_field,
};
use crate::refused::Refused;
use latchline_finding::Locale;
use latchline_reach::default_question;
use latchline_reach::telephone::{Power, battery_hours, battery_said, usual_family};
use latchline_words::office::{Label, OfficeRefusal};
use maud::html;
use serde::Deserialize;

/// Most stations that are asked for, as on the command line.
const MOST: f64 = 200.0;

/// As an address asks it.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct Battery {
    family: String,
    station: String,
    supply: String,
    stations: String,
    /// Hours that are wanted; empty where it is asked how long it lasts.
    hours: Option<String>,
}

impl Question for Battery {
    const KIND: Kind = Kind::Battery;

    fn answered(&self, book: &Book, locale: Locale) -> Result<Answered, Refused> {
        let language = locale.language;
        let say = |label: Label| label.say(language);
        let catalogue = book.loaded.catalogue();
        let usual = usual_family(catalogue).unwrap_or_default();
        let family = chosen(&self.family, usual, catalogue.families.contains_key(&self.family));
        let lacks = || Refused::Unfit(OfficeRefusal::FamilyLacksParts.both());
        let mut question = default_question(catalogue, family).ok_or_else(lacks)?;
        if is_indoor(catalogue, family, &self.station) {
            question.station.clone_from(&self.station);
        }
        let stated = supply_asked(catalogue, family, &self.supply);
        let all = supplies(catalogue, family, stated.as_deref());
        let with_battery = all.iter().find(|(power, _)| *power == Power::BatteryEnd);
        let (_, supply) = with_battery.or(all.first()).ok_or_else(lacks)?;
        question.supply.clone_from(supply);
        let stations = number(&self.stations, 12.0, 1.0, MOST).round() as usize;
        let wanted = match self.hours.as_deref().map(str::trim) {
            None => Some(8.0),
            Some("") => None,
            Some(hours) => Some(number(hours, 8.0, 0.1, 1000.0)),
        };
        let found = battery_hours(&book.sources, &book.loaded, &question, stations, wanted)
            .map_err(|error| Refused::Unfit(error.both()))?;
        let works = found.as_ref().is_ok_and(|found| found.works(wanted));
        let lines = battery_said(&question, stations, found.as_ref().map_err(|none| *none), wanted, locale);
        let hours = wanted.map_or_else(String::new, |hours| locale.trimmed(hours, 1));
        Ok(Answered {
            question: vec![
                (say(Label::Family), family.to_string()),
                (say(Label::Station), question.station.clone()),
                (say(Label::HowManyStations), stations.to_string()),
                (say(Label::Supply), question.supply.clone()),
                (say(Label::HoursWanted), if hours.is_empty() { String::from("–") } else { hours.clone() }),
            ],
            lines,
            works,
            form: html! {
                (family_field(catalogue, family, language))
                div #of-family {
                    (station_field(catalogue, family, &question.station, language))
                    (supply_field(catalogue, family, Label::LargestWithBattery, stated.as_deref(), language))
                }
                div.field { label for="stations" { (say(Label::HowManyStations)) } input #stations name="stations" inputmode="numeric" value=(stations) autocomplete="off"; }
                div.field { label for="hours" { (say(Label::HoursWanted)) } input #hours name="hours" inputmode="decimal" value=(hours) autocomplete="off"; }
            },
            more: html! {},
        })
    }
}
