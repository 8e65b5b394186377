//! Nominal figures of one stage, as they are kept.

use crate::memory::Weighed;

/// Nominal figures of one stage.
#[derive(Debug)]
pub(crate) struct StageNominal {
    /// Voltage of each device in its worst state.
    pub device_v: Vec<Option<f64>>,
    /// Source current in standby by day.
    pub standby_current_a: Option<f64>,
}

impl Weighed for StageNominal {
    fn bytes(&self) -> usize {
        16 * self.device_v.len()
    }
}
