//! Predicted readings of an assessed site.

use crate::assessment::{Assessment, DeviceResult};
use latchline_network::readings::{Predictor, Readings, WorstOfDevice};
use latchline_network::{Layout, StateSpace};
use latchline_site::model::Site;

/// What meters should read at every terminal and run of an assessed site, and the way to the worst device of every source in
/// its worst state.
pub fn predicted_readings(site: &Site, assessment: &Assessment) -> Readings {
    let layout = Layout::new(site);
    let space = StateSpace::new(site, &layout);
    predicted(&Predictor { site, layout: &layout, space: &space }, assessment)
}

/// The same of a site that is laid out.
pub(crate) fn predicted(predictor: &Predictor<'_>, assessment: &Assessment) -> Readings {
    let worst = assessment.sources.iter().filter_map(|source| assessment.devices.get(source.worst_device?));
    let paths = worst.map(|result| (result.device, &result.worst.bus_state));
    let devices: Vec<WorstOfDevice<'_>> = assessment.devices.iter().map(in_its_worst_state).collect();
    Readings::new(predictor, paths, &devices)
}

fn in_its_worst_state(result: &DeviceResult) -> WorstOfDevice<'_> {
    WorstOfDevice { device: result.device, state: &result.worst.bus_state, limit_v: result.worst.limit_v }
}
