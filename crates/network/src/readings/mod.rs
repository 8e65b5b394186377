//! What meters should read.
//!
//! A [`Reading`] says what is read, where and in which state; its [`Prediction`] says what it should be: nominal,
//! lowest and highest, each with the corner of the tolerances that it comes from, and what it rests on. What cannot
//! be predicted says why ([`NoPrediction`]).
//!
//! * [`Predictor`] predicts any readings of a site; `live` solves the operating states, `dead` adds up cables;
//! * [`Readings`] holds those that an installer takes: the standby voltage at every terminal and current into every
//!   run, the voltage of every station while it talks, loop and open-end capacitance of every run;
//! * [`SectionJoint`]: the smallest joint in a section that these readings reveal, and the smallest with which the site fails;
//! * [`Path`]: the way from a source to a device, segment by segment.
//!
//! Live readings are solved in three corners with every required device on ([`crate::phase`]). Where no load's
//! current rises with voltage, the voltages of the adverse corner are the lowest that the tolerances allow, those of the light
//! corner the highest; elsewhere the figure is marked as a bound ([`Estimate::is_bound`]).

mod dead;
mod installer;
mod joints;
mod live;
mod path;
mod predicted;
mod prediction;
mod predictor;
mod reading;
mod section_joint;

pub use dead::capacitance_f_per_m;
pub use joints::DROP_METER_V;
pub use path::{Path, PathSegment};
pub use predicted::{Readings, RunCall, RunFeed, WorstOfDevice};
pub use prediction::{Basis, Estimate, NoPrediction, Prediction, Predictions};
pub use predictor::Predictor;
pub use reading::{Reading, ReadingPlace};
pub use section_joint::{JointThatFails, SectionJoint};

impl Predictor<'_> {
    /// Predicts these readings.
    pub fn predict(&self, readings: impl IntoIterator<Item = Reading>) -> Predictions {
        let mut predictions = Predictions::new();
        let mut live = Vec::new();
        for reading in readings {
            let found = match &reading {
                Reading::OpenCircuitVoltage { source } => self.open_circuit(*source),
                Reading::LoopResistance { run } => Ok(dead::loop_resistance(self, *run)),
                Reading::Capacitance { run } => dead::capacitance(self.site, *run),
                Reading::Drop { run, last, .. } => match self.section_node(*run, *last) {
                    Some(node) => {
                        live.push((reading, node));
                        continue;
                    }
                    None => Err(NoPrediction::NotFed),
                },
                Reading::Voltage { at, .. } | Reading::Current { at, .. } => match self.node(*at) {
                    Some(node) => {
                        live.push((reading, node));
                        continue;
                    }
                    None => Err(NoPrediction::NotFed),
                },
            };
            predictions.insert(reading, found);
        }
        predictions.extend(live::predict(self, live));
        predictions
    }
}
