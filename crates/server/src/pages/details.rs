//! What stands beside the drawing of one element: what it is, how it is fed, every state against its limit, what can be changed.

use super::about::{About, step};
use super::shell::bar;
use crate::engine::{blocking, opened};
use crate::locale::Reader;
use crate::office::Office;
use crate::refused::Refused;
use axum::extract::{Path, Query, State};
use axum::response::Html;
use latchline_assess::{DeviceResult, StateVoltage};
use latchline_finding::StateKind;
use latchline_report::addresses::field_word;
use latchline_report::wording;
use latchline_site::model::{Run, RunStart, RunStop, StationOwner};
use latchline_words::figures;
use latchline_words::office::Label;
use latchline_words::states;
use maud::{Markup, html};
use serde::Deserialize;
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

impl About<'_> {
    fn element(&self, id: &str) -> Option<Markup> {
        if let Some(at) = self.site.runs.iter().position(|run| run.id.as_str() == id) {
            return Some(self.run(at));
        }
        let site = self.site;
        let catalogue = &site.catalogue;
        if let Some(supply) = site.supplies.iter().find(|supply| supply.id.as_str() == id) {
            let family = &site.supply_model(supply).family.value;
            let models = catalogue.supplies.values().filter(|model| model.family.value == *family);
            let models = models
                .map(|model| (model.head.name.as_str(), model.head.title.of(self.language())))
                .collect();
            return Some(self.device(id, Label::Supply, &supply.model.value, models));
        }
        if let Some(entry) = site.boxes.iter().find(|entry| entry.id.as_str() == id) {
            let model = site.box_model(entry);
            let same = catalogue.boxes.values().filter(|other| {
                other.family.value == model.family.value && other.role.value == model.role.value
            });
            let models =
                same.map(|model| (model.head.name.as_str(), model.head.title.of(self.language()))).collect();
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
        let models =
            same.map(|model| (model.head.name.as_str(), model.head.title.of(self.language()))).collect();
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
                        @if let Some(state @ StateVoltage { voltage_v, limit_v, .. }) = result.by_state.get(&kind) {
                            tr.picked[kind == worst] {
                                th scope="row" { (wording::capital(&self.state_name(kind, result))) }
                                td.number { @match voltage_v { Some(v) => { strong { (self.volts(*v)) } } None => { "–" } } }
                                td.number.quiet { (self.up(*limit_v, 1)) }
                                td { (bar(step(state.margin_v(), thin_v))) }
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
        let ohms = figures::ohms(result.loop_resistance_ohm, self.language());
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
                    @match source.current.current_a { Some(a) => { strong { (self.amperes(a)) " A" } } None => { "–" } }
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
                    dt { (wording::capital(field_word(field.kind, self.language()))) }
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
}
