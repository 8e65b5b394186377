//! `reach --format json`.

use super::of_cable::{OfCable, limit_word};
use crate::commands::ask::DoorLockFigures;
use crate::refusal::Result;
use latchline_finding::Language;
use latchline_reach::{DOOR_CABLE, DOOR_M, DoorsAt, FEED_M, Question};
use serde::Serialize;

#[derive(Serialize)]
struct Document<'a> {
    format_version: u32,
    latchline_version: &'static str,
    family: &'a str,
    station: &'a str,
    distributor: &'a str,
    supply: &'a str,
    simultaneous_calls: usize,
    /// Longest feed to the distributor for which this holds.
    feed_m: f64,
    doors: DoorsDocument<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    lock: Option<DoorLockFigures<'a>>,
    cables: Vec<CableDocument<'a>>,
}

/// The door stations that were assumed.
#[derive(Serialize)]
struct DoorsDocument<'a> {
    model: &'a str,
    cable: &'a str,
    length_m: f64,
    on_supply: usize,
    on_distributor: usize,
    /// Whether those at the supply hang on a branch box there, since no port of the distributor can feed one.
    by_branch_box: bool,
}

#[derive(Serialize)]
struct CableDocument<'a> {
    cable: &'a str,
    /// Codes of what could not be judged for lack of values.
    not_judged: &'a [&'static str],
    chains: Vec<ChainDocument<'a>>,
}

#[derive(Serialize)]
struct ChainDocument<'a> {
    spacing_m: f64,
    feeder_m: f64,
    stations: usize,
    limit: &'static str,
    /// Smaller numbers of stations that do not work.
    #[serde(skip_serializing_if = "<[usize]>::is_empty")]
    fewer_fail: &'a [usize],
    #[serde(skip_serializing_if = "Option::is_none")]
    margin_v: Option<f64>,
}

/// The answer for other programs.
pub(super) fn json(question: &Question, calls: usize, doors: DoorsAt, answers: &[OfCable]) -> Result<String> {
    let document = Document {
        format_version: 1,
        latchline_version: env!("CARGO_PKG_VERSION"),
        family: &question.family,
        station: &question.station,
        distributor: &question.distributor,
        supply: &question.supply,
        simultaneous_calls: calls,
        feed_m: FEED_M,
        doors: DoorsDocument {
            model: &question.door,
            cable: DOOR_CABLE,
            length_m: DOOR_M,
            on_supply: doors.on_supply,
            on_distributor: doors.on_ports,
            by_branch_box: doors.by_branch_box,
        },
        lock: DoorLockFigures::of(question),
        cables: answers
            .iter()
            .map(|answer| CableDocument {
                cable: &answer.cable,
                not_judged: &answer.not_judged,
                chains: answer
                    .cells
                    .iter()
                    .map(|cell| ChainDocument {
                        spacing_m: cell.spacing_m,
                        feeder_m: cell.feeder_m,
                        stations: cell.stations,
                        limit: limit_word(cell.limit).say(Language::English),
                        fewer_fail: &cell.fewer_fail,
                        margin_v: cell.margin_v,
                    })
                    .collect(),
            })
            .collect(),
    };
    Ok(latchline_report::json::text(&document)?)
}
