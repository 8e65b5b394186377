//! An operating state with the calls that stand in it, by index.

use crate::calls::always_released;
use crate::phase::Phase;
use latchline_finding::{CallMoment, CallRef, OperatingState, StateKind};
use latchline_site::model::Site;

/// One call that stands, by index; [`CallRef`] is the same by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct StandingCall {
    /// The station that calls or is viewed: index into [`Site::stations`].
    pub caller: usize,
    /// The station that answers; while ringing the dwelling's main one.
    pub answering: usize,
    /// Which moment.
    pub moment: CallMoment,
}

/// An operating state with the calls that stand in it, by index; [`OperatingState`] is the same by name.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct BusState {
    /// What the bus is doing.
    pub kind: StateKind,
    /// The calls, in the order of the phase's options.
    pub calls: Vec<StandingCall>,
}

impl From<StateKind> for BusState {
    fn from(kind: StateKind) -> Self {
        BusState { kind, calls: Vec::new() }
    }
}

impl BusState {
    /// A phase with a set of its call options.
    pub fn of(phase: &Phase, set: &[usize]) -> Self {
        let call = |option: &usize| {
            let option = &phase.options[*option];
            StandingCall { caller: option.caller, answering: option.answering, moment: option.moment }
        };
        BusState { kind: phase.kind, calls: set.iter().map(call).collect() }
    }

    /// Its calls as options of a phase; `None` where the phase does not have them all.
    pub fn set_in(&self, phase: &Phase) -> Option<Vec<usize>> {
        let position = |call: &StandingCall| {
            phase.options.iter().position(|option| {
                (option.caller, option.answering, option.moment) == (call.caller, call.answering, call.moment)
            })
        };
        self.calls.iter().map(position).collect()
    }

    /// The same by name, with the doors that the policy lets be released all at once. An all-call is no call from one station to another and
    /// is left out.
    pub fn named(&self, site: &Site) -> OperatingState {
        let by_hand = always_released(site, self.kind).into_iter().map(|door| CallRef {
            from: site.stations[door].id.clone(),
            to: site.stations[door].id.clone(),
            moment: CallMoment::ReleasedByHand,
        });
        let calls = self
            .calls
            .iter()
            .filter(|call| call.caller != call.answering || call.moment == CallMoment::ReleasedByHand)
            .map(|call| CallRef {
                from: site.stations[call.caller].id.clone(),
                to: site.stations[call.answering].id.clone(),
                moment: call.moment,
            })
            .chain(by_hand)
            .collect();
        OperatingState { kind: self.kind, calls }
    }
}
