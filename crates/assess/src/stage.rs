//! The stages of an assessment, and what a rule is given of them.

use crate::context::Context;
use latchline_finding::OperatingState;
use latchline_network::short_circuit::{Nuisance, ShortCircuits};
use latchline_network::signal_tree::SignalSurvey;
use latchline_network::start_up::StartUps;
use latchline_network::{BusState, Memory, StateSpace, WorstStates};
use std::ops::Deref;

/// What rules read besides the wiring. Each is worked out by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// The worst voltages and currents of every state, and the trips that a legitimate current reaches.
    Voltages,
    /// A short on every run.
    ShortCircuit,
    /// What reaches every station.
    Signal,
    /// What happens when power returns.
    StartUp,
}

impl Stage {
    /// All, those first that need least time.
    pub const ALL: [Stage; 4] = [Stage::Voltages, Stage::ShortCircuit, Stage::Signal, Stage::StartUp];

    /// The stable word for it.
    pub fn word(self) -> &'static str {
        match self {
            Stage::Voltages => "voltages",
            Stage::ShortCircuit => "short-circuit",
            Stage::Signal => "signal",
            Stage::StartUp => "start-up",
        }
    }
}

/// A context with the voltages.
#[derive(Clone, Copy)]
pub struct WithVoltages<'a> {
    pub(crate) context: Context<'a>,
    /// Its operating states.
    pub space: &'a StateSpace,
    /// The worst of everything.
    pub worst: &'a WorstStates,
    /// Trips that a legitimate current reaches.
    pub nuisance: &'a [Nuisance],
    /// What is known of other versions of the site.
    pub(crate) memory: &'a Memory,
}

impl WithVoltages<'_> {
    /// The operating state of a phase with a set of its call options, by name.
    pub fn state(&self, phase: usize, set: &[usize]) -> OperatingState {
        self.bus_state(phase, set).named(self.site)
    }

    /// The same by index.
    pub fn bus_state(&self, phase: usize, set: &[usize]) -> BusState {
        BusState::of(&self.space.phases[phase], set)
    }
}

/// A context with the short circuits.
#[derive(Clone, Copy)]
pub struct WithShortCircuits<'a> {
    pub(crate) context: Context<'a>,
    /// What a short on every run does.
    pub short_circuits: &'a ShortCircuits,
}

/// A context with the signals.
#[derive(Clone, Copy)]
pub struct WithSignal<'a> {
    pub(crate) context: Context<'a>,
    /// What reaches every station.
    pub signal: &'a SignalSurvey,
}

/// A context with power return.
#[derive(Clone, Copy)]
pub struct WithStartUp<'a> {
    pub(crate) context: Context<'a>,
    /// What happens when power returns.
    pub start_up: &'a StartUps,
}

macro_rules! is_a_context {
    ($($name:ident)*) => {$(
        impl<'a> Deref for $name<'a> {
            type Target = Context<'a>;

            fn deref(&self) -> &Context<'a> {
                &self.context
            }
        }
    )*};
}
is_a_context! { WithVoltages WithShortCircuits WithSignal WithStartUp }
