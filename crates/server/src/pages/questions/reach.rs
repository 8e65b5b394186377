//! How many, how far: the question of `latchline reach --total`, or with a stated spacing.

use super::asked::{Answered, Book, Kind, Question};
use super::chart::chart;
use super::fields::{
    cable_field, called, calls_asked, calls_field, chosen, family_field, is_indoor, station_field,
    supply_asked, supply_field,
};
use super::ruler::{Ruler, Scale};
use crate::refused::Refused;
use latchline_finding::{Language, Locale};
use latchline_reach::telephone::{
    Carried, OneRun, Spread, by_cable, by_spread, lightest_spread, power_of, power_word, spread_said,
    stations_spread, usual_family,
};
use latchline_reach::{BareSiteError, default_question};
use latchline_site::catalogue::Catalogue;
use latchline_words::codes;
use latchline_words::office::{Label, OfficeRefusal};
use maud::{Markup, html};
use serde::Deserialize;

/// Points of the chart.
const POINTS: u32 = 10;

/// As an address asks it.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct Reach {
    family: String,
    station: String,
    cable: String,
    supply: String,
    calls: String,
    /// "spacing" where the distance from one to the next is known, else the length of the run is.
    by: String,
    total: String,
    spacing: String,
    /// The unit of both: "ft", else metres.
    #[serde(rename = "in")]
    unit: String,
}

fn fewest(carried: &[Carried]) -> usize {
    carried.first().map_or(0, |one| one.stations)
}

/// What one more would break, where the fewest work.
fn limit_words(carried: &[Carried], language: Language) -> String {
    let limit = carried.first().and_then(|one| one.limit);
    limit.map_or_else(|| String::from("–"), |code| codes::title_of(code.as_str(), language))
}

/// The rulers of a run's length and of a spacing.
fn rulers(locale: Locale) -> (Ruler, Ruler) {
    let total = (
        Scale { least: 1.0, most: 200.0, step: 1.0, usual: 60.0, tick: 50.0 },
        Scale { least: 5.0, most: 700.0, step: 5.0, usual: 200.0, tick: 100.0 },
    );
    let spacing = (
        Scale { least: 1.0, most: 40.0, step: 1.0, usual: 6.0, tick: 10.0 },
        Scale { least: 5.0, most: 120.0, step: 5.0, usual: 20.0, tick: 20.0 },
    );
    (Ruler::new(total.0, total.1, locale), Ruler::new(spacing.0, spacing.1, locale))
}

impl Question for Reach {
    const KIND: Kind = Kind::Reach;

    fn answered(&self, book: &Book, locale: Locale) -> Result<Answered, Refused> {
        let language = locale.language;
        let (sources, loaded) = (&book.sources, &book.loaded);
        let catalogue = loaded.catalogue();
        let usual = usual_family(catalogue).unwrap_or_default();
        let family = chosen(&self.family, usual, catalogue.families.contains_key(&self.family));
        let mut question = default_question(catalogue, family)
            .ok_or_else(|| Refused::Unfit(OfficeRefusal::FamilyLacksParts.both()))?;
        let fits = is_indoor(catalogue, family, &self.station);
        question.station = chosen(&self.station, &question.station.clone(), fits).to_string();
        let supply = supply_asked(catalogue, family, &self.supply);
        if let Some(supply) = &supply {
            question.supply.clone_from(supply);
        }
        let cable = called(catalogue, &self.cable, "pair-0.8").to_string();
        let (calls, most_calls) = calls_asked(catalogue, family, &self.calls);
        let (of_total, of_spacing) = rulers(locale);
        let (total_m, spacing_m) =
            (of_total.asked_m(&self.total, &self.unit), of_spacing.asked_m(&self.spacing, &self.unit));
        let by_spacing = self.by == "spacing";
        let as_spread =
            |length_m: f64| if by_spacing { Spread::Apart(length_m) } else { Spread::Over(length_m) };
        let (ruler, length_m) = if by_spacing { (of_spacing, spacing_m) } else { (of_total, total_m) };
        let spread = as_spread(length_m);
        let run = OneRun { question, supply_is_stated: supply.is_some(), cable, total_m, calls };
        let unfit = |error: BareSiteError| Refused::Unfit(error.both());
        let own = stations_spread(sources, loaded, &run, spread).map_err(unfit)?;
        let names: Vec<String> =
            catalogue.cables.keys().filter(|name| **name != run.cable).cloned().collect();
        let each = by_cable(sources, loaded, &run, spread, &names).map_err(unfit)?;
        let mut others: Vec<(String, Vec<Carried>)> = names.into_iter().zip(each).collect();
        others.sort_by(|a, b| fewest(&b.1).cmp(&fewest(&a.1)).then_with(|| a.0.cmp(&b.0)));
        let lengths_m: Vec<f64> =
            (1..=POINTS).map(|step| f64::from(step) * ruler.most_m() / f64::from(POINTS)).collect();
        let spreads: Vec<Spread> = lengths_m.iter().copied().map(as_spread).collect();
        let each = by_spread(sources, loaded, &run, &spreads).map_err(unfit)?;
        let curve: Vec<(f64, usize)> =
            lengths_m.into_iter().zip(each.iter().map(|carried| fewest(carried))).collect();
        let lightest =
            if fits { None } else { lightest_spread(sources, loaded, &run, spread).map_err(unfit)? };
        let say = |label: Label| label.say(language);
        let supply_words = match &supply {
            Some(name) => format!("{name}, {}", power_word(power_of(catalogue, name), language)),
            None => say(Label::LargestOfEach).to_string(),
        };
        let length_label = if by_spacing { Label::Spacing } else { Label::RunLength };
        let form = html! {
            (family_field(catalogue, family, language))
            div #of-family {
                (station_field(catalogue, family, &run.question.station, language))
                (supply_field(catalogue, family, Label::LargestOfEach, supply.as_deref(), language))
                (calls_field(most_calls, calls, language))
            }
            (cable_field(catalogue, &run.cable, language))
            fieldset.known {
                legend { (say(Label::WhatIsKnown)) }
                div.choices {
                    @for (value, label, is_it) in [("total", Label::RunLength, !by_spacing), ("spacing", Label::Spacing, by_spacing)] {
                        label { input type="radio" name="by" value=(value) checked[is_it]; " " (say(label)) }
                    }
                }
                div.of-total { (of_total.slider("total", Label::RunLength, total_m)) }
                div.of-spacing { (of_spacing.slider("spacing", Label::Spacing, spacing_m)) }
            }
            (of_total.unit_field())
        };
        Ok(Answered {
            question: vec![
                (say(Label::Family), family.to_string()),
                (say(Label::Station), run.question.station.clone()),
                (say(Label::Supply), supply_words),
                (say(Label::CallsAtOnce), calls.to_string()),
                (say(Label::Cable), run.cable.clone()),
                (say(length_label), ruler.words(length_m)),
            ],
            lines: spread_said(&run, spread, &own, lightest.as_ref(), locale),
            works: !own.is_empty() && own.iter().all(|one| one.stations > 0),
            form,
            more: html! {
                (chart(&curve, (length_m, fewest(&own)), &ruler, language))
                (other_cables(&others, catalogue, language))
            },
        })
    }
}

fn other_cables(others: &[(String, Vec<Carried>)], catalogue: &Catalogue, language: Language) -> Markup {
    let say = |label: Label| label.say(language);
    let title = |name: &str| {
        catalogue
            .cables
            .get(name)
            .map_or_else(|| name.to_string(), |cable| cable.head.title.of(language).to_string())
    };
    html! {
        h2 { (say(Label::OtherCables)) }
        table.list {
            thead { tr { th scope="col" { (say(Label::Cable)) } th.number scope="col" { (say(Label::Stations)) } th scope="col" { (say(Label::OneMore)) } } }
            tbody {
                @for (name, carried) in others {
                    tr { th scope="row" { (title(name)) } td.number { strong { (fewest(carried)) } } td { (limit_words(carried, language)) } }
                }
            }
        }
    }
}
