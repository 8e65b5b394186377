//! What is shown of a site that fails.

use latchline_assess::{Assessment, DeviceResult, RunSummary};
use latchline_finding::ElementId;
use std::collections::BTreeSet;

/// Of a site that fails, the runs that give too much current or have a device that is low.
pub(super) struct Troubled {
    runs: BTreeSet<ElementId>,
}

impl Troubled {
    pub(super) fn new(assessment: &Assessment) -> Self {
        let mut runs = BTreeSet::new();
        let low = |device: &DeviceResult| device.worst.margin_v() < 0.0;
        runs.extend(
            assessment.devices.iter().filter(|device| low(device)).filter_map(|device| device.run.clone()),
        );
        let over = |run: &&RunSummary| match (run.current.current_a, run.current.limit_a) {
            (Some(current), Some(limit)) => current > limit,
            (None, _) => true,
            (Some(_), None) => false,
        };
        runs.extend(assessment.runs.iter().filter(over).map(|run| run.id.clone()));
        Troubled { runs }
    }

    pub(super) fn has(&self, run: &RunSummary) -> bool {
        self.runs.contains(&run.id)
    }
}
