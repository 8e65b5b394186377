//! Files of readings that the page writes. They come from phones, by mail and by hand: nothing in them is believed.

use latchline_finding::Both;
use latchline_words::phone::PhoneFileProblem;
use serde_json::{Map, Value};

/// What a file says that it is.
pub const FORMAT: &str = "latchline-readings";
/// Its version.
pub const VERSION: u64 = 1;
/// Longest file that is read, in bytes.
pub const LONGEST_FILE: usize = 40_000_000;
/// Most events of one file.
const MOST_EVENTS: usize = 200_000;
/// Longest text of an event, in bytes.
const LONGEST_TEXT: usize = 80_000;
/// Largest amount of a value.
const LARGEST: f64 = 1e12;
/// Milliseconds since 1970 that a clock may show at most: the year 9999.
const LATEST_MS: f64 = 253_402_300_799_000.0;

/// Something that happened on site.
#[derive(Debug, Clone, PartialEq)]
pub struct Event {
    /// Its name, made on the phone.
    pub id: String,
    /// The phone.
    pub device: String,
    /// Its number on that phone.
    pub sequence: u64,
    /// Hash of the inputs of the plan it was noted against.
    pub plan: String,
    /// The revision of that plan as it was shown.
    pub revision: String,
    /// Milliseconds since 1970 by the phone's own clock, which nothing relies on.
    pub at_ms: i64,
    /// Who noted it.
    pub by: String,
    /// What it is: "reading", "tick", "note", "snag", ...
    pub kind: String,
    /// The key of its step.
    pub step: Option<String>,
    /// At what.
    pub place: Option<String>,
    /// The value in the unit of the step; `Some(None)` is open.
    pub value: Option<Option<f64>>,
    /// Unit.
    pub unit: Option<String>,
    /// Words: what was keyed in, a reason, a name.
    pub text: Option<String>,
    /// Whether it was done.
    pub done: Option<bool>,
    /// The event that it takes the place of.
    pub corrects: Option<String>,
    /// The event that it belongs to.
    pub of: Option<String>,
    /// To whom.
    pub to: Option<String>,
    /// Further figures of an exchange or of a day, by name.
    pub details: Vec<(String, String)>,
    /// All of it as it was written.
    pub raw: Value,
}

/// A file that can be used.
#[derive(Debug, Clone, PartialEq)]
pub struct ExportedFile {
    /// The events.
    pub events: Vec<Event>,
}

/// Why a file cannot be used.
#[derive(Debug, Clone, PartialEq)]
pub enum FileProblem {
    /// It is cut off or damaged.
    Half {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
    },
    /// It is something else.
    OtherKind,
    /// It is of a newer program.
    Newer(String),
    /// It is of another site.
    OtherSite(String),
    /// An entry is not what it should be.
    BadEntry {
        /// Which one, from 1.
        number: usize,
        /// The key at fault.
        key: &'static str,
    },
    /// There is too much of it.
    TooLarge,
}

impl FileProblem {
    /// In both languages.
    pub fn both(&self) -> Both {
        match self {
            FileProblem::Half { line, column } => {
                let (line, column) = (&*line.to_string(), &*column.to_string());
                PhoneFileProblem::Half { line, column }.both()
            }
            FileProblem::OtherKind => PhoneFileProblem::OtherKind.both(),
            FileProblem::Newer(version) => {
                PhoneFileProblem::Newer { version, known: &VERSION.to_string() }.both()
            }
            FileProblem::OtherSite(site) => PhoneFileProblem::OtherSite { site }.both(),
            FileProblem::BadEntry { number, key } => {
                PhoneFileProblem::BadEntry { number: &number.to_string(), key }.both()
            }
            FileProblem::TooLarge => {
                let (entries, bytes) = (&*MOST_EVENTS.to_string(), &*LONGEST_FILE.to_string());
                PhoneFileProblem::TooLarge { entries, bytes }.both()
            }
        }
    }
}

/// Reads a file of this site. All of it can be used, or nothing of it is taken.
///
/// # Errors
/// If it is no such file, is damaged, of another site or newer, or an entry is not what it should be.
pub fn read(text: &str, site: &str) -> Result<ExportedFile, FileProblem> {
    if text.len() > LONGEST_FILE {
        return Err(FileProblem::TooLarge);
    }
    let half = |error: serde_json::Error| FileProblem::Half { line: error.line(), column: error.column() };
    let text = text.trim_start_matches('\u{feff}');
    if !text.trim_start().starts_with('{') {
        return Err(FileProblem::OtherKind);
    }
    let file: Value = serde_json::from_str(text).map_err(half)?;
    if file.get("format").and_then(Value::as_str) != Some(FORMAT) {
        return Err(FileProblem::OtherKind);
    }
    let version = file.get("version").cloned().unwrap_or_default();
    if version.as_u64() != Some(VERSION) {
        return Err(FileProblem::Newer(shortened(&version.to_string(), 20)));
    }
    let of = file.get("site").and_then(Value::as_str).unwrap_or_default();
    if of != site {
        return Err(FileProblem::OtherSite(shortened(of, 80)));
    }
    let Some(events) = file.get("events").and_then(Value::as_array) else {
        return Err(FileProblem::OtherKind);
    };
    if events.len() > MOST_EVENTS {
        return Err(FileProblem::TooLarge);
    }
    let mut read = Vec::with_capacity(events.len());
    for (index, raw) in events.iter().enumerate() {
        read.push(event(raw).map_err(|key| FileProblem::BadEntry { number: index + 1, key })?);
    }
    Ok(ExportedFile { events: read })
}

fn shortened(text: &str, most: usize) -> String {
    text.chars().take(most).collect()
}

/// One event, or the key that is not what it should be.
fn event(raw: &Value) -> Result<Event, &'static str> {
    let map = raw.as_object().ok_or("id")?;
    let kind = text(map, "kind")?.ok_or("kind")?;
    let value = match map.get("value") {
        None => None,
        Some(Value::Null) => Some(None),
        Some(value) => Some(Some(
            value.as_f64().filter(|value| value.is_finite() && value.abs() <= LARGEST).ok_or("value")?,
        )),
    };
    let step = text(map, "step")?;
    let is_entry = ["reading", "tick", "note"].contains(&kind.as_str());
    if kind == "reading" && value.is_none() {
        return Err("value");
    }
    if is_entry && step.is_none() {
        return Err("step");
    }
    let at = map.get("at").and_then(Value::as_f64).filter(|at| at.abs() <= LATEST_MS).ok_or("at")?;
    let details = match map.get("details") {
        None => Vec::new(),
        Some(details) => {
            let details = details.as_object().ok_or("details")?;
            let pair = |(key, value): (&String, &Value)| Some((key.clone(), value.as_str()?.to_string()));
            details.iter().map(pair).collect::<Option<Vec<_>>>().ok_or("details")?
        }
    };
    let done = match map.get("done") {
        None => None,
        Some(done) => Some(done.as_bool().ok_or("done")?),
    };
    Ok(Event {
        id: name(map, "id")?,
        device: name(map, "device")?,
        sequence: map.get("sequence").and_then(Value::as_u64).ok_or("sequence")?,
        plan: text(map, "plan")?.ok_or("plan")?,
        revision: text(map, "revision")?.ok_or("revision")?,
        at_ms: at as i64,
        by: text(map, "by")?.ok_or("by")?,
        kind,
        step,
        place: text(map, "place")?,
        value,
        unit: text(map, "unit")?,
        text: text(map, "text")?,
        done,
        corrects: text(map, "corrects")?,
        of: text(map, "of")?,
        to: text(map, "to")?,
        details,
        raw: raw.clone(),
    })
}

fn text(map: &Map<String, Value>, key: &'static str) -> Result<Option<String>, &'static str> {
    match map.get(key) {
        None => Ok(None),
        Some(Value::String(text)) if text.len() <= LONGEST_TEXT => Ok(Some(text.clone())),
        Some(_) => Err(key),
    }
}

/// A name of 32 hexadecimal digits with four dashes (RFC 9562).
fn name(map: &Map<String, Value>, key: &'static str) -> Result<String, &'static str> {
    let text = text(map, key)?.ok_or(key)?;
    let fits = text.len() == 36
        && text.bytes().enumerate().all(|(place, byte)| match place {
            8 | 13 | 18 | 23 => byte == b'-',
            _ => byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte),
        });
    if fits { Ok(text) } else { Err(key) }
}
