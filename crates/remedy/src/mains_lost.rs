//! What a change makes of locks, lights and stations while the mains are lost.

use latchline_finding::{ElementId, MainsLost, WithoutMains};
use latchline_network::{Layout, StageSource};
use latchline_site::catalogue::PowerLoss;
use latchline_site::model::{LightFeed, LockFeed, Site};
use std::collections::BTreeMap;

/// What stands behind something when the mains are lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Behind {
    /// A supply with a battery.
    Battery,
    /// A supply without.
    Nothing,
    /// A supply of its own, of which the site file says nothing more than its voltage.
    OwnSupply,
}

/// What stands behind everything of a site.
#[derive(Debug, Default)]
pub(crate) struct MainsLostAt {
    stations: BTreeMap<ElementId, Behind>,
    /// By door and number.
    locks: BTreeMap<(ElementId, usize), (Behind, PowerLoss)>,
    lights: BTreeMap<(ElementId, usize), Behind>,
}

impl MainsLostAt {
    pub(crate) fn of(site: &Site, layout: &Layout) -> Self {
        let behind_station = |station: usize| {
            let stage = layout.station[station]?.stage;
            let supply = supply_of(layout, stage)?;
            let has_battery = site.supply_model(&site.supplies[supply]).battery.is_some();
            Some(if has_battery { Behind::Battery } else { Behind::Nothing })
        };
        let stations = site.stations.iter().enumerate();
        let mut all = MainsLostAt {
            stations: stations.filter_map(|(at, one)| Some((one.id.clone(), behind_station(at)?))).collect(),
            ..MainsLostAt::default()
        };
        for entrance in &site.entrances {
            let from_station = behind_station(entrance.station);
            for (number, used) in entrance.locks.iter().enumerate() {
                let behind = match used.feed.value {
                    LockFeed::Station | LockFeed::Bus => from_station,
                    LockFeed::OwnSupply => Some(Behind::OwnSupply),
                    LockFeed::DryContact => None,
                };
                if let Some(behind) = behind {
                    let loss = site.lock(used).power_loss.value;
                    all.locks.insert((entrance.id.clone(), number), (behind, loss));
                }
            }
            for (number, used) in entrance.lights.iter().enumerate() {
                let behind = match used.feed.value {
                    LightFeed::Station | LightFeed::Bus => from_station,
                    LightFeed::OwnSupply => Some(Behind::OwnSupply),
                };
                all.lights.extend(behind.map(|behind| ((entrance.id.clone(), number), behind)));
            }
        }
        all
    }

    /// What is otherwise on a changed site, and not because a battery came.
    pub(crate) fn changed_on(&self, site: &Site) -> Vec<MainsLost> {
        let after = MainsLostAt::of(site, &Layout::new(site));
        let mut found: BTreeMap<WithoutMains, Vec<ElementId>> = BTreeMap::new();
        let mut note = |what: WithoutMains, element: &ElementId| {
            let elements = found.entry(what).or_default();
            if elements.last() != Some(element) {
                elements.push(element.clone());
            }
        };
        for (at, (behind, loss)) in &after.locks {
            if self.locks.get(at).is_none_or(|known| *known == (*behind, *loss)) {
                continue;
            }
            match (behind, loss) {
                (Behind::Battery, _) => {}
                (Behind::Nothing, PowerLoss::Opens) => note(WithoutMains::LockOpens, &at.0),
                (Behind::Nothing, PowerLoss::StaysShut) => note(WithoutMains::LockStaysShut, &at.0),
                (Behind::OwnSupply, PowerLoss::Opens) => note(WithoutMains::LockOpensUnlessBattery, &at.0),
                (Behind::OwnSupply, PowerLoss::StaysShut) => {
                    note(WithoutMains::LockStaysShutUnlessBattery, &at.0);
                }
            }
        }
        for (at, behind) in &after.lights {
            match behind {
                _ if self.lights.get(at).is_none_or(|known| known == behind) => {}
                Behind::Battery => {}
                Behind::Nothing => note(WithoutMains::LightGoesOut, &at.0),
                Behind::OwnSupply => note(WithoutMains::LightGoesOutUnlessBattery, &at.0),
            }
        }
        for (station, behind) in &after.stations {
            if *behind == Behind::Nothing && self.stations.get(station) == Some(&Behind::Battery) {
                note(WithoutMains::StationGoesDark, station);
            }
        }
        found.into_iter().map(|(what, elements)| MainsLost { what, elements }).collect()
    }
}

/// The supply that feeds a stage, through regenerating boxes if there are any.
fn supply_of(layout: &Layout, stage: usize) -> Option<usize> {
    match layout.stages[stage].source {
        StageSource::Supply(supply) => Some(supply),
        StageSource::Regenerator(index) => supply_of(layout, layout.box_input[index]?.stage),
    }
}
