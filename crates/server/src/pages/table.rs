//! The table of everything, with the same values as the drawing.

use super::shell::bar;
use crate::engine::{blocking, opened};
use crate::locale::Reader;
use crate::office::Office;
use crate::printed;
use crate::refused::Refused;
use crate::work::State as SiteState;
use axum::extract::{Path, State};
use axum::response::Html;
use latchline_assess::VoltageResults;
use latchline_drawing::elevation;
use latchline_finding::{Locale, Severity};
use latchline_site::model::Site;
use latchline_words::figures;
use latchline_words::office::Label;
use maud::{Markup, html};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The table alone.
pub(crate) async fn table(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
) -> Result<Html<String>, Refused> {
    let (_, state) = opened(&office, &name).await?;
    let markup = blocking(move || {
        let (Some(site), Some(results)) = (state.view.site(), &state.results) else { return Ok(html! {}) };
        Ok(whole(site, results, &state, locale))
    })
    .await?;
    Ok(Html(markup.into_string()))
}

/// Name, model and place of what has a card, in the order of the cards.
fn devices(site: &Site) -> Vec<(String, Label, String, String)> {
    use latchline_site::catalogue::BoxRole;
    use latchline_site::model::StationOwner;
    let supplies = site.supplies.iter().map(|supply| {
        (
            supply.id.to_string(),
            Label::Supply,
            supply.model.value.clone(),
            site.place_key(&supply.place).unwrap_or_default(),
        )
    });
    let boxes = site.boxes.iter().map(|entry| {
        let kind = match site.box_model(entry).role.value {
            BoxRole::Distributor => Label::Distributor,
            BoxRole::BranchBox => Label::BranchBox,
        };
        (
            entry.id.to_string(),
            kind,
            entry.model.value.clone(),
            site.place_key(&entry.place).unwrap_or_default(),
        )
    });
    let stations = site.stations.iter().map(|station| {
        let kind = match station.owner {
            StationOwner::Dwelling { .. } => Label::IndoorStation,
            StationOwner::Entrance(_) => Label::DoorStation,
            StationOwner::Management(_) => Label::ManagementStation,
        };
        (
            station.id.to_string(),
            kind,
            station.model.value.clone(),
            site.place_key(site.station_place(station)).unwrap_or_default(),
        )
    });
    supplies.chain(boxes).chain(stations).collect()
}

fn whole(site: &Site, results: &VoltageResults, state: &SiteState, locale: Locale) -> Markup {
    let say = |label: Label| label.say(locale.language);
    let rows = elevation::printed(site, results, &state.findings, locale);
    let devices = devices(site);
    let mut led: BTreeMap<&str, &str> = BTreeMap::new();
    for run in &site.runs {
        for section in &run.sections {
            led.entry(site.stop_id(section.to).as_str()).or_insert(run.id.as_str());
        }
    }
    let head = |label: Label, number: bool| {
        html! { th.number[number] scope="col" aria-sort="none" { button type="button" data-sort { (say(label)) } } }
    };
    html! {
        div.tools.table-tools {
            label for="filter" { (say(Label::Filter)) }
            input #filter type="search" autocomplete="off" spellcheck="false";
            button type="button" #copy-table { (say(Label::CopyTable)) }
            p.hint { (say(Label::SortHint)) " " (say(Label::EditHint)) }
        }
        div.scroll tabindex="0" role="region" aria-label=(say(Label::Table)) {
            table.everything #everything {
                thead { tr {
                    (head(Label::Element, false)) (head(Label::Kind, false)) (head(Label::Place, false)) (head(Label::Model, false))
                    (head(Label::Run, false)) (head(Label::Voltage, true)) (head(Label::Margin, true)) th scope="col" { span.visually-hidden { (say(Label::Margin)) } } (head(Label::Finding, false))
                } }
                tbody {
                    @for (at, (row, (id, kind, model, place))) in rows.iter().zip(&devices).enumerate() {
                        tr data-row=(at) {
                            th scope="row" { button.link type="button" data-pick=(id) { (id) } }
                            td { (say(*kind)) }
                            td { (place) }
                            td data-edit="model" data-element=(id) tabindex="0" { (model) }
                            td { (led.get(id.as_str()).copied().unwrap_or("")) }
                            td.number.figure { (row.figure) }
                            td.number.margin { (row.margin) }
                            td { (bar(printed::step_word(row.step))) }
                            td.trouble { (finding(row.severity, &row.trouble, locale)) }
                        }
                    }
                    @for (at, run) in site.runs.iter().enumerate() {
                        @let row = &rows[devices.len() + at];
                        @let lengths: Vec<String> = run.sections.iter().map(|section| locale.trimmed(scaled(locale, section.length.value.as_metres()), 1)).collect();
                        tr data-row=(devices.len() + at) {
                            th scope="row" { button.link type="button" data-pick=(run.id) { (run.id) } }
                            td { (say(Label::Run)) }
                            td data-edit="port" data-run=(run.id) tabindex="0" { (site.start_id(run.from)) }
                            td data-edit="cable" data-run=(run.id) tabindex="0" { (run.cable.value) }
                            td data-edit="lengths" data-run=(run.id) tabindex="0" { (lengths.join(" · ")) " " (locale.symbol(latchline_finding::Unit::Metre)) }
                            td.number { (current(results, at, locale)) }
                            td {}
                            td {}
                            td.trouble { (finding(row.severity, &row.trouble, locale)) }
                        }
                    }
                }
            }
        }
        datalist #cables { @for cable in site.catalogue.cables.values() { option value=(cable.head.name) { (cable.head.title.of(locale.language)) } } }
        datalist #models {
            @for model in site.catalogue.stations.values().filter(|model| model.family.value == site.family.value) { option value=(model.head.name) { (model.head.title.of(locale.language)) } }
        }
    }
}

fn scaled(locale: Locale, metres: f64) -> f64 {
    locale.scaled(latchline_finding::Figure::new(metres, latchline_finding::Unit::Metre)).0
}

fn current(results: &VoltageResults, run: usize, locale: Locale) -> String {
    let found = results.run_currents.get(run).and_then(Option::as_ref).and_then(|current| current.current_a);
    found.map(|a| format!("{} A", figures::amperes(a, locale.language))).unwrap_or_default()
}

fn finding(severity: Option<Severity>, words: &str, locale: Locale) -> Markup {
    let Some(severity) = severity else { return html! {} };
    let label = match severity {
        Severity::Error => Label::Fails,
        Severity::Warning => Label::Warning,
        Severity::Advice => Label::Advice,
    };
    html! { strong class={ "severity is-" (severity.word()) } { (label.say(locale.language)) } " " (words) }
}
