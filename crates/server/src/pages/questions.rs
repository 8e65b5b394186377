//! Questions that come by telephone: no site is needed, the sentence to say stands on top, every answer has an address.

use super::shell::Page;
use crate::blank;
use crate::engine::blocking;
use crate::locale::Reader;
use crate::office::Office;
use crate::refused::Refused;
use axum::extract::{Query, State};
use axum::response::Html;
use latchline_finding::{Figure, Language, Locale, Sources, Unit};
use latchline_reach::default_question;
use latchline_reach::telephone::{
    Carried, Lightest, LockWay, OneRun, by_cable, by_length, cable_called, dry_contact_said, lightest_on,
    lock_cable, lock_said, run_said, stations_on, switches_for, takes_dry_contact, usual_family,
};
use latchline_site::catalogue::{AddressField, Catalogue, FieldKind, StationKind};
use latchline_site::{LoadedCatalogues, builtin_catalogue};
use latchline_words::codes;
use latchline_words::office::Label;
use maud::{Markup, html};
use serde::Deserialize;
use std::sync::Arc;

fn sources() -> (Sources, latchline_finding::FileId) {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let file = sources.add(name, text);
    (sources, file)
}

/// A number that came in an address.
fn number(text: &str, usual: f64, least: f64, most: f64) -> f64 {
    let number = text.trim().replace(',', ".").parse::<f64>().ok().filter(|number| number.is_finite());
    number.unwrap_or(usual).clamp(least, most)
}

/// A length in the reader's units.
fn length(metres: f64, locale: Locale) -> String {
    let (value, decimals, symbol) = locale.scaled(Figure::new(metres, Unit::Metre));
    format!("{} {symbol}", locale.trimmed(value, usize::from(decimals)))
}

/// How many, how far.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct Reach {
    family: String,
    station: String,
    cable: String,
    total: String,
}

/// The longest run on the page, in metres.
const LONGEST_M: f64 = 200.0;

/// The three questions, of which one is asked.
fn menu(asked: Label, language: Language) -> Markup {
    let all = [
        (Label::HowMany, "/questions"),
        (Label::WhichCable, "/questions/lock"),
        (Label::WhichSwitches, "/questions/switches"),
    ];
    html! {
        nav.asked aria-label=(Label::Questions.say(language)) {
            @for (label, to) in all { a href=(to) aria-current=[(label == asked).then_some("page")] { (label.say(language)) } }
        }
    }
}

/// A length to slide, shown in the reader's unit; what is sent are metres.
fn slider(id: &str, label: Label, value: f64, least: f64, most: f64, locale: Locale) -> Markup {
    let language = locale.language;
    let (per_metre, _, symbol) = locale.scaled(Figure::new(1.0, Unit::Metre));
    html! {
        div.field.slider {
            label for=(id) { (label.say(language)) }
            output for=(id) data-per-metre=(per_metre) data-symbol=(symbol) { (length(value, locale)) }
            input type="range" id=(id) name=(id) min=(least) max=(most) step="1" value=(value);
        }
    }
}

fn chosen<'a>(asked: &'a str, usual: &'a str, known: bool) -> &'a str {
    if !asked.is_empty() && known { asked } else { usual }
}

/// The cable that an address asks for, by its name or an everyday name.
fn called<'a>(catalogue: &'a Catalogue, asked: &str, usual: &'a str) -> &'a str {
    match asked.trim() {
        "" => usual,
        asked => cable_called(catalogue, asked).map_or(usual, |cable| &cable.head.name),
    }
}

struct Reached {
    run: OneRun,
    /// How many of the lightest work, where no model was named.
    lightest: Option<Lightest>,
    /// The supply that carries least first.
    own: Vec<Carried>,
    others: Vec<(String, Vec<Carried>)>,
    /// Stations by length, for the chart.
    curve: Vec<(f64, usize)>,
}

fn fewest(carried: &[Carried]) -> usize {
    carried.first().map_or(0, |one| one.stations)
}

/// The same question as `latchline reach --total`, put the same way.
fn reached(asked: &Reach, loaded: &LoadedCatalogues) -> Result<Reached, Refused> {
    let catalogue = loaded.catalogue();
    let usual = usual_family(catalogue).unwrap_or_default();
    let family = chosen(&asked.family, usual, catalogue.families.contains_key(&asked.family));
    let mut question = default_question(catalogue, family).ok_or_else(|| {
        Refused::Unfit(String::from("The family lacks a supply, distributor, door or indoor station."))
    })?;
    let fits = catalogue
        .stations
        .get(&asked.station)
        .is_some_and(|model| model.family.value == family && model.kind.value == StationKind::Indoor);
    question.station = chosen(&asked.station, &question.station.clone(), fits).to_string();
    let cable = called(catalogue, &asked.cable, "pair-0.8").to_string();
    let total_m = number(&asked.total, 60.0, 1.0, LONGEST_M);
    let calls = catalogue.families[family].simultaneous_calls.value as usize;
    let run = OneRun { question, supply_is_stated: false, cable, total_m, calls };
    let (sources, _) = sources();
    let unfit = |error: latchline_reach::BareSiteError| Refused::Unfit(error.to_string());
    let own = stations_on(&sources, loaded, &run).map_err(unfit)?;
    let names: Vec<String> = catalogue.cables.keys().filter(|name| **name != run.cable).cloned().collect();
    let each = by_cable(&sources, loaded, &run, &names).map_err(unfit)?;
    let mut others: Vec<(String, Vec<Carried>)> = names.into_iter().zip(each).collect();
    others.sort_by(|a, b| fewest(&b.1).cmp(&fewest(&a.1)).then_with(|| a.0.cmp(&b.0)));
    let lengths_m: Vec<f64> = (1..=10).map(|step| f64::from(step) * LONGEST_M / 10.0).collect();
    let each = by_length(&sources, loaded, &run, &lengths_m).map_err(unfit)?;
    let curve = lengths_m.into_iter().zip(each.iter().map(|carried| fewest(carried))).collect();
    let lightest = if fits { None } else { lightest_on(&sources, loaded, &run).map_err(unfit)? };
    Ok(Reached { run, lightest, own, others, curve })
}

/// What one more would break, where the fewest work.
fn limit_words(carried: &[Carried], language: Language) -> String {
    let limit = carried.first().and_then(|one| one.limit);
    limit.map_or_else(
        || String::from("–"),
        |code| {
            codes::of(code.as_str())
                .map_or_else(|| code.to_string(), |words| words.title(language).to_string())
        },
    )
}

/// The page of the first question.
pub(crate) async fn reach(
    State(office): State<Arc<Office>>,
    Reader(locale): Reader,
    Query(asked): Query<Reach>,
) -> Result<Html<String>, Refused> {
    let language = locale.language;
    let permit = Arc::clone(&office.thinking)
        .acquire_owned()
        .await
        .map_err(|_| Refused::Broken("the server is stopping"))?;
    let content = blocking(move || {
        let _permit = permit;
        let loaded = blank::catalogue();
        let found = reached(&asked, &loaded)?;
        Ok(reach_markup(&found, loaded.catalogue(), locale))
    })
    .await?;
    let page = Page {
        title: Label::HowMany.say(language),
        of: Label::Questions,
        class: "questions",
        script: "pages.js",
        here: "/questions",
        locale,
    };
    Ok(page.around(&office, &content))
}

fn reach_markup(found: &Reached, catalogue: &Catalogue, locale: Locale) -> Markup {
    let language = locale.language;
    let say = |label: Label| label.say(language);
    let OneRun { question, cable, total_m, .. } = &found.run;
    let title = |name: &str| {
        catalogue.cables.get(name).map_or_else(|| name.to_string(), |cable| cable.head.title.clone())
    };
    html! {
        div.ask {
            section.panel {
                (menu(Label::HowMany, language))
                form method="get" action="/questions" data-follow {
                    div.field { label for="family" { (say(Label::Family)) } select #family name="family" { @for family in catalogue.families.values() { option value=(family.head.name) selected[family.head.name == question.family] { (family.head.title) } } } }
                    div.field { label for="station" { (say(Label::Station)) } select #station name="station" {
                        @for model in catalogue.stations.values().filter(|model| model.family.value == question.family && model.kind.value == StationKind::Indoor) {
                            option value=(model.head.name) selected[model.head.name == question.station] { (model.head.name) " · " (model.head.title) }
                        }
                    } }
                    div.field { label for="cable" { (say(Label::Cable)) } select #cable name="cable" { @for one in catalogue.cables.values() { option value=(one.head.name) selected[one.head.name == *cable] { (one.head.name) " · " (one.head.title) } } } }
                    (slider("total", Label::RunLength, *total_m, 1.0, LONGEST_M, locale))
                    div.buttons { button.main type="submit" { (say(Label::Answer)) } }
                }
            }
            section.panel.answer #answer aria-live="polite" {
                @let lines = run_said(&found.run, &found.own, found.lightest.as_ref(), locale);
                (said(&lines, fewest(&found.own) > 0, language))
                div.buttons.no-print { button type="button" data-copy-link { (say(Label::CopyLink)) } button type="button" data-print { (say(Label::Print)) } }
                (chart(found, locale))
                h2 { (say(Label::OtherCables)) }
                table.list {
                    thead { tr { th scope="col" { (say(Label::Cable)) } th.number scope="col" { (say(Label::Stations)) } th scope="col" { (say(Label::OneMore)) } } }
                    tbody {
                        @for (name, carried) in &found.others {
                            tr { th scope="row" { (title(name)) } td.number { strong { (fewest(carried)) } } td { (limit_words(carried, language)) } }
                        }
                    }
                }
            }
        }
    }
}

/// The sentence to say, and under it what it rests on.
fn said(lines: &[String], works: bool, language: Language) -> Markup {
    html! {
        @if let Some((first, rest)) = lines.split_first() {
            h1.sentence.is-error[!works] { (first) }
            @for line in rest { p.quiet { (line) } }
        }
        p.quiet { (Label::Caution.say(language)) }
    }
}

/// Stations by length of the run, as steps: between two lengths holds what holds at the greater one.
fn chart(found: &Reached, locale: Locale) -> Markup {
    let most =
        found.curve.iter().map(|(_, stations)| *stations).max().unwrap_or(0).max(fewest(&found.own)).max(1);
    let most = most as f64;
    let (width, height, left, top) = (640.0, 220.0, 40.0, 14.0);
    let x = |metres: f64| left + metres / LONGEST_M * (width - left - 30.0);
    let y = |stations: f64| top + (most - stations) / most * (height - top - 34.0);
    let mut path = String::new();
    let mut last: Option<f64> = None;
    for (length_m, stations) in &found.curve {
        let stations = *stations as f64;
        match last {
            None => path.push_str(&format!("M{:.1} {:.1}", x(0.0), y(stations))),
            Some(_) => path.push_str(&format!("V{:.1}", y(stations))),
        }
        path.push_str(&format!("H{:.1}", x(*length_m)));
        last = Some(stations);
    }
    let at = (x(found.run.total_m), y(fewest(&found.own) as f64));
    let label = format!(
        "{}: {} × {}",
        length(found.run.total_m, locale),
        fewest(&found.own),
        Label::Stations.say(locale.language)
    );
    html! {
        svg.chart viewBox={ "0 0 " (width) " " (height) } role="img" aria-label=(label) {
            @for step in 0..=4 {
                @let stations = (most * f64::from(step) / 4.0).round();
                line.grid x1=(left) x2=(width - 30.0) y1=(format!("{:.1}", y(stations))) y2=(format!("{:.1}", y(stations))) {}
                text x=(left - 8.0) y=(format!("{:.1}", y(stations) + 4.0)) text-anchor="end" { (stations) }
            }
            @for metres in [50.0, 100.0, 150.0, 200.0] { text x=(format!("{:.1}", x(metres))) y=(height - 8.0) text-anchor="middle" { (length(metres, locale)) } }
            path.curve d=(path) {}
            line.here x1=(format!("{:.1}", at.0)) x2=(format!("{:.1}", at.0)) y1=(top) y2=(height - 30.0) {}
            circle cx=(format!("{:.1}", at.0)) cy=(format!("{:.1}", at.1)) r="5" {}
        }
    }
}

/// A lock's cable.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct LockAsked {
    lock: String,
    cable: String,
    length: String,
    /// Whether the cable runs outdoors: "1", or nothing.
    outdoors: String,
}

/// The page of a lock's cable: the same judgement as a door's sheet, on a small house.
pub(crate) async fn lock(
    State(office): State<Arc<Office>>,
    Reader(locale): Reader,
    Query(asked): Query<LockAsked>,
) -> Result<Html<String>, Refused> {
    let language = locale.language;
    let content = blocking(move || Ok(lock_markup(&asked, locale))).await?;
    let page = Page {
        title: Label::WhichCable.say(language),
        of: Label::Questions,
        class: "questions",
        script: "pages.js",
        here: "/questions/lock",
        locale,
    };
    Ok(page.around(&office, &content))
}

fn lock_markup(asked: &LockAsked, locale: Locale) -> Markup {
    let language = locale.language;
    let say = |label: Label| label.say(language);
    let loaded = blank::catalogue();
    let catalogue = loaded.catalogue();
    let lock = chosen(&asked.lock, "strike-12", catalogue.locks.contains_key(&asked.lock));
    let cable = called(catalogue, &asked.cable, "flex-1.0");
    let length_m = number(&asked.length, 8.0, 0.5, 200.0);
    let outdoors = asked.outdoors == "1";
    let question = usual_family(catalogue).and_then(|family| default_question(catalogue, family));
    let found = question.as_ref().and_then(|question| {
        let (family, door, supply) = (&*question.family, &*question.door, &*question.supply);
        let way = LockWay { lock, length_m, outdoors, family, door, supply };
        lock_cable(&sources().0, &loaded, &way, cable)
    });
    let lines = match takes_dry_contact(catalogue, lock) {
        true => dry_contact_said(lock, length_m, locale),
        false => lock_said(lock, length_m, found.as_ref(), locale),
    };
    html! {
        div.ask {
            section.panel {
                (menu(Label::WhichCable, language))
                form method="get" action="/questions/lock" data-follow {
                    div.field { label for="lock" { (say(Label::Lock)) } select #lock name="lock" { @for one in catalogue.locks.values() { option value=(one.head.name) selected[one.head.name == lock] { (one.head.title) } } } }
                    div.field { label for="cable" { (say(Label::Cable)) } select #cable name="cable" { @for one in catalogue.cables.values() { option value=(one.head.name) selected[one.head.name == cable] { (one.head.name) " · " (one.head.title) } } } }
                    (slider("length", Label::LockLength, length_m, 1.0, 60.0, locale))
                    div.field.check { input #outdoors type="checkbox" name="outdoors" value="1" checked[outdoors]; label for="outdoors" { (say(Label::CableOutdoors)) } }
                    div.buttons { button.main type="submit" { (say(Label::Answer)) } }
                }
            }
            section.panel.answer #answer aria-live="polite" {
                @let works = found.as_ref().is_none_or(|found| found.holds());
                (said(&lines, works, language))
                div.buttons.no-print { button type="button" data-copy-link { (say(Label::CopyLink)) } button type="button" data-print { (say(Label::Print)) } }
            }
        }
    }
}

/// The word of an address field.
pub(crate) fn field_word(kind: FieldKind, language: Language) -> &'static str {
    match kind {
        FieldKind::Building => Label::Building,
        FieldKind::Dwelling => Label::Dwelling,
        FieldKind::Entrance => Label::DoorStation,
        FieldKind::Extension => Label::Extension,
        FieldKind::Management => Label::ManagementStation,
    }
    .say(language)
}

/// Which switches.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct SwitchesAsked {
    family: String,
    building: String,
    dwelling: String,
    extension: String,
}

/// The page of switches.
pub(crate) async fn switches(
    State(office): State<Arc<Office>>,
    Reader(locale): Reader,
    Query(asked): Query<SwitchesAsked>,
) -> Result<Html<String>, Refused> {
    let language = locale.language;
    let content = blocking(move || Ok(switches_markup(&asked, locale))).await?;
    let page = Page {
        title: Label::WhichSwitches.say(language),
        of: Label::Questions,
        class: "questions",
        script: "pages.js",
        here: "/questions/switches",
        locale,
    };
    Ok(page.around(&office, &content))
}

fn switches_markup(asked: &SwitchesAsked, locale: Locale) -> Markup {
    let language = locale.language;
    let say = |label: Label| label.say(language);
    let loaded = blank::catalogue();
    let catalogue = loaded.catalogue();
    let usual = usual_family(catalogue).unwrap_or_default();
    let family = chosen(&asked.family, usual, catalogue.families.contains_key(&asked.family));
    let Some(family) = catalogue.families.get(family) else { return html! {} };
    let number_of = |field: &AddressField| {
        let kind = field.kind;
        let text = match kind {
            FieldKind::Building => &asked.building,
            FieldKind::Extension => &asked.extension,
            _ => &asked.dwelling,
        };
        let (low, high) = (field.first.value, field.last.value);
        let usual = if kind == FieldKind::Dwelling { 12.0 } else { f64::from(low.max(1).min(high)) };
        Some(number(text, usual, f64::from(low), f64::from(high)) as u32)
    };
    let rows: Vec<(FieldKind, u32, String, u32, u32)> = switches_for(family, &number_of)
        .into_iter()
        .map(|row| {
            let positions = row.setting.map_or_else(|| String::from("–"), |setting| setting.to_string());
            (row.kind, row.number, positions, row.range.0, row.range.1)
        })
        .collect();
    let said: Vec<String> = rows
        .iter()
        .map(|(kind, number, positions, _, _)| {
            format!("{} {number}: {positions}", field_word(*kind, language))
        })
        .collect();
    html! {
        div.ask {
            section.panel {
                (menu(Label::WhichSwitches, language))
                form method="get" action="/questions/switches" data-follow {
                    div.field { label for="family" { (say(Label::Family)) } select #family name="family" { @for one in catalogue.families.values() { option value=(one.head.name) selected[one.head.name == family.head.name] { (one.head.title) } } } }
                    @for (kind, number, _, low, high) in &rows {
                        @let name = match kind { FieldKind::Building => "building", FieldKind::Extension => "extension", _ => "dwelling" };
                        div.field { label for=(name) { (field_word(*kind, language)) " (" (low) "–" (high) ")" } input id=(name) name=(name) inputmode="numeric" value=(number) autocomplete="off"; }
                    }
                    div.buttons { button.main type="submit" { (say(Label::Answer)) } }
                }
            }
            section.panel.answer #answer aria-live="polite" {
                h1.sentence { (said.join("; ")) "." }
                table.list { tbody { @for (kind, number, positions, _, _) in &rows { tr { th scope="row" { (field_word(*kind, language)) } td.number { (number) } td { strong { (positions) } } } } } }
                div.buttons.no-print { button type="button" data-copy-link { (say(Label::CopyLink)) } button type="button" data-print { (say(Label::Print)) } }
            }
        }
    }
}
