//! What is found of the signals of a site.

use super::super::{CableLengths, MissingValue};
use latchline_finding::ElementId;

/// A dip between two peaks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Notch {
    /// Frequency in hertz.
    pub frequency_hz: f64,
    /// How far below the lower of the two peaks beside it, in decibel.
    pub depth_db: f64,
}

/// Difference of levels within a band.
#[derive(Debug, Clone, PartialEq)]
pub struct StationRipple {
    /// Who calls: index into [`Site::stations`](latchline_site::model::Site::stations).
    pub caller: usize,
    /// How long the cables are where it is so.
    pub lengths: CableLengths,
    /// Highest level less lowest, in decibel.
    pub ripple_db: f64,
    /// The deepest dip between two peaks, if there is one.
    pub notch: Option<Notch>,
}

/// A station that can be called, with the caller from which it hears least.
#[derive(Debug, Clone, PartialEq)]
pub struct StationSignal {
    /// The station: index into [`Site::stations`](latchline_site::model::Site::stations).
    pub station: usize,
    /// The caller with the greatest loss: index into [`Site::stations`](latchline_site::model::Site::stations).
    pub caller: usize,
    /// Greatest insertion loss in the band, or within the share of it that counts, in decibel.
    pub loss_db: f64,
    /// Where in the band, in hertz.
    pub at_hz: f64,
    /// How long the cables are where it is so.
    pub lengths: CableLengths,
    /// The greatest ripple, from whichever caller.
    pub ripple: StationRipple,
}

/// Insertion loss over frequency, for a chart.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SignalResponse {
    /// Frequencies in hertz, rising.
    pub frequency_hz: Vec<f64>,
    /// Insertion loss at each, in decibel.
    pub insertion_loss_db: Vec<f64>,
}

/// The station that hears least of one caller.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeakestOfCaller {
    /// Who calls: index into [`Site::stations`](latchline_site::model::Site::stations).
    pub caller: usize,
    /// Who hears least: index into [`Site::stations`](latchline_site::model::Site::stations).
    pub station: usize,
    /// Greatest insertion loss in the band, or within the share of it that counts, in decibel.
    pub loss_db: f64,
    /// Where in the band, in hertz.
    pub at_hz: f64,
    /// How long the cables are where it is so.
    pub lengths: CableLengths,
}

/// One band at all stations.
#[derive(Debug, Clone, PartialEq)]
pub struct BandSurvey {
    /// Index into the family's bands.
    pub band: usize,
    /// Stations that can be called, in the order of the site.
    pub stations: Vec<StationSignal>,
    /// The weakest station of each caller, in the order of the site.
    pub callers: Vec<WeakestOfCaller>,
    /// The station with the greatest loss: index into `stations`.
    pub worst: usize,
    /// What it hears of its caller, over the band.
    pub response: SignalResponse,
    /// Most frequencies that were looked at for one caller.
    pub points: usize,
    /// Whether the evenly spaced ones were as close as the longest way asks for.
    pub grid_complete: bool,
    /// Dips that might decide and were left at their grid value.
    pub left_coarse: usize,
}

/// The chokes of one network against the lowest band.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedCorner {
    /// Supplies and boxes that feed it, each once.
    pub feeds: Vec<ElementId>,
    /// Feeds in parallel.
    pub count: usize,
    /// Low corner in hertz, `R / (2 pi L)`; `None` where a feed has no choke at all.
    pub corner_hz: Option<f64>,
    /// Lower end of the lowest band in hertz.
    pub lowest_hz: f64,
}

/// Signals of a whole site.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SignalSurvey {
    /// Bands in which some call could be judged, in the family's order.
    pub bands: Vec<BandSurvey>,
    /// Networks that signals use and that supplies feed.
    pub feeds: Vec<FeedCorner>,
    /// Values that are missing, each network's own.
    pub missing: Vec<MissingValue>,
    /// Whether the family gives bands at all.
    pub has_bands: bool,
}

/// A caller and the stations that it can call on its own network.
pub(crate) struct Call {
    pub caller: usize,
    pub targets: Vec<usize>,
}
