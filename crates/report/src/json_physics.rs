//! Signal, power return, short circuit and tolerance in the check document.

use crate::json_values::{CallDocument, calls, finite};
use latchline_assess::physics_summary::{
    CallerSignal, ShortCircuitSummary, SignalSummary, StartUpSummary, ToleranceSummary,
};
use latchline_finding::Language;
use schemars::JsonSchema;
use serde::Serialize;

/// One band of the family's signals.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct SignalDocument {
    /// What it carries.
    band: String,
    /// Lower end in Hz.
    low_hz: f64,
    /// Upper end in Hz.
    high_hz: f64,
    /// Greatest insertion loss allowed, in dB.
    budget_db: f64,
    /// Greatest ripple allowed, in dB.
    #[serde(skip_serializing_if = "Option::is_none")]
    allowed_ripple_db: Option<f64>,
    /// Stations that were judged.
    stations: usize,
    /// The station with the greatest loss.
    worst: CallerSignalDocument,
    /// The station with the greatest ripple.
    greatest_ripple_station: String,
    /// That ripple in dB.
    #[serde(skip_serializing_if = "Option::is_none")]
    greatest_ripple_db: Option<f64>,
    /// The weakest station of every caller.
    callers: Vec<CallerSignalDocument>,
    /// Frequencies in Hz of the worst station's response.
    frequency_hz: Vec<f64>,
    /// Its insertion loss at each, in dB.
    insertion_loss_db: Vec<f64>,
    /// Frequencies looked at for one caller.
    points: usize,
    /// Whether they are as close as the longest way asks for and every dip that could decide was narrowed.
    complete: bool,
}

/// What a caller's weakest station hears.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct CallerSignalDocument {
    /// Who calls.
    caller: String,
    /// Who hears least.
    station: String,
    /// Insertion loss in dB.
    #[serde(skip_serializing_if = "Option::is_none")]
    loss_db: Option<f64>,
    /// Where in the band, in Hz.
    at_hz: f64,
    /// How long all cables are where it is so: as-stated, longest or shortest, the worst of the three.
    lengths: &'static str,
}

/// Power return at a supply or regenerating box.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct StartUpDocument {
    /// Supply or box.
    source: String,
    /// "runs", "hiccups", "brown-out", "undecided" or "not-judged".
    outcome: &'static str,
    /// When the last device was up, in s.
    #[serde(skip_serializing_if = "Option::is_none")]
    time_s: Option<f64>,
    /// Period of the hiccup in s.
    #[serde(skip_serializing_if = "Option::is_none")]
    period_s: Option<f64>,
    /// Devices that are to run: stations and regenerating boxes.
    devices: usize,
    /// How often devices dropped out on the way, in all.
    dropouts: usize,
    /// How often the source or a port switched off.
    trips: usize,
    /// Those that do not run at the end.
    not_running: Vec<String>,
    /// The device that is up last, if all are.
    #[serde(skip_serializing_if = "Option::is_none")]
    last: Option<String>,
    /// Current that booting all at once takes, in A.
    #[serde(skip_serializing_if = "Option::is_none")]
    boot_current_a: Option<f64>,
    /// What the source gives, in A.
    #[serde(skip_serializing_if = "Option::is_none")]
    limit_a: Option<f64>,
    /// Voltage over time at the source and the farthest device.
    curves: Vec<CurveDocument>,
}

/// Voltage over time.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct CurveDocument {
    /// Where.
    element: String,
    /// Times in s.
    time_s: Vec<f64>,
    /// Voltage at each, in V.
    voltage_v: Vec<f64>,
}

/// A short at the end of a run.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct ShortCircuitDocument {
    /// The run.
    run: String,
    /// Supply or box of its tree.
    source: String,
    /// Current through the short, in A.
    #[serde(skip_serializing_if = "Option::is_none")]
    fault_a: Option<f64>,
    /// "trips", "limits" or "nothing".
    acts: &'static str,
    /// What trips or limits.
    #[serde(skip_serializing_if = "Option::is_none")]
    by: Option<String>,
    /// Dwellings that go dark besides those on the run and behind it.
    also_dark: Vec<String>,
    /// Temperature of the run's conductors while the current flows on, in °C; left out where a trip ends it or where
    /// it runs away.
    #[serde(skip_serializing_if = "Option::is_none")]
    temperature_c: Option<f64>,
}

/// The worst device of a supply under sampled tolerances.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct ToleranceDocument {
    /// Supply or box.
    source: String,
    /// The device with the least margin.
    device: String,
    /// Name of its worst operating state.
    state: &'static str,
    /// The calls that stand in it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    calls: Vec<CallDocument>,
    /// Its limit there, in V.
    limit_v: f64,
    /// Samples.
    samples: usize,
    /// Samples below the limit or without operating point.
    below: usize,
    /// Share of them.
    probability: f64,
    /// Lower end of its interval of Clopper and Pearson, 95 %.
    probability_low: f64,
    /// Upper end.
    probability_high: f64,
    /// Mean voltage in V.
    #[serde(skip_serializing_if = "Option::is_none")]
    mean_v: Option<f64>,
    /// Standard deviation in V.
    #[serde(skip_serializing_if = "Option::is_none")]
    deviation_v: Option<f64>,
    /// Voltage that 1 % of the samples lie below, in V.
    #[serde(skip_serializing_if = "Option::is_none")]
    one_percent_v: Option<f64>,
    /// What makes the spread, the largest first.
    factors: Vec<FactorDocument>,
}

/// A factor of the spread.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct FactorDocument {
    /// What varies.
    factor: String,
    /// Share of the variance.
    share: f64,
}

fn caller(signal: &CallerSignal) -> CallerSignalDocument {
    CallerSignalDocument {
        caller: signal.caller.to_string(),
        station: signal.station.to_string(),
        loss_db: finite(signal.loss_db),
        at_hz: signal.at_hz,
        lengths: signal.lengths.word(),
    }
}

/// Six digits are more than any chart shows, and keep the document short.
fn rounded(values: &[f64]) -> Vec<f64> {
    values
        .iter()
        .map(|value| {
            if *value == 0.0 || !value.is_finite() {
                return 0.0;
            }
            format!("{value:.5e}").parse().unwrap_or(*value)
        })
        .collect()
}

pub(crate) fn signal(summary: &SignalSummary) -> SignalDocument {
    SignalDocument {
        band: summary.band.clone(),
        low_hz: summary.low_hz,
        high_hz: summary.high_hz,
        budget_db: summary.budget_db,
        allowed_ripple_db: summary.allowed_ripple_db,
        stations: summary.stations,
        worst: caller(&summary.worst),
        greatest_ripple_station: summary.greatest_ripple.0.to_string(),
        greatest_ripple_db: finite(summary.greatest_ripple.1),
        callers: summary.callers.iter().map(caller).collect(),
        frequency_hz: rounded(&summary.frequency_hz),
        insertion_loss_db: rounded(&summary.insertion_loss_db),
        points: summary.points,
        complete: summary.complete,
    }
}

pub(crate) fn start_up(summary: &StartUpSummary) -> StartUpDocument {
    StartUpDocument {
        source: summary.source.to_string(),
        outcome: summary.outcome.name(),
        time_s: summary.time_s.and_then(finite),
        period_s: summary.period_s.and_then(finite),
        devices: summary.devices,
        dropouts: summary.dropouts,
        trips: summary.trips,
        not_running: summary.not_running.iter().map(ToString::to_string).collect(),
        last: summary.last.as_ref().map(ToString::to_string),
        boot_current_a: finite(summary.boot_current_a),
        limit_a: summary.limit_a.and_then(finite),
        curves: summary
            .curves
            .iter()
            .map(|curve| CurveDocument {
                element: curve.element.to_string(),
                time_s: rounded(&curve.time_s),
                voltage_v: rounded(&curve.voltage_v),
            })
            .collect(),
    }
}

pub(crate) fn short_circuit(summary: &ShortCircuitSummary) -> ShortCircuitDocument {
    ShortCircuitDocument {
        run: summary.run.to_string(),
        source: summary.source.to_string(),
        fault_a: finite(summary.fault_a),
        acts: summary.acts,
        by: summary.by.as_ref().map(ToString::to_string),
        also_dark: summary.also_dark.iter().map(ToString::to_string).collect(),
        temperature_c: summary.temperature_c.and_then(finite),
    }
}

pub(crate) fn tolerance(summary: &ToleranceSummary) -> ToleranceDocument {
    ToleranceDocument {
        source: summary.source.to_string(),
        device: summary.device.to_string(),
        state: summary.state.kind.name(),
        calls: calls(&summary.state),
        limit_v: summary.limit_v,
        samples: summary.samples,
        below: summary.below,
        probability: summary.below as f64 / summary.samples.max(1) as f64,
        probability_low: summary.interval.0,
        probability_high: summary.interval.1,
        mean_v: summary.mean_v.and_then(finite),
        deviation_v: summary.deviation_v.and_then(finite),
        one_percent_v: summary.one_percent_v.and_then(finite),
        factors: summary
            .shares
            .iter()
            .map(|(factor, share)| FactorDocument { factor: factor.say(Language::English), share: *share })
            .collect(),
    }
}
