//! The table of everything, with the same values as the drawing; and the voltage along one run.

use super::details::{class_of, place_words};
use super::shell::bar;
use crate::locale::Reader;
use crate::office::Office;
use crate::refused::Refused;
use crate::routes::{blocking, opened};
use crate::work::State as SiteState;
use axum::extract::{Path, State};
use axum::response::Html;
use latchline_assess::VoltageResults;
use latchline_drawing::elevation;
use latchline_finding::{Locale, Severity};
use latchline_site::model::{RunStop, Site};
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
        (supply.id.to_string(), Label::Supply, supply.model.value.clone(), place_words(site, &supply.place))
    });
    let boxes = site.boxes.iter().map(|entry| {
        let kind = match site.box_model(entry).role.value {
            BoxRole::Distributor => Label::Distributor,
            BoxRole::BranchBox => Label::BranchBox,
        };
        (entry.id.to_string(), kind, entry.model.value.clone(), place_words(site, &entry.place))
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
            place_words(site, site.station_place(station)),
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
                            td { (bar(class_of(row.step))) }
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
        datalist #cables { @for cable in site.catalogue.cables.values() { option value=(cable.head.name) { (cable.head.title) } } }
        datalist #models {
            @for model in site.catalogue.stations.values().filter(|model| model.family.value == site.family.value) { option value=(model.head.name) { (model.head.title) } }
        }
    }
}

fn scaled(locale: Locale, metres: f64) -> f64 {
    locale.scaled(latchline_finding::Figure::new(metres, latchline_finding::Unit::Metre)).0
}

fn current(results: &VoltageResults, run: usize, locale: Locale) -> String {
    let found = results.run_currents.get(run).and_then(Option::as_ref).and_then(|current| current.current_a);
    found
        .map(|a| format!("{} A", figures::decimals(figures::rounded_up(a, 2), locale.language)))
        .unwrap_or_default()
}

fn finding(severity: Option<Severity>, words: &str, locale: Locale) -> Markup {
    let Some(severity) = severity else { return html! {} };
    let label = match severity {
        Severity::Error => Label::Fails,
        Severity::Warning => Label::Warning,
        Severity::Advice => Label::Advice,
    };
    html! { strong.severity class={ "is-" (severity.word()) } { (label.say(locale.language)) } " " (words) }
}

/// A point of the plot: name, distance in metres, worst voltage, limit.
struct Point<'a> {
    name: &'a str,
    at_m: f64,
    volts: f64,
    limit_v: f64,
}

/// Worst voltage of every station along a run, each against its own limit.
pub(crate) fn profile(site: &Site, results: &VoltageResults, run: usize, locale: Locale) -> Markup {
    let run = &site.runs[run];
    let mut points: Vec<Point<'_>> = Vec::new();
    let mut at_m = 0.0;
    for section in &run.sections {
        at_m += section.length.value.as_metres();
        let RunStop::Station(station) = section.to else { continue };
        let name = site.stations[station].id.as_str();
        let found = results.devices.iter().find(|device| device.id.as_str() == name);
        if let Some((device, volts)) = found.and_then(|device| Some((device, device.worst.adverse_v?))) {
            points.push(Point { name, at_m, volts, limit_v: device.worst.limit_v });
        }
    }
    if points.len() < 2 {
        return html! {};
    }
    let low =
        points.iter().map(|point| point.limit_v.min(point.volts)).fold(f64::INFINITY, f64::min).floor() - 1.0;
    let high = points.iter().map(|point| point.volts).fold(low + 1.0, f64::max).ceil() + 0.5;
    let (width, height, left, top) = (300.0, 130.0, 34.0, 16.0);
    let x = |metres: f64| left + metres / at_m.max(0.1) * (width - left - 34.0);
    let y = |volts: f64| top + (high - volts) / (high - low) * (height - top - 24.0);
    let line = |value: fn(&Point<'_>) -> f64| -> String {
        points
            .iter()
            .map(|point| format!("{:.1},{:.1}", x(point.at_m), y(value(point))))
            .collect::<Vec<_>>()
            .join(" ")
    };
    let number = |value: f64| figures::decimals(figures::rounded_down(value, 1), locale.language);
    let title = format!("{} {}", Label::Along.say(locale.language), run.id);
    let last = &points[points.len() - 1];
    html! {
        h3 { (title) }
        svg.profile viewBox={ "0 0 " (width) " " (height) } role="group" aria-label=(title) {
            @for volts in [low.ceil(), high.floor()] {
                line.grid x1=(left) x2=(width - 4.0) y1=(format!("{:.1}", y(volts))) y2=(format!("{:.1}", y(volts))) {}
                text x=(left - 6.0) y=(format!("{:.1}", y(volts) + 4.0)) text-anchor="end" { (volts) " V" }
            }
            polyline.limit points=(line(|point| point.limit_v)) {}
            polyline.curve points=(line(|point| point.volts)) {}
            @for point in &points {
                g tabindex="0" role="img" aria-label={ (point.name) ": " (number(point.volts)) " V, " (Label::Limit.say(locale.language)) " " (number(point.limit_v)) " V" } {
                    title { (point.name) ": " (number(point.volts)) " V" }
                    circle.below[point.volts < point.limit_v] cx=(format!("{:.1}", x(point.at_m))) cy=(format!("{:.1}", y(point.volts))) r="3.5" {}
                }
            }
            text.end x=(format!("{:.1}", x(last.at_m) + 6.0)) y=(format!("{:.1}", y(last.volts) + 4.0)) { (number(last.volts)) }
            text.quiet x=(format!("{:.1}", x(points[0].at_m))) y=(height - 6.0) text-anchor="middle" { (points[0].name) }
            text.quiet x=(format!("{:.1}", x(last.at_m))) y=(height - 6.0) text-anchor="middle" { (last.name) }
        }
    }
}
