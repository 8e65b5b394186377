//! Who may call whom at once.
//!
//! A *call option* is one call in one moment: a caller, the stations that it puts to work, and what
//! each of them does. Several options may stand at once if no station takes part in two of them;
//! that is checked by *parties*: a dwelling with all its stations is one party, so are an entrance and a
//! management station.
//!
//! A door that is released outside of calls (exit button, reader, keypad) is an option too where the policy allows fewer at once than
//! there are doors: nobody is busy with it, and it counts against a limit of its own.
//!
//! Options that another one covers are left out of the search: talking without a release where the
//! same call with release draws at least as much. By monotony (more load is never better) they
//! cannot be worse.

use crate::demand::{Activity, draws_to_release, energises_to_release};
use latchline_finding::{CallMoment, StateKind};
use latchline_site::model::{Entrance, Scope, Site};

/// One call in one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct CallOption {
    /// The station that calls: index into `Site::stations`.
    pub caller: usize,
    /// The station that answers; while ringing the main one.
    pub answering: usize,
    /// Which moment.
    pub moment: CallMoment,
    /// The two parties that are busy with it.
    pub parties: [u32; 2],
    /// Every station put to work, with what it does.
    pub busy: Vec<(usize, Activity)>,
}

impl CallOption {
    /// Whether it is no call but a door released outside of calls.
    pub fn is_release(&self) -> bool {
        self.moment == CallMoment::ReleasedByHand
    }

    /// Whether both can stand at once. A lock that a call holds released is not released by hand a second time.
    pub fn is_compatible(&self, other: &CallOption) -> bool {
        let holds = |call: &CallOption, door: &CallOption| {
            door.is_release() && call.busy.contains(&(door.caller, Activity::Releasing))
        };
        if holds(self, other) || holds(other, self) {
            return false;
        }
        !self.parties.iter().any(|party| other.parties.contains(party))
    }
}

/// Numbers the parties of a site.
struct Parties {
    dwellings: u32,
    entrances: u32,
}

impl Parties {
    fn of(site: &Site) -> Self {
        Parties { dwellings: site.dwellings.len() as u32, entrances: site.entrances.len() as u32 }
    }

    fn dwelling(&self, index: usize) -> u32 {
        index as u32
    }

    fn entrance(&self, index: usize) -> u32 {
        self.dwellings + index as u32
    }

    fn management(&self, index: usize) -> u32 {
        self.dwellings + self.entrances + index as u32
    }
}

/// Which calls are meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CallKind {
    /// Calls from entrances and management stations: ringing, then talking or releasing.
    Calls,
    /// Residents look at an entrance's camera of their own accord.
    Views,
}

/// Every call option of a site, in a stable order.
pub fn call_options(site: &Site, kind: CallKind) -> Vec<CallOption> {
    let parties = Parties::of(site);
    let mut options = Vec::new();
    for (index, entrance) in site.entrances.iter().enumerate() {
        let model = site.station_model(&site.stations[entrance.station]);
        let releases = energises_to_release(entrance) && model.releasing_extra.is_some();
        let caller = Caller {
            station: entrance.station,
            party: parties.entrance(index),
            talking: if releases { Activity::Releasing } else { Activity::Talking },
        };
        push_scope(site, &parties, &caller, &entrance.calls, kind, &mut options);
    }
    if kind == CallKind::Calls {
        for (index, management) in site.management.iter().enumerate() {
            let caller = Caller {
                station: management.station,
                party: parties.management(index),
                talking: Activity::Talking,
            };
            push_scope(site, &parties, &caller, &management.calls, kind, &mut options);
        }
    }
    options
}

/// How many doors may be released outside of calls at once, by the policy, and how many there are whose release draws anything from the
/// bus.
pub fn releases_at_once(site: &Site) -> (usize, usize) {
    let doors = site.entrances.iter().filter(|entrance| draws_to_release(site, entrance)).count();
    let most = site.policy.releases_at_once.as_ref().map_or(0, |most| most.value as usize);
    (most.min(doors), doors)
}

/// Whether doors are released outside of calls in a state of this kind.
pub(crate) fn holds_releases(kind: StateKind) -> bool {
    matches!(kind, StateKind::Call | StateKind::BatteryEnd | StateKind::SelfView | StateKind::AllCall)
}

/// The door stations that are released outside of calls whatever calls stand, because the policy allows all of them at once; none where
/// fewer may be, which the calls of a state then name.
pub(crate) fn always_released(site: &Site, kind: StateKind) -> Vec<usize> {
    let (most, doors) = releases_at_once(site);
    if !holds_releases(kind) || most < doors {
        return Vec::new();
    }
    let drawing = site.entrances.iter().filter(|entrance| draws_to_release(site, entrance));
    drawing.map(|entrance| entrance.station).collect()
}

/// The doors that may be released outside of calls, one option each; none where all may be at once, which needs no search.
pub fn release_options(site: &Site) -> Vec<CallOption> {
    let (most, doors) = releases_at_once(site);
    if most == 0 || most == doors {
        return Vec::new();
    }
    let drawing = site.entrances.iter().enumerate().filter(|(_, entrance)| draws_to_release(site, entrance));
    let option = |(index, entrance): (usize, &Entrance)| {
        // A party that no call has.
        let party = u32::MAX - index as u32;
        CallOption {
            caller: entrance.station,
            answering: entrance.station,
            moment: CallMoment::ReleasedByHand,
            parties: [party, party],
            busy: Vec::new(),
        }
    };
    drawing.map(option).collect()
}

struct Caller {
    station: usize,
    party: u32,
    talking: Activity,
}

fn push_scope(
    site: &Site,
    parties: &Parties,
    caller: &Caller,
    scope: &Scope,
    kind: CallKind,
    options: &mut Vec<CallOption>,
) {
    for &dwelling in &scope.dwellings {
        let party = parties.dwelling(dwelling);
        push_call(caller, party, &site.dwellings[dwelling].stations, kind, options);
    }
    if kind == CallKind::Calls {
        for &management in &scope.management {
            let party = parties.management(management);
            if party != caller.party {
                push_call(caller, party, &[site.management[management].station], kind, options);
            }
        }
    }
}

fn push_call(caller: &Caller, party: u32, stations: &[usize], kind: CallKind, options: &mut Vec<CallOption>) {
    let Some(&main) = stations.first() else { return };
    let parties = [caller.party, party];
    if kind == CallKind::Calls {
        let mut busy = vec![(caller.station, Activity::Ringing)];
        busy.extend(stations.iter().map(|station| (*station, Activity::Ringing)));
        let moment = CallMoment::Ringing;
        options.push(CallOption { caller: caller.station, answering: main, moment, parties, busy });
    }
    for &station in stations {
        let (moment, at_the_door) = match kind {
            CallKind::Views => (CallMoment::Viewing, Activity::Talking),
            CallKind::Calls if caller.talking == Activity::Releasing => {
                (CallMoment::Releasing, Activity::Releasing)
            }
            CallKind::Calls => (CallMoment::Talking, Activity::Talking),
        };
        let busy = vec![(caller.station, at_the_door), (station, Activity::Talking)];
        options.push(CallOption { caller: caller.station, answering: station, moment, parties, busy });
    }
}
