//! The resistance of a cable at a door: from the station to a lock, or to a contact at an alarm input.

use crate::calculation::{
    CalculationLine, Formula, FormulaSource, Input, InputSource, Limit, Quantity, Rounding, Symbol,
};
use latchline_circuit::RangeError;
use latchline_circuit::lock::{LockCable, loop_resistance_ohm};
use latchline_finding::{Figure, Unit};
use latchline_network::resistance::conductor_ohm_per_m;
use latchline_site::cables::DoorCable;
use latchline_site::catalogue::Cable;
use latchline_site::model::{Site, USUAL_JOINTS};

/// A cable with its joints, both conductors.
#[derive(Debug, Clone, PartialEq)]
pub struct CableLoop {
    /// Name of the cable.
    pub cable: String,
    /// Length one way in metres, as stated.
    pub length_m: f64,
    /// Joints per conductor.
    pub joints: u32,
    /// Pairs in parallel.
    pub pairs: u32,
    /// Resistance with nominal values, in ohms.
    pub usual_ohm: f64,
    /// Resistance hot, long and at the upper end of tolerance, in ohms.
    pub adverse_ohm: f64,
    /// The share of its joints in `adverse_ohm`, which no length changes.
    pub joints_ohm: f64,
    /// Resistance cold, short and at the lower end of tolerance, with joints that have none, in ohms.
    pub light_ohm: f64,
}

impl CableLoop {
    /// Of a cable at a door whose kind and length the plan states; `None` where it does not state them. A light has the usual joints.
    pub fn at_door(site: &Site, owner: DoorCable) -> Option<Result<Self, RangeError>> {
        let (cable, length, joints, pairs) = match owner {
            DoorCable::Lock { entrance, lock } => {
                let used = &site.entrances[entrance].locks[lock];
                (used.cable.as_ref()?, used.length.as_ref()?, used.joints.value, used.pairs.value)
            }
            DoorCable::LockPart { entrance, lock, part } => {
                let to = site.entrances[entrance].locks[lock].cable_to(part)?;
                (&to.cable, &to.length, to.joints.value, 1)
            }
            DoorCable::Light { entrance, light } => {
                let used = &site.entrances[entrance].lights[light];
                (used.cable.as_ref()?, used.length.as_ref()?, USUAL_JOINTS, 1)
            }
            DoorCable::AlarmContact { entrance, input } => {
                let used = &site.entrances[entrance].alarm_inputs[input];
                (used.cable.as_ref()?, used.length.as_ref()?, used.joints.value, 1)
            }
        };
        let cable = &site.catalogue.cables[&cable.value];
        Some(CableLoop::new(site, cable, length.value.as_metres(), joints, pairs))
    }

    /// Works it out under the conditions of the site.
    ///
    /// # Errors
    /// Where a value is outside what the formula takes, which parsing refuses before.
    pub fn new(
        site: &Site,
        cable: &Cable,
        length_m: f64,
        joints: u32,
        pairs: u32,
    ) -> Result<Self, RangeError> {
        let conditions = &site.conditions;
        let with_joints = |joint_ohm: f64, celsius: f64, by_resistance: f64, by_length: f64| {
            loop_resistance_ohm(&LockCable {
                conductor_ohm_per_m: conductor_ohm_per_m(cable, celsius) * by_resistance,
                length_m: length_m * by_length,
                joints,
                joint_ohm,
                pairs,
            })
        };
        let joint_ohm = conditions.joint_resistance.value.as_ohms();
        let tolerance = cable.resistance_tolerance.value.as_fraction();
        let longer = conditions.length_tolerance.value.as_fraction();
        Ok(CableLoop {
            cable: cable.head.name.clone(),
            length_m,
            joints,
            pairs,
            joints_ohm: 2.0 * f64::from(joints) * joint_ohm / f64::from(pairs.max(1)),
            usual_ohm: with_joints(joint_ohm, conditions.usual_temperature.value.as_celsius(), 1.0, 1.0)?,
            adverse_ohm: with_joints(
                joint_ohm,
                conditions.hottest_temperature.value.as_celsius(),
                1.0 + tolerance,
                1.0 + longer,
            )?,
            light_ohm: with_joints(
                0.0,
                conditions.coldest_temperature.value.as_celsius(),
                1.0 - tolerance,
                1.0 - longer,
            )?,
        })
    }

    /// The adverse resistance of so many metres of one pair of the same cable, without joints.
    pub fn adverse_ohm_of_m(&self, length_m: f64) -> f64 {
        if self.length_m > 0.0 {
            self.adverse_ohm_per_m() * f64::from(self.pairs.max(1)) * length_m
        } else {
            0.0
        }
    }

    /// Of all its pairs together, without joints.
    fn adverse_ohm_per_m(&self) -> f64 {
        (self.adverse_ohm - self.joints_ohm) / self.length_m
    }

    /// The longest such cable, with as many joints, whose adverse resistance is at most this, in metres, never less than 0.
    pub fn longest_m(&self, most_ohm: f64) -> f64 {
        ((most_ohm - self.joints_ohm) / self.adverse_ohm_per_m()).max(0.0)
    }

    /// The adverse resistance as a line of a calculation.
    pub fn line(&self, site: &Site, limit_ohm: Option<f64>) -> CalculationLine {
        let conditions = &site.conditions;
        let hot_c = conditions.hottest_temperature.value.as_celsius();
        let longest_m = self.length_m * (1.0 + conditions.length_tolerance.value.as_fraction());
        let joint_ohm = conditions.joint_resistance.value.as_ohms();
        // What is left after the joints is the conductors' share.
        let pairs = f64::from(self.pairs);
        let conductors_ohm = (self.adverse_ohm - self.joints_ohm) * pairs;
        let per_metre_ohm = if longest_m > 0.0 { conductors_ohm / (2.0 * longest_m) } else { 0.0 };
        let in_parallel = (self.pairs > 1)
            .then(|| Input::new(Symbol::Pairs, pairs, Unit::Count, InputSource::PairsInParallel));
        CalculationLine {
            quantity: Quantity::LoopResistance,
            formula: match self.pairs {
                1 => Formula::LoopResistance,
                _ => Formula::LoopResistanceOfPairs,
            },
            inputs: [
                Input::new(
                    Symbol::ResistancePerMetre,
                    per_metre_ohm,
                    Unit::Ohm,
                    InputSource::HotConductor {
                        cable: self.cable.clone(),
                        temperature: Figure::new(hot_c, Unit::Celsius),
                    },
                ),
                Input::new(Symbol::Length, longest_m, Unit::Metre, InputSource::LengthWithTolerance),
                Input::new(
                    Symbol::Count,
                    f64::from(self.joints),
                    Unit::Count,
                    InputSource::JointsPerConductor,
                ),
                Input::of_key(Symbol::Joint, joint_ohm, Unit::Ohm, "conditions", "joint_resistance"),
            ]
            .into_iter()
            .chain(in_parallel)
            .collect(),
            result: Figure::new(self.adverse_ohm, Unit::Ohm),
            rounding: Rounding::Up,
            limit: limit_ohm.map(|ohm| Limit::most(ohm, Unit::Ohm)),
            source: FormulaSource::Ohm,
        }
    }
}
