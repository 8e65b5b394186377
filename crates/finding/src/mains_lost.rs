//! What becomes of something while the mains are lost.

use crate::ElementId;

/// What becomes of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WithoutMains {
    /// The lock has no power and opens.
    LockOpens,
    /// The same, unless the supply of its own, of which nothing is stated, has a battery.
    LockOpensUnlessBattery,
    /// The lock has no power and cannot be released.
    LockStaysShut,
    /// The same, unless the supply of its own has a battery.
    LockStaysShutUnlessBattery,
    /// The light goes out.
    LightGoesOut,
    /// The same, unless the supply of its own has a battery.
    LightGoesOutUnlessBattery,
    /// The station goes dark.
    StationGoesDark,
}

impl WithoutMains {
    /// Its name for programs, in kebab case.
    pub fn name(self) -> &'static str {
        match self {
            WithoutMains::LockOpens => "lock-opens",
            WithoutMains::LockOpensUnlessBattery => "lock-opens-unless-battery",
            WithoutMains::LockStaysShut => "lock-stays-shut",
            WithoutMains::LockStaysShutUnlessBattery => "lock-stays-shut-unless-battery",
            WithoutMains::LightGoesOut => "light-goes-out",
            WithoutMains::LightGoesOutUnlessBattery => "light-goes-out-unless-battery",
            WithoutMains::StationGoesDark => "station-goes-dark",
        }
    }
}

/// What a change makes of some doors or stations while the mains are lost, that was otherwise before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MainsLost {
    /// What becomes of them.
    pub what: WithoutMains,
    /// The doors, or the stations, in order.
    pub elements: Vec<ElementId>,
}
