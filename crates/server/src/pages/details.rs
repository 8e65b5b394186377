//! What stands beside the drawing of one element: what it is, how it is fed, every state against its limit, what can be changed.

use super::shell::bar;
use crate::locale::Reader;
use crate::office::Office;
use crate::printed;
use crate::refused::Refused;
use crate::routes::{blocking, opened};
use crate::work::State as SiteState;
use axum::extract::{Path, Query, State};
use axum::response::Html;
use latchline_assess::{DeviceResult, VoltageResults};
use latchline_finding::{Finding, Language, Locale, Severity, StateKind};
use latchline_report::wording;
use latchline_site::model::{Run, RunStart, RunStop, Site, StationOwner};
use latchline_words::codes;
use latchline_words::figures;
use latchline_words::office::Label;
use latchline_words::states;
use maud::{Markup, html};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Which element.
#[derive(Debug, Deserialize)]
pub(crate) struct Which {
    id: String,
}

/// A part of a page: the details of an element.
pub(crate) async fn details(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
    Query(which): Query<Which>,
) -> Result<Html<String>, Refused> {
    let (_, state) = opened(&office, &name).await?;
    let markup = blocking(move || {
        let site = state.view.site().ok_or(Refused::NotFound)?;
        let results = state.results.as_ref().ok_or(Refused::NotFound)?;
        let about = About { site, results, state: &state, locale };
        about.element(&which.id).ok_or(Refused::NotFound)
    })
    .await?;
    Ok(Html(markup.into_string()))
}

struct About<'a> {
    site: &'a Site,
    results: &'a VoltageResults,
    state: &'a SiteState,
    locale: Locale,
}

/// What of a margin is thin, fair or ample, as the drawing has it.
fn step(margin_v: f64, thin_v: f64) -> &'static str {
    match margin_v {
        m if m < 0.0 => "below",
        m if m < thin_v => "thin",
        m if m < 3.0 * thin_v => "fair",
        _ => "ample",
    }
}

impl About<'_> {
    fn language(&self) -> Language {
        self.locale.language
    }

    fn say(&self, label: Label) -> &'static str {
        label.say(self.language())
    }

    fn down(&self, value: f64) -> String {
        figures::decimals(figures::rounded_down(value, 1), self.language())
    }

    fn up(&self, value: f64, decimals: usize) -> String {
        figures::decimals(figures::rounded_up(value, decimals), self.language())
    }

    fn length(&self, metres: f64) -> String {
        let figure = latchline_finding::Figure::new(metres, latchline_finding::Unit::Metre);
        let (value, decimals, symbol) = self.locale.scaled(figure);
        format!("{} {symbol}", self.locale.trimmed(value, usize::from(decimals)))
    }

    fn result(&self, id: &str) -> Option<&DeviceResult> {
        self.results.devices.iter().find(|device| device.id.as_str() == id)
    }

    fn element(&self, id: &str) -> Option<Markup> {
        if let Some(at) = self.site.runs.iter().position(|run| run.id.as_str() == id) {
            return Some(self.run(at));
        }
        let site = self.site;
        let catalogue = &site.catalogue;
        if let Some(supply) = site.supplies.iter().find(|supply| supply.id.as_str() == id) {
            let family = &site.supply_model(supply).family.value;
            let models = catalogue.supplies.values().filter(|model| model.family.value == *family);
            let models = models.map(|model| (model.head.name.as_str(), model.head.title.as_str())).collect();
            return Some(self.device(id, Label::Supply, &supply.model.value, models));
        }
        if let Some(entry) = site.boxes.iter().find(|entry| entry.id.as_str() == id) {
            let model = site.box_model(entry);
            let same = catalogue.boxes.values().filter(|other| {
                other.family.value == model.family.value && other.role.value == model.role.value
            });
            let models = same.map(|model| (model.head.name.as_str(), model.head.title.as_str())).collect();
            let is_branch = model.role.value == latchline_site::catalogue::BoxRole::BranchBox;
            let kind = if is_branch { Label::BranchBox } else { Label::Distributor };
            return Some(self.device(id, kind, &entry.model.value, models));
        }
        let station = site.stations.iter().find(|station| station.id.as_str() == id)?;
        let model = site.station_model(station);
        let same = catalogue
            .stations
            .values()
            .filter(|other| other.family.value == model.family.value && other.kind.value == model.kind.value);
        let models = same.map(|model| (model.head.name.as_str(), model.head.title.as_str())).collect();
        let kind = match station.owner {
            StationOwner::Dwelling { .. } => Label::IndoorStation,
            StationOwner::Entrance(_) => Label::DoorStation,
            StationOwner::Management(_) => Label::ManagementStation,
        };
        Some(self.device(id, kind, &station.model.value, models))
    }

    fn device(&self, id: &str, kind: Label, model: &str, models: Vec<(&str, &str)>) -> Markup {
        let result = self.result(id);
        let title = models.iter().find(|(name, _)| *name == model).map_or("", |(_, title)| title);
        let leads = self
            .site
            .runs
            .iter()
            .find(|run| run.sections.iter().any(|section| self.site.stop_id(section.to).as_str() == id));
        html! {
            p.kind { (self.say(kind)) }
            h2 { (id) }
            p.quiet { (title) }
            form.change data-kind="model" data-element=(id) {
                label for="d-model" { (self.say(Label::Model)) }
                select #d-model name="model" {
                    @for (name, title) in &models { option value=(name) selected[*name == model] { (name) " · " (title) } }
                }
            }
            @if let Some(run) = leads { p { (self.say(Label::FedBy)) " " button.link type="button" data-pick=(run.id) { (run.id) } } }
            (self.source(id))
            @if let Some(result) = result { (self.states(result)) (self.facts(result)) }
            (self.address(id))
            (self.findings(&[id]))
            (self.moves(id, leads))
            (self.runs_from(id))
        }
    }

    /// Every state's voltage against its limit.
    fn states(&self, result: &DeviceResult) -> Markup {
        let thin_v = self.site.policy.thin_margin.value.as_volts();
        let worst = result.worst.state.kind;
        html! {
            h3 { (self.say(Label::StateByState)) }
            table.figures {
                thead { tr { th scope="col" { (self.say(Label::State)) } th.number scope="col" { "V" } th.number scope="col" { (self.say(Label::Limit)) } th scope="col" { span.visually-hidden { (self.say(Label::Margin)) } } } }
                tbody {
                    @for kind in StateKind::ALL {
                        @if let (Some(voltage), Some(limit)) = (result.by_state.get(&kind), result.limit_by_state.get(&kind)) {
                            tr.picked[kind == worst] {
                                th scope="row" { (wording::capital(&self.state_name(kind, result))) }
                                td.number { @match voltage { Some(v) => { strong { (self.down(*v)) } } None => { "–" } } }
                                td.number.quiet { (self.up(*limit, 1)) }
                                td { (bar(step(voltage.map_or(f64::NEG_INFINITY, |v| v - limit), thin_v))) }
                            }
                        }
                    }
                }
            }
            @if let Some(calls) = states::calls_in_words(&result.worst.state, self.language()) { p.quiet { (calls) "." } }
        }
    }

    fn state_name(&self, kind: StateKind, result: &DeviceResult) -> String {
        if kind == result.worst.state.kind {
            return states::name(&result.worst.state, self.language());
        }
        states::name(&kind.into(), self.language())
    }

    fn facts(&self, result: &DeviceResult) -> Markup {
        let ohms = figures::decimals(format!("{:.2}", result.loop_resistance_ohm), self.language());
        html! {
            dl.facts {
                dt { (self.say(Label::Supply)) } dd { button.link type="button" data-pick=(result.source) { (result.source) } }
                dt { (self.say(Label::Distance)) } dd { (self.length(result.distance_m)) }
                dt { (self.say(Label::LoopResistance)) } dd { (ohms) " " (self.locale.ohm("ohm")) }
            }
        }
    }

    /// The largest current of a supply or converter.
    fn source(&self, id: &str) -> Markup {
        let Some(source) = self.results.sources.iter().find(|source| source.id.as_str() == id) else {
            return html! {};
        };
        let state = states::in_words(&source.current.state, self.language());
        html! {
            dl.facts {
                dt { (self.say(Label::LargestCurrent)) }
                dd {
                    @match source.current.current_a { Some(a) => { strong { (self.up(a, 2)) " A" } } None => { "–" } }
                    @if let Some(limit) = source.current.limit_a { " / " (self.locale.trimmed(limit, 2)) " A" }
                    " " span.quiet { (state) }
                }
                dt { (self.say(Label::Stations)) } dd { (source.stations) }
            }
        }
    }

    fn address(&self, id: &str) -> Markup {
        let Some(station) = self.site.stations.iter().position(|station| station.id.as_str() == id) else {
            return html! {};
        };
        let Some(assessment) = &self.state.assessment else { return html! {} };
        let Some(address) = assessment.addresses.stations.get(station) else { return html! {} };
        let fields = latchline_site::addresses::fields_of(self.site, address.class);
        let Some(numbers) = &address.numbers else { return html! {} };
        html! {
            h3 { (self.say(Label::Address)) }
            dl.facts {
                @for (field, number) in fields.iter().zip(numbers) {
                    dt { (super::questions::field_word(field.kind, self.language())) }
                    dd {
                        (number)
                        @if let Some(setting) = latchline_site::addresses::settings(field, *number) { span.quiet { " · " (setting.to_string()) } }
                    }
                }
            }
        }
    }

    /// Moving, adding and removing, where it makes sense.
    fn moves(&self, id: &str, leads: Option<&Run>) -> Markup {
        let Some(station) = self.site.stations.iter().find(|station| station.id.as_str() == id) else {
            return html! {};
        };
        let runs: Vec<&Run> = self
            .site
            .runs
            .iter()
            .filter(|run| matches!(run.sections.last().map(|section| section.to), Some(RunStop::Station(_))))
            .collect();
        html! {
            h3 { (self.say(Label::Change)) }
            form.change.row data-kind="move" data-station=(id) {
                label for="d-move" { (self.say(Label::MoveTo)) }
                select #d-move name="run" {
                    @for run in &runs { option value=(run.id) selected[leads.is_some_and(|leads| leads.id == run.id)] { (run.id) } }
                }
                label for="d-move-length" { (self.say(Label::Length)) }
                span.suffixed { input #d-move-length name="length" inputmode="decimal" value="8" autocomplete="off"; span { "m" } }
                button type="submit" { (self.say(Label::Move)) }
            }
            @if let StationOwner::Dwelling { dwelling, .. } = station.owner {
                @let name = self.site.dwellings[dwelling].id.as_str();
                div.buttons {
                    button type="button" data-add-extension=(name) data-model=(station.model.value) { (self.say(Label::AddExtension)) }
                    button type="button" data-remove=(name) { (self.say(Label::Remove)) }
                }
            }
        }
    }

    fn runs_from(&self, id: &str) -> Markup {
        let starts = |run: &&Run| match run.from {
            RunStart::Supply(at) => self.site.supplies[at].id.as_str() == id,
            RunStart::Port { box_index, .. } => self.site.boxes[box_index].id.as_str() == id,
            RunStart::Station(at) => self.site.stations[at].id.as_str() == id,
        };
        let runs: Vec<&Run> = self.site.runs.iter().filter(starts).collect();
        html! {
            @if !runs.is_empty() {
                h3 { (self.say(Label::Runs)) }
                ul.plain-list {
                    @for run in runs {
                        li { button.link type="button" data-pick=(run.id) { (run.id) } " " span.quiet { (self.site.start_id(run.from)) ", " (run.cable.value) ", " (self.length(run.length().as_metres())) } }
                    }
                }
            }
        }
    }

    fn findings(&self, of: &[&str]) -> Markup {
        let language = self.language();
        let about = |finding: &&Finding| {
            let element = finding.element.as_ref().map_or("", |element| element.as_str());
            of.iter().any(|id| {
                element == *id || element.strip_prefix(id).is_some_and(|rest| rest.starts_with('.'))
            })
        };
        let all: Vec<&Finding> = self.state.findings.iter().filter(about).collect();
        html! {
            @if !all.is_empty() {
                h3 { (self.say(Label::Findings)) }
                ul.plain-list {
                    @for finding in all {
                        @let words = codes::wording(finding, language);
                        li class={ "is-" (finding.severity.word()) } {
                            strong.severity {
                                (match (finding.accepted.is_some(), finding.severity) {
                                    (true, _) => Label::Accepted,
                                    (_, Severity::Error) => Label::Fails,
                                    (_, Severity::Warning) => Label::Warning,
                                    (_, Severity::Advice) => Label::Advice,
                                }.say(language))
                            }
                            " " (wording::capital(&words.message)) "."
                        }
                    }
                }
            }
        }
    }

    fn run(&self, at: usize) -> Markup {
        let run = &self.site.runs[at];
        let id = run.id.as_str();
        let before: BTreeMap<&str, &DeviceResult> = self
            .state
            .before
            .as_ref()
            .and_then(|before| before.results.as_ref())
            .map(|results| results.devices.iter().map(|device| (device.id.as_str(), device)).collect())
            .unwrap_or_default();
        let thin_v = self.site.policy.thin_margin.value.as_volts();
        let lengths: Vec<String> =
            run.sections.iter().map(|section| self.length(section.length.value.as_metres())).collect();
        let stops: Vec<String> =
            run.sections.iter().map(|section| self.site.stop_id(section.to).to_string()).collect();
        let ports = self.ports(run);
        html! {
            p.kind { (self.say(Label::Run)) }
            h2 { (id) }
            p.quiet { (self.site.start_id(run.from)) " → " (stops.join(", ")) @if run.existing.value { " · " (self.say(Label::Existing)) } }
            form.change data-kind="cable" data-run=(id) {
                label for="d-cable" { (self.say(Label::Cable)) }
                select #d-cable name="cable" {
                    @for cable in self.site.catalogue.cables.values() {
                        option value=(cable.head.name) selected[cable.head.name == run.cable.value] { (cable.head.name) " · " (cable.head.title) }
                    }
                }
            }
            form.change data-kind="lengths" data-run=(id) {
                label for="d-lengths" { (self.say(Label::Lengths)) }
                input #d-lengths name="lengths" value=(lengths.join(" · ")) autocomplete="off" aria-describedby="d-lengths-hint";
                p.hint #d-lengths-hint { (self.say(Label::LengthsHint)) }
            }
            form.change data-kind="port" data-run=(id) {
                label for="d-port" { (self.say(Label::Port)) }
                select #d-port name="from" { @for (port, free) in &ports { option value=(port) selected[!free] { (port) } } }
            }
            @if stops.len() > 1 && run.sections.iter().all(|section| matches!(section.to, RunStop::Station(_))) {
                form.change data-kind="order" data-run=(id) {
                    label for="d-order" { (self.say(Label::Order)) }
                    input #d-order name="stops" value=(stops.join(" ")) autocomplete="off" spellcheck="false" aria-describedby="d-order-hint";
                    p.hint #d-order-hint { (self.say(Label::OrderHint)) }
                }
            }
            (self.run_current(at))
            @if run.sections.iter().any(|section| matches!(section.to, RunStop::Station(_))) {
                h3 { (self.say(Label::StationsOnIt)) }
                table.figures {
                    thead { tr { th scope="col" { (self.say(Label::Station)) } th.number scope="col" { "V" } th.number scope="col" { (self.say(Label::Limit)) } th.number scope="col" { "±" } th scope="col" { span.visually-hidden { (self.say(Label::Margin)) } } } }
                    tbody {
                        @for stop in &stops {
                            @if let Some(device) = self.result(stop) {
                                tr {
                                    th scope="row" { button.link type="button" data-pick=(stop) { (stop) } }
                                    td.number { @match device.worst.adverse_v { Some(v) => { strong { (self.down(v)) } } None => { "–" } } }
                                    td.number.quiet { (self.up(device.worst.limit_v, 1)) }
                                    td.number { (self.difference(device, before.get(stop.as_str()).copied())) }
                                    td { (bar(step(device.worst.margin_v(), thin_v))) }
                                }
                            }
                        }
                    }
                }
                (super::table::profile(self.site, self.results, at, self.locale))
                div.buttons { button type="button" data-add-dwelling=(id) data-place=(self.place_of_last(run)) { (self.say(Label::AddDwelling)) } }
            }
            (self.findings(&[id]))
        }
    }

    /// Place of the last dwelling on a run, for one that is added.
    fn place_of_last(&self, run: &Run) -> String {
        let Some(RunStop::Station(station)) = run.sections.last().map(|section| section.to) else {
            return String::new();
        };
        place_words(self.site, self.site.station_place(&self.site.stations[station]))
    }

    fn difference(&self, now: &DeviceResult, before: Option<&DeviceResult>) -> String {
        let Some((now, before)) = now.worst.adverse_v.zip(before.and_then(|before| before.worst.adverse_v))
        else {
            return String::new();
        };
        let by = now - before;
        if by.abs() < 0.05 {
            return String::new();
        }
        let number = figures::decimals(format!("{:.1}", by.abs()), self.language());
        format!("{}{number}", if by < 0.0 { "−" } else { "+" })
    }

    fn run_current(&self, at: usize) -> Markup {
        let Some(current) = self.results.run_currents.get(at).and_then(Option::as_ref) else {
            return html! {};
        };
        html! {
            dl.facts {
                dt { (self.say(Label::LargestCurrent)) }
                dd {
                    @match current.current_a { Some(a) => { strong { (self.up(a, 3)) " A" } } None => { "–" } }
                    @if let Some(limit) = current.limit_a { " / " (self.locale.trimmed(limit, 2)) " A" }
                    " " span.quiet { (states::in_words(&current.state, self.language())) }
                }
            }
        }
    }

    /// Ports that it could start from: its own, and those that are free.
    fn ports(&self, run: &Run) -> Vec<(String, bool)> {
        let own = self.site.start_id(run.from).to_string();
        let taken: Vec<String> =
            self.site.runs.iter().map(|run| self.site.start_id(run.from).to_string()).collect();
        let mut ports = vec![(own, false)];
        for entry in &self.site.boxes {
            let count = self.site.box_model(entry).ports.value;
            let all = (1..=count).map(|port| format!("{}.{port}", entry.id));
            ports.extend(all.filter(|port| !taken.contains(port)).map(|port| (port, true)));
        }
        ports
    }
}

/// A place as site files write it.
pub(crate) fn place_words(site: &Site, place: &latchline_site::model::Place) -> String {
    let Some(building) = place.building.and_then(|at| site.buildings.get(at)) else { return String::new() };
    let floor = place.floor.and_then(|at| building.floors.get(at)).map_or("", |floor| floor.value.as_str());
    let core = place.core.and_then(|at| building.cores.get(at)).map_or("", |core| core.value.as_str());
    match (core, floor) {
        ("", "") => building.id.to_string(),
        ("", floor) => format!("{}/{floor}", building.id),
        (core, floor) => format!("{}/{core}/{floor}", building.id),
    }
}

/// The word of a step, as classes have it.
pub(crate) fn class_of(step: Option<latchline_drawing::elevation::Step>) -> &'static str {
    printed::step_word(step)
}
