//! Trips that a legitimate current reaches.

use latchline_network::short_circuit::{Nuisance, nuisance_trips};
use latchline_network::worst::CurrentState;
use latchline_network::{Layout, WorstStates};
use latchline_site::model::Site;

pub(crate) fn nuisance(site: &Site, layout: &Layout, worst: &WorstStates) -> Vec<Nuisance> {
    let amperes = |list: &[Option<CurrentState>]| -> Vec<Option<f64>> {
        list.iter().map(|current| current.as_ref().and_then(|current| current.current_a)).collect()
    };
    nuisance_trips(site, layout, &amperes(&worst.source_current_held), &amperes(&worst.run_current_held))
}
