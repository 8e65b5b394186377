//! What one caller's signal is in one band.

use super::found::{Notch, SignalResponse};
use crate::memory::Weighed;

/// What one caller's signal is at one station.
#[derive(Debug)]
pub(crate) struct TargetRow {
    /// The station: position among those that the caller can call.
    pub target: usize,
    pub loss_db: f64,
    pub at_hz: f64,
    pub ripple_db: f64,
    pub notch: Option<Notch>,
}

/// What one caller's signal is at all of its stations, in terms that hold for any site with the same network.
#[derive(Debug)]
pub(crate) struct CallSurvey {
    pub rows: Vec<TargetRow>,
    /// The weakest of them, with its response.
    pub weakest: usize,
    pub response: SignalResponse,
    pub points: usize,
    pub grid_complete: bool,
    pub left_coarse: usize,
}

impl Weighed for CallSurvey {
    fn bytes(&self) -> usize {
        size_of::<TargetRow>() * self.rows.len() + 16 * self.response.frequency_hz.len()
    }
}
