//! What hangs on a door station besides locks: modules, lights, alarm inputs; and what all of it draws.

use super::line::{LineDocument, line};
use super::said::{contact, english};
use crate::json_values::finite;
use latchline_assess::door::alarm::{AlarmSheet, kind_word};
use latchline_assess::door::light::LightSheet;
use latchline_assess::door::loads::DoorLoad;
use latchline_assess::door::modules::ModuleSheet;
use latchline_assess::door::words;
use latchline_finding::Language;
use latchline_site::catalogue::LightKind;
use latchline_site::model::{LightFeed, LitWhen};
use schemars::JsonSchema;
use serde::Serialize;

/// A module.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct AccessoryDocument {
    /// Its place in the chain, from 1.
    position: usize,
    /// Model name.
    model: String,
    /// What it is.
    kind: &'static str,
    /// Current by day in amperes.
    current_a: f64,
    /// Current at night in amperes.
    night_current_a: f64,
}

/// A light.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct LightDocument {
    /// Which of the entrance's lights, from 1.
    number: usize,
    /// Model name.
    model: String,
    /// "buttons", "names" or "porch".
    kind: &'static str,
    /// "station", "bus" or "own-supply".
    feed: &'static str,
    /// "night", "always" or "in-use".
    lit: &'static str,
    /// Rated voltage.
    rated_v: f64,
    /// Current at rated voltage in amperes.
    current_a: f64,
    /// Nominal voltage of what feeds it, where that is the door station or the bus.
    #[serde(skip_serializing_if = "Option::is_none")]
    feed_v: Option<f64>,
}

/// An alarm input.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct AlarmInputDocument {
    /// Which of the station's inputs, from 1.
    number: usize,
    /// "tamper", "duress", "door" or "fire".
    kind: &'static str,
    /// How its contact stands while all is well: "normally-open" or "normally-closed".
    contact: &'static str,
    /// Whether a resistor at the contact watches the cable.
    end_of_line_resistor: bool,
    /// Whether a cut cable passes unnoticed.
    cut_passes_unnoticed: bool,
    /// The resistance of its loop.
    #[serde(skip_serializing_if = "Option::is_none")]
    calculation: Option<LineDocument>,
    /// What keeps the loop from being calculated.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    missing: Vec<String>,
    /// Whether it releases the locks of the door.
    releases_locks: bool,
    /// Management stations and dwellings that are told.
    tells: Vec<String>,
}

/// What a door draws from its bus in standby, with nominal values.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct LoadDocument {
    /// Nominal voltage of the bus, at which the currents are given.
    bus_v: f64,
    /// Current of all parts by day, in amperes.
    day_a: f64,
    /// The same at night.
    night_a: f64,
    /// Part by part.
    parts: Vec<LoadPartDocument>,
}

/// A part of that load.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct LoadPartDocument {
    /// What it is, in words.
    part: &'static str,
    /// Model name.
    model: String,
    /// Current by day in amperes.
    day_a: f64,
    /// Current at night in amperes.
    night_a: f64,
    /// Where the figure is from, as "part key".
    source: String,
}

pub(super) fn light(light: &LightSheet) -> LightDocument {
    LightDocument {
        number: light.number,
        model: light.model.clone(),
        kind: match light.kind {
            LightKind::Buttons => "buttons",
            LightKind::Names => "names",
            LightKind::Porch => "porch",
        },
        feed: match light.feed {
            LightFeed::Station => "station",
            LightFeed::Bus => "bus",
            LightFeed::OwnSupply => "own-supply",
        },
        lit: match light.lit {
            LitWhen::Night => "night",
            LitWhen::Always => "always",
            LitWhen::InUse => "in-use",
        },
        rated_v: light.rated_v,
        current_a: light.current_a,
        feed_v: light.feed_v.and_then(finite),
    }
}

pub(super) fn alarm_input(input: &AlarmSheet) -> AlarmInputDocument {
    AlarmInputDocument {
        number: input.number,
        kind: kind_word(input.kind).say(Language::English),
        contact: contact(input.contact),
        end_of_line_resistor: input.end_of_line_resistor,
        cut_passes_unnoticed: input.cut_passes_unnoticed,
        calculation: input.calculation.as_ref().map(line),
        missing: input.cable.as_ref().err().map(|missing| english(missing)).unwrap_or_default(),
        releases_locks: input.releases_locks,
        tells: input.tells.iter().map(ToString::to_string).collect(),
    }
}

pub(super) fn load(load: &DoorLoad) -> LoadDocument {
    let parts = load.lines.iter().map(|line| LoadPartDocument {
        part: words::load_part(line.part).say(Language::English),
        model: line.model.clone(),
        day_a: line.day_a,
        night_a: line.night_a,
        source: line.source.say(Language::English),
    });
    LoadDocument { bus_v: load.bus_v, day_a: load.day_a(), night_a: load.night_a(), parts: parts.collect() }
}

pub(super) fn module(module: &ModuleSheet) -> AccessoryDocument {
    AccessoryDocument {
        position: module.position,
        model: module.model.clone(),
        kind: words::accessory(module.kind).say(Language::English),
        current_a: module.current_a,
        night_current_a: module.night_current_a,
    }
}
