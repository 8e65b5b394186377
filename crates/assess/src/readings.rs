//! Predicted readings of an assessed site.

use crate::assessment::Assessment;
use latchline_network::readings::{Predictor, Readings};
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
    Readings::new(predictor, worst.map(|result| (result.device, &result.worst.bus_state)))
}
