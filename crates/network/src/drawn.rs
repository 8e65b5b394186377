//! What the stations of a site draw in one state, worked out once for stations that draw alike.

use crate::calls::{holds_releases, releases_at_once};
use crate::corner::Corner;
use crate::demand::{Activity, Demand, draws_to_release, least_demand, load_factor, station_demand};
use latchline_finding::StateKind;
use latchline_site::model::{Entrance, Site, StationOwner};
use std::collections::BTreeMap;

/// Stations that draw alike whatever they do have the same number. What hangs on a door station is its own; all others
/// draw what their model does.
pub(crate) fn alike(site: &Site) -> Vec<usize> {
    let mut models: BTreeMap<&str, usize> = BTreeMap::new();
    let mut next = 0..;
    let numbered = site.stations.iter().map(|station| match station.owner {
        StationOwner::Entrance(_) => next.next().unwrap_or(0),
        _ => *models.entry(&station.model.value).or_insert_with(|| next.next().unwrap_or(0)),
    });
    numbered.collect()
}

/// Number of activities.
const ACTIVITIES: usize = 5;

/// What stations draw in one state and corner.
pub(crate) struct Drawn<'a> {
    site: &'a Site,
    kind: StateKind,
    corner: Corner,
    /// As [`alike`] numbers them.
    alike: &'a [usize],
    known: Vec<[Option<Demand>; ACTIVITIES]>,
}

impl<'a> Drawn<'a> {
    /// Nothing is worked out yet.
    pub fn new(site: &'a Site, kind: StateKind, corner: Corner, alike: &'a [usize]) -> Self {
        let most = alike.iter().max().map_or(0, |most| most + 1);
        Drawn { site, kind, corner, alike, known: vec![[None; ACTIVITIES]; most] }
    }

    /// What a station draws, doing this without regard to a fire.
    pub fn by(&mut self, station: usize, activity: Activity) -> Demand {
        let place = (self.alike[station], activity as usize);
        if let Some(known) = self.known[place.0][place.1] {
            return known;
        }
        let demand = self.anew(station, activity);
        self.known[place.0][place.1] = Some(demand);
        demand
    }

    fn anew(&self, index: usize, activity: Activity) -> Demand {
        let (site, kind, corner) = (self.site, self.kind, self.corner);
        let station = &site.stations[index];
        if kind == StateKind::LightLoad {
            return least_demand(site, station, activity, corner);
        }
        let is_night = kind != StateKind::StandbyDay;
        let demand = station_demand(site, station, activity, is_night, corner);
        if activity == Activity::Releasing || !is_released_by_hand(site, station.owner, kind) {
            return demand;
        }
        demand.plus(released(site, index, corner))
    }

    /// What a station draws more on fire: for the locks that the alarm makes it energise.
    pub fn on_fire(&self, index: usize) -> Demand {
        let StationOwner::Entrance(entrance) = self.site.stations[index].owner else {
            return Demand::default();
        };
        if is_released_on_fire(self.site, &self.site.entrances[entrance]) {
            released(self.site, index, self.corner)
        } else {
            Demand::default()
        }
    }
}

/// Whether this station's lock is released outside of its calls in every set of calls: where the policy allows all doors at once, nothing
/// need be searched.
fn is_released_by_hand(site: &Site, owner: StationOwner, kind: StateKind) -> bool {
    let StationOwner::Entrance(entrance) = owner else { return false };
    let while_calls_stand = holds_releases(kind);
    let all_at_once = || {
        let (most, doors) = releases_at_once(site);
        most == doors
    };
    while_calls_stand && draws_to_release(site, &site.entrances[entrance]) && all_at_once()
}

/// Whether the fire alarm makes this door's station energise a lock from the bus.
pub(crate) fn is_released_on_fire(site: &Site, entrance: &Entrance) -> bool {
    entrance.is_released_on_fire() && draws_to_release(site, entrance)
}

/// What a station takes more while it releases.
pub(crate) fn released(site: &Site, station: usize, corner: Corner) -> Demand {
    let model = site.station_model(&site.stations[station]);
    let extra = model.releasing_extra.as_ref().map_or(Demand::default(), |extra| Demand::of(extra.value));
    extra.times(load_factor(model.load_tolerance.value.as_fraction(), corner))
}
