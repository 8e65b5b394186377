//! Fields of the forms: parts of the catalogue to choose from, numbers, and what an address says of them.

use latchline_finding::Language;
use latchline_reach::telephone::{Power, cable_called, power_of, power_word, supplies_of};
use latchline_site::catalogue::{Catalogue, StationKind, SupplyModel};
use latchline_words::office::Label;
use maud::{Markup, html};

/// What an address asks for where it is known, else what is usual.
pub(crate) fn chosen<'a>(asked: &'a str, usual: &'a str, is_known: bool) -> &'a str {
    if !asked.is_empty() && is_known { asked } else { usual }
}

/// A number that came in an address.
pub(crate) fn number(text: &str, usual: f64, least: f64, most: f64) -> f64 {
    let number = text.trim().replace(',', ".").parse::<f64>().ok().filter(|number| number.is_finite());
    number.unwrap_or(usual).clamp(least, most)
}

/// The cable that an address asks for, by its name or an everyday name.
pub(crate) fn called<'a>(catalogue: &'a Catalogue, asked: &str, usual: &'a str) -> &'a str {
    match asked.trim() {
        "" => usual,
        asked => cable_called(catalogue, asked).map_or(usual, |cable| &cable.head.name),
    }
}

/// Whether a model is an indoor station of a family.
pub(crate) fn is_indoor(catalogue: &Catalogue, family: &str, model: &str) -> bool {
    catalogue
        .stations
        .get(model)
        .is_some_and(|model| model.family.value == family && model.kind.value == StationKind::Indoor)
}

/// The indoor stations of a family by name.
pub(crate) fn indoor(catalogue: &Catalogue, family: &str) -> Vec<String> {
    catalogue.stations.keys().filter(|name| is_indoor(catalogue, family, name)).cloned().collect()
}

/// A supply of the family where an address asks for one.
pub(crate) fn supply_asked(catalogue: &Catalogue, family: &str, asked: &str) -> Option<String> {
    let supply = catalogue.supplies.get(asked)?;
    (supply.family.value == family).then(|| asked.to_string())
}

/// The supplies that are asked: the one that is stated, else the largest without and the largest with a battery.
pub(crate) fn supplies(catalogue: &Catalogue, family: &str, stated: Option<&str>) -> Vec<(Power, String)> {
    match stated {
        Some(stated) => vec![(power_of(catalogue, stated), stated.to_string())],
        None => supplies_of(catalogue, family),
    }
}

/// A field to choose from: value and words of each.
pub(crate) fn choice(
    id: &str,
    label: Label,
    options: &[(String, String)],
    now: &str,
    language: Language,
) -> Markup {
    html! {
        div.field {
            label for=(id) { (label.say(language)) }
            select id=(id) name=(id) { @for (value, words) in options { option value=(value) selected[value == now] { (words) } } }
        }
    }
}

/// The families.
pub(crate) fn family_field(catalogue: &Catalogue, now: &str, language: Language) -> Markup {
    let all = catalogue
        .families
        .values()
        .map(|family| (family.head.name.clone(), family.head.title.of(language).to_string()));
    choice("family", Label::Family, &all.collect::<Vec<_>>(), now, language)
}

/// The indoor stations of a family.
pub(crate) fn station_field(catalogue: &Catalogue, family: &str, now: &str, language: Language) -> Markup {
    let named = |name: String| {
        let title = catalogue.stations.get(&name).map_or("", |model| model.head.title.of(language));
        let words = format!("{name} · {title}");
        (name, words)
    };
    let all: Vec<(String, String)> = indoor(catalogue, family).into_iter().map(named).collect();
    choice("station", Label::Station, &all, now, language)
}

/// The cables.
pub(crate) fn cable_field(catalogue: &Catalogue, now: &str, language: Language) -> Markup {
    let all = catalogue.cables.values().map(|cable| {
        (cable.head.name.clone(), format!("{} · {}", cable.head.name, cable.head.title.of(language)))
    });
    choice("cable", Label::Cable, &all.collect::<Vec<_>>(), now, language)
}

/// The supplies of a family whose power comes from there.
fn of_power<'c>(catalogue: &'c Catalogue, family: &str, power: Power) -> Vec<&'c SupplyModel> {
    let of_family = catalogue.supplies.values().filter(|supply| supply.family.value == family);
    of_family.filter(|supply| power_of(catalogue, &supply.head.name) == power).collect()
}

/// The supplies of a family, each with where its power comes from; first what holds where none is chosen.
pub(crate) fn supply_field(
    catalogue: &Catalogue,
    family: &str,
    unstated: Label,
    now: Option<&str>,
    language: Language,
) -> Markup {
    html! {
        div.field {
            label for="supply" { (Label::Supply.say(language)) }
            select #supply name="supply" {
                option value="" selected[now.is_none()] { (unstated.say(language)) }
                @for power in [Power::Mains, Power::BatteryEnd] {
                    @let supplies = of_power(catalogue, family, power);
                    @if !supplies.is_empty() {
                        optgroup label=(power_word(power, language)) {
                            @for supply in supplies {
                                option value=(supply.head.name) selected[now == Some(&*supply.head.name)] { (supply.head.name) " · " (supply.head.title.of(language)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Calls at once, up to what the family allows.
pub(crate) fn calls_field(most: usize, now: usize, language: Language) -> Markup {
    let all: Vec<(String, String)> = (1..=most).map(|calls| (calls.to_string(), calls.to_string())).collect();
    choice("calls", Label::CallsAtOnce, &all, &now.to_string(), language)
}

/// Calls at once that an address asks for, at most what the family allows and usually that.
pub(crate) fn calls_asked(catalogue: &Catalogue, family: &str, asked: &str) -> (usize, usize) {
    let most = catalogue.families.get(family).map_or(1, |family| family.simultaneous_calls.value.max(1));
    let asked = number(asked, f64::from(most), 1.0, f64::from(most)).round() as usize;
    (asked, most as usize)
}
