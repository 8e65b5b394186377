//! The operating states of a bus, as names.

use crate::ElementId;

/// What the bus is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StateKind {
    /// Nobody calls, by day.
    StandbyDay,
    /// Nobody calls; illumination and heaters on.
    StandbyNight,
    /// As many calls at once as the family permits, illumination and heaters on.
    Call,
    /// Residents look at the camera without having been called.
    SelfView,
    /// The management station calls every dwelling at once.
    AllCall,
    /// Mains returns and every device boots at once.
    PowerReturn,
    /// The fire interlock releases every door that opens on it.
    FireRelease,
    /// Calls on battery, at its end voltage.
    BatteryEnd,
    /// Least load on the highest supply voltage.
    LightLoad,
}

impl StateKind {
    /// Every state, in the order they are reported.
    pub const ALL: [StateKind; 9] = [
        StateKind::StandbyDay,
        StateKind::StandbyNight,
        StateKind::Call,
        StateKind::SelfView,
        StateKind::AllCall,
        StateKind::PowerReturn,
        StateKind::FireRelease,
        StateKind::BatteryEnd,
        StateKind::LightLoad,
    ];

    /// The stable name used in JSON and in files.
    pub fn name(self) -> &'static str {
        match self {
            StateKind::StandbyDay => "standby-day",
            StateKind::StandbyNight => "standby-night",
            StateKind::Call => "call",
            StateKind::SelfView => "self-view",
            StateKind::AllCall => "all-call",
            StateKind::PowerReturn => "power-return",
            StateKind::FireRelease => "fire-release",
            StateKind::BatteryEnd => "battery-end",
            StateKind::LightLoad => "light-load",
        }
    }
}

/// Which moment of a call.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CallMoment {
    /// All stations of the dwelling ring.
    Ringing,
    /// One station talks, the others are back in standby.
    Talking,
    /// One station talks and the lock is held released.
    Releasing,
    /// One station watches, started by the resident.
    Viewing,
    /// No call: a door's lock is released by exit button, reader or keypad. The door stands on both sides.
    ReleasedByHand,
}

impl CallMoment {
    /// The stable name used in JSON.
    pub fn name(self) -> &'static str {
        match self {
            CallMoment::Ringing => "ringing",
            CallMoment::Talking => "talking",
            CallMoment::Releasing => "releasing",
            CallMoment::Viewing => "viewing",
            CallMoment::ReleasedByHand => "released-by-hand",
        }
    }
}

/// One call of a set of simultaneous calls.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct CallRef {
    /// The door or management station that calls or is viewed.
    pub from: ElementId,
    /// The indoor station that answers (or rings; then the dwelling's main one).
    pub to: ElementId,
    /// Which moment of the call.
    pub moment: CallMoment,
}

/// An operating state with the set of calls that stand in it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct OperatingState {
    /// What the bus is doing.
    pub kind: StateKind,
    /// The simultaneous calls, if any.
    pub calls: Vec<CallRef>,
}

impl OperatingState {
    /// How many calls stand, and how many doors are released outside of them.
    pub fn calls_and_releases(&self) -> (usize, usize) {
        let releases = self.calls.iter().filter(|call| call.moment == CallMoment::ReleasedByHand).count();
        (self.calls.len() - releases, releases)
    }
}

impl From<StateKind> for OperatingState {
    fn from(kind: StateKind) -> Self {
        Self { kind, calls: Vec::new() }
    }
}
