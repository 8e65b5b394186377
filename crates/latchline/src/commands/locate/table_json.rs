//! The JSON of `locate --table`.

use crate::refusal::Result;
use latchline_locate::{Element, FaultSheet, Share, SheetPlace, SheetReading, SheetValue, place_name};
use latchline_site::model::Site;
use schemars::JsonSchema;
use serde::Serialize;

/// The result of `locate --table --format json`.
#[derive(Serialize, JsonSchema)]
struct FaultTableDocument {
    /// Version of this form.
    format_version: u32,
    /// Version of the program.
    latchline_version: &'static str,
    /// Runs, boxes and supplies with what shows there, the most probable first; left out where readings were given.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    places: Vec<PlaceOut>,
    /// Probability, before anything is read, of what shows in no reading of its place.
    unseen: f64,
    /// Probability, before anything is read, of something that the list does not have.
    none_of_these: f64,
    /// What the readings that were given say from the table alone; left out without readings.
    #[serde(skip_serializing_if = "Option::is_none")]
    ranking: Option<RankingOut>,
    /// What has to be known first.
    notes: Vec<String>,
}

/// A run, box or supply.
#[derive(Serialize, JsonSchema)]
struct PlaceOut {
    /// run, box or supply.
    kind: &'static str,
    /// Its name.
    element: String,
    /// What is read there: voltage where it begins, voltage where it ends, current, loop, insulation; null where there is nothing to read.
    readings: Vec<Option<SheetReadingOut>>,
    /// What shows alike, the most probable first.
    rows: Vec<RowOut>,
}

/// A reading of a place.
#[derive(Serialize, JsonSchema)]
struct SheetReadingOut {
    /// voltage, current, loop or insulation.
    quantity: &'static str,
    /// Where.
    at: String,
    /// Least without a fault, in the SI unit.
    low: f64,
    /// Most without a fault; left out where it has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    high: Option<f64>,
}

/// Causes that show alike.
#[derive(Serialize, JsonSchema)]
struct RowOut {
    /// What, the most probable first.
    kinds: Vec<String>,
    /// How many kinds more, each of little probability.
    more: usize,
    /// Probability before anything is read.
    probability: f64,
    /// What each of the readings shows.
    shows: Vec<ShowsOut>,
}

/// What a reading shows.
#[derive(Serialize, JsonSchema)]
struct ShowsOut {
    /// unread, as-planned, nothing, open or between.
    is: &'static str,
    /// Least, in the SI unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    low: Option<f64>,
    /// Most; left out where it has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    high: Option<f64>,
}

/// What readings say from the table alone.
#[derive(Serialize, JsonSchema)]
struct RankingOut {
    /// Causes, the most probable first.
    causes: Vec<RankedOut>,
    /// Probability of something that the list does not have.
    none_of_these: f64,
    /// How many of the readings the table has.
    used: usize,
    /// What was given and is not in the table.
    left_out: Vec<String>,
}

/// A cause.
#[derive(Serialize, JsonSchema)]
struct RankedOut {
    /// What, in kebab case.
    kind: String,
    /// Where; empty where no reading shows it, at whichever place.
    element: String,
    /// Its probability.
    probability: f64,
    /// Its most probable size among those of the table, in its unit; left out for a cause without.
    #[serde(skip_serializing_if = "Option::is_none")]
    size: Option<f64>,
}

/// Its JSON Schema.
pub(in crate::commands) fn schema() -> serde_json::Value {
    latchline_report::json::schema_of::<FaultTableDocument>("Result of latchline locate --table")
}

/// Every run, box and supply.
fn places(site: &Site, sheet: &FaultSheet) -> Vec<PlaceOut> {
    let reading = |reading: &SheetReading| SheetReadingOut {
        quantity: reading.quantity.name(),
        at: place_name(site, reading.quantity.place()),
        low: reading.low,
        high: Some(reading.high).filter(|high| high.is_finite()),
    };
    let shows = |value: &SheetValue| {
        let of = |is: &'static str| ShowsOut { is, low: None, high: None };
        match value {
            SheetValue::Unread => of("unread"),
            SheetValue::AsPlanned => of("as-planned"),
            SheetValue::Nothing => of("nothing"),
            SheetValue::Open => of("open"),
            SheetValue::Between { low, high } => {
                let high = Some(*high).filter(|high| high.is_finite());
                ShowsOut { is: "between", low: Some(*low), high }
            }
        }
    };
    let place = |place: &SheetPlace| PlaceOut {
        kind: what(place.element),
        element: place.element.name(site),
        readings: place.readings.iter().map(|one| one.as_ref().map(reading)).collect(),
        rows: place
            .rows
            .iter()
            .map(|row| RowOut {
                kinds: row.kinds.iter().map(|kind| kind.name()).collect(),
                more: row.more,
                probability: row.share,
                shows: row.values.iter().map(shows).collect(),
            })
            .collect(),
    };
    sheet.places.iter().map(place).collect()
}

/// What readings say: causes with their shares, the probability of none of these, how many readings were used, what was left out.
pub(super) struct Ranked<'r> {
    pub shares: &'r [Share<'r>],
    pub none_of_these: f64,
    pub used: usize,
    pub left_out: Vec<String>,
}

/// The document: the whole table, or what readings say from it.
///
/// # Errors
/// If it cannot be serialised.
pub(super) fn json(
    site: &Site,
    sheet: &FaultSheet,
    ranked: Option<Ranked<'_>>,
    notes: &[String],
) -> Result<String> {
    let of = |one: &Share<'_>| RankedOut {
        kind: one.kind.name(),
        element: String::from(one.element),
        probability: one.probability,
        size: one.size,
    };
    let ranking = ranked.map(|ranked| RankingOut {
        causes: ranked.shares.iter().map(of).collect(),
        none_of_these: ranked.none_of_these,
        used: ranked.used,
        left_out: ranked.left_out,
    });
    Ok(latchline_report::json::text(&FaultTableDocument {
        format_version: 1,
        latchline_version: env!("CARGO_PKG_VERSION"),
        places: if ranking.is_none() { places(site, sheet) } else { Vec::new() },
        unseen: sheet.unseen,
        none_of_these: sheet.none_of_these,
        ranking,
        notes: notes.to_vec(),
    })?)
}

/// Whether it is a run, a box or a supply.
pub(super) fn what(element: Element) -> &'static str {
    match element {
        Element::Run(_) => "run",
        Element::Supply(_) => "supply",
        _ => "box",
    }
}
