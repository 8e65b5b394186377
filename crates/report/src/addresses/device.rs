//! One device: its number and switches, where its cable comes from, and what a meter reads there.

use super::picture::picture;
use super::{StationDocument, chosen_words, class_word, field_word, labelled, station_document};
use crate::figures;
use crate::paint::Look;
use crate::table::{hanging, paragraph};
use crate::template::plain;
use latchline_assess::{Prediction, ReadingPlace, Readings};
use latchline_site::addresses::{AddressPlan, SwitchSetting, fields_of, settings};
use latchline_site::model::{RunStop, Site, StationOwner};
use latchline_site::ways::Ways;
use latchline_words::commands::AddressWords;
use schemars::JsonSchema;
use serde::Serialize;

/// Everything about one device that somebody in front of it needs.
#[derive(Debug, Serialize, JsonSchema)]
pub struct DeviceDocument {
    /// Its address and settings.
    #[serde(flatten)]
    address: StationDocument,
    /// The run that leads to it.
    #[serde(skip_serializing_if = "Option::is_none")]
    run: Option<String>,
    /// Where that run starts: a port such as "D1.3", a supply or a station.
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<String>,
    /// Its place on the run, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    ordinal_on_run: Option<usize>,
    /// The stop before it, where its cable comes from.
    #[serde(skip_serializing_if = "Option::is_none")]
    cable_from: Option<String>,
    /// Voltage at its terminals in standby by day.
    #[serde(skip_serializing_if = "Option::is_none")]
    standby_v: Option<PredictionDocument>,
    /// Voltage while it talks with the first entrance that can call it.
    #[serde(skip_serializing_if = "Option::is_none")]
    talking_v: Option<PredictionDocument>,
    /// Loop resistance of its run alone with the far end bridged.
    #[serde(skip_serializing_if = "Option::is_none")]
    run_loop_ohm: Option<PredictionDocument>,
}

/// A predicted reading.
#[derive(Debug, Serialize, JsonSchema)]
struct PredictionDocument {
    /// With nominal values.
    nominal: f64,
    /// Lowest of the corners of the tolerances.
    lowest: f64,
    /// Highest of the corners.
    highest: f64,
}

impl From<&Prediction> for PredictionDocument {
    fn from(prediction: &Prediction) -> Self {
        PredictionDocument {
            nominal: prediction.nominal.value,
            lowest: prediction.lowest.value,
            highest: prediction.highest.value,
        }
    }
}

/// Where a station is on its run.
struct OnRun {
    run: usize,
    ordinal: usize,
    stops: usize,
    before: String,
}

fn on_run(site: &Site, station: usize) -> Option<OnRun> {
    let run = Ways::new(site).to(RunStop::Station(station))?;
    let sections = &site.runs[run].sections;
    let at = sections.iter().position(|section| section.to == RunStop::Station(station))?;
    let before = match at.checked_sub(1) {
        Some(before) => site.stop_id(sections[before].to).to_string(),
        None => site.start_id(site.runs[run].from).to_string(),
    };
    Some(OnRun { run, ordinal: at + 1, stops: sections.len(), before })
}

/// Devices for programs; stations are indices into [`Site::stations`].
pub fn documents(
    site: &Site,
    plan: &AddressPlan,
    readings: Option<&Readings>,
    stations: &[usize],
) -> Vec<DeviceDocument> {
    stations
        .iter()
        .filter_map(|station| {
            let at = on_run(site, *station);
            let read = |prediction: Option<&Prediction>| prediction.map(PredictionDocument::from);
            Some(DeviceDocument {
                address: station_document(site, plan.stations.get(*station)?)?,
                run: at.as_ref().map(|at| site.runs[at.run].id.to_string()),
                from: at.as_ref().map(|at| site.start_id(site.runs[at.run].from).to_string()),
                ordinal_on_run: at.as_ref().map(|at| at.ordinal),
                cable_from: at.as_ref().map(|at| at.before.clone()),
                standby_v: read(
                    readings.and_then(|all| all.standby_voltage(ReadingPlace::Station(*station))),
                ),
                talking_v: read(readings.and_then(|all| all.talking_voltage(*station))),
                run_loop_ohm: read(
                    readings.zip(at.as_ref()).and_then(|(all, at)| all.loop_resistance(at.run)),
                ),
            })
        })
        .collect()
}

/// Devices for a person; stations are indices into [`Site::stations`].
pub fn text(
    site: &Site,
    plan: &AddressPlan,
    readings: Option<&Readings>,
    stations: &[usize],
    look: &Look,
) -> String {
    let blocks: Vec<String> =
        stations.iter().map(|station| one(site, plan, readings, *station, look)).collect();
    blocks.join("\n")
}

fn one(site: &Site, plan: &AddressPlan, readings: Option<&Readings>, index: usize, look: &Look) -> String {
    let say = |words: AddressWords<'_>| words.say(look.language);
    let station = &site.stations[index];
    let name = &plain(station.id.as_str());
    let model = &plain(&station.model.value);
    let Some(address) = plan.stations.get(index) else { return String::new() };
    let fields = fields_of(site, address.class);
    let Some(given) = &address.numbers else {
        return paragraph(
            &format!("{}.", say(AddressWords::NoAddress { station: name, model })),
            0,
            look.width,
        );
    };
    let set =
        || fields.iter().zip(given).filter_map(|(field, number)| Some((field, settings(field, *number)?)));
    let numbers: Vec<String> = fields
        .iter()
        .zip(given)
        .map(|(field, number)| format!("{} {number}", field_word(field.kind, look.language)))
        .collect();
    let shown: Vec<(&str, SwitchSetting)> =
        set().map(|(field, setting)| (field.label.as_str(), setting)).collect();
    let settings_said = &labelled(shown.iter().map(|(label, setting)| (*label, setting)), look.language);
    let class = class_word(address.class, look);
    let numbers = &format!("{class}, {}", numbers.join(", "));
    let sentence = say(AddressWords::OneDevice { station: name, model, numbers, settings: settings_said });
    let mut text = paragraph(&format!("{sentence}."), 0, look.width);
    if let StationOwner::Dwelling { dwelling, .. } = station.owner
        && let Some(chosen) = plan.chosen.iter().find(|one| one.dwelling == dwelling)
    {
        text.push_str(&paragraph(&format!("({})", chosen_words(site, chosen, look)), 0, look.width));
    }
    let shared = sharing(site, plan, index);
    if !shared.is_empty() {
        let line = say(AddressWords::SameAddress { stations: &shared.join(", ") });
        text.push_str(&paragraph(&format!("({line})"), 0, look.width));
    }
    text.push('\n');
    for (field, setting) in set() {
        for line in picture(&plain(&field.label), &setting) {
            text.push_str(&format!("  {line}\n"));
        }
    }
    text.push('\n');
    let at = on_run(site, index);
    let mut facts = Vec::new();
    if let Some(at) = &at {
        let run = &site.runs[at.run];
        let place = site.place_words(site.station_place(station)).of(look.language).to_string();
        facts.push(say(AddressWords::WhereIs {
            place: (!place.is_empty()).then_some(place.as_str()),
            ordinal: at.ordinal,
            stations: at.stops,
            run: &plain(run.id.as_str()),
            from: &plain(site.start_id(run.from).as_str()),
            before: &plain(&at.before),
        }));
    }
    facts.extend(readings.map(|all| read(all, index, at.as_ref(), site, look)).unwrap_or_default());
    for fact in &facts {
        text.push_str(&hanging("  ", &format!("{}.", crate::wording::capital(fact)), look.width));
    }
    text
}

/// What a meter reads, in sentences.
fn read(all: &Readings, station: usize, at: Option<&OnRun>, site: &Site, look: &Look) -> Vec<String> {
    let figure = |value: f64| look.decimals(figures::fixed(value, 1));
    let standby = all.standby_voltage(ReadingPlace::Station(station)).map(|one| {
        let (voltage, lowest, highest) =
            (&figure(one.nominal.value), &figure(one.lowest.value), &figure(one.highest.value));
        AddressWords::Reads { voltage, lowest, highest }.say(look.language)
    });
    let talking = all.talking_voltage(station).map(|one| {
        let (voltage, lowest, highest) =
            (&figure(one.nominal.value), &figure(one.lowest.value), &figure(one.highest.value));
        AddressWords::ReadsTalking { voltage, lowest, highest }.say(look.language)
    });
    let run = at.and_then(|at| {
        let one = all.loop_resistance(at.run)?;
        let (loop_ohm, lowest, highest) =
            (&figure(one.nominal.value), &figure(one.lowest.value), &figure(one.highest.value));
        let run = &plain(site.runs[at.run].id.as_str());
        Some(AddressWords::RunReads { run, loop_ohm, lowest, highest }.say(look.language))
    });
    [standby, talking, run].into_iter().flatten().collect()
}

/// Other stations with the same address.
fn sharing(site: &Site, plan: &AddressPlan, index: usize) -> Vec<String> {
    let own = &plan.stations[index];
    plan.stations
        .iter()
        .filter(|other| other.station != index && other.class == own.class && other.numbers == own.numbers)
        .map(|other| plain(site.stations[other.station].id.as_str()))
        .collect()
}
