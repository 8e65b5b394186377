//! What becomes of every stage as its loads grow together.

use crate::first_limit::first_limits;
use crate::layout::Layout;
use crate::memory::Memory;
use crate::nominal::loading_margins;
use crate::state_space::StateSpace;
use crate::wanted::GivenUp;
use crate::worst::{FirstLimit, WorstStates};
use latchline_site::model::Site;

/// How much more load every stage bears.
#[derive(Debug, Clone, PartialEq)]
pub struct Growth {
    /// Loading margin of every stage in the state of its device with the least margin; below 1 where it collapses there.
    pub loading_margin: Vec<Option<f64>>,
    /// The first limit of every stage that is met.
    pub first_limit: Vec<Option<FirstLimit>>,
}

impl Growth {
    /// Of so many stages of which it is not asked.
    pub fn not_asked(stages: usize) -> Growth {
        Growth { loading_margin: vec![None; stages], first_limit: vec![None; stages] }
    }

    /// Of a site whose worst states are known.
    ///
    /// # Errors
    /// [`GivenUp`] if the memory's work is no longer wanted.
    pub fn of(
        site: &Site,
        layout: &Layout,
        space: &StateSpace,
        worst: &WorstStates,
        memory: &Memory,
    ) -> Result<Growth, GivenUp> {
        Ok(Growth {
            loading_margin: loading_margins(layout, space, &worst.devices, memory)?,
            first_limit: first_limits(site, layout, space, worst, memory)?,
        })
    }
}
