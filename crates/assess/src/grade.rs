//! Which assumed values a verdict rests on.
//!
//! One collector for all of them: a part knows its keys whose values are assumed, each with what is judged by it, as the rows
//! of the key tables say. A row that says nothing counts for every verdict on a site that uses the part, so that no forgotten
//! key lets a verdict rest on an assumed value without telling it.

use latchline_finding::DataGrade;
use latchline_network::signal_tree::SignalSurvey;
use latchline_network::start_up::StartUps;
use latchline_network::{Layout, Segment, StageNode, StageSource};
use latchline_site::catalogue::{AssumedKey, Bears, PartHead};
use latchline_site::model::{Conditions, Entrance, LightFeed, LockFeed, Site, StationOwner};
use std::collections::BTreeSet;

/// Assumed values by what is judged by them, as "part key", in order.
#[derive(Default)]
struct Collector {
    list: BTreeSet<String>,
}

impl Collector {
    fn part(&mut self, head: &PartHead, wanted: &[Bears]) {
        self.keys(&head.name, &head.assumed, wanted);
    }

    fn keys(&mut self, of: &str, keys: &[AssumedKey], wanted: &[Bears]) {
        let keys = keys.iter().filter(|one| wanted.contains(&one.bears));
        self.list.extend(keys.map(|one| format!("{of} {}", one.key)));
    }

    /// The site's own conditions where the site file does not state them.
    fn conditions(&mut self, conditions: &Conditions) {
        self.keys("conditions", &conditions.assumed, &[Bears::OnRules]);
    }

    /// Modules and lights of a door that draw from the bus.
    fn fittings(&mut self, site: &Site, entrance: &Entrance, wanted: &[Bears]) {
        for name in &entrance.accessories {
            self.part(&site.accessory(name).head, wanted);
        }
        for used in entrance.lights.iter().filter(|used| used.feed.value != LightFeed::OwnSupply) {
            self.part(&site.light(used).head, wanted);
        }
    }

    fn finish(self) -> Vec<String> {
        self.list.into_iter().collect()
    }
}

/// Assumed values that the flow of one stage rests on, as "part key", in order; the site's conditions among them.
pub fn of_stage(site: &Site, layout: &Layout, stage: usize) -> Vec<String> {
    let mut collector = Collector::default();
    collector.conditions(&site.conditions);
    let flow = &[Bears::OnFlow];
    let stage = &layout.stages[stage];
    match stage.source {
        StageSource::Supply(supply) => collector.part(&site.supply_model(&site.supplies[supply]).head, flow),
        StageSource::Regenerator(index) => collector.part(&site.box_model(&site.boxes[index]).head, flow),
    }
    for (terminal, segment) in stage.terminal.iter().zip(&stage.segment) {
        match *terminal {
            StageNode::Station(station) => {
                let station = &site.stations[station];
                collector.part(&site.station_model(station).head, flow);
                if let StationOwner::Entrance(entrance) = station.owner {
                    collector.fittings(site, &site.entrances[entrance], flow);
                }
            }
            StageNode::BoxInput(index) => collector.part(&site.box_model(&site.boxes[index]).head, flow),
            _ => {}
        }
        if let Segment::Cable { run, .. } = *segment {
            collector.part(&site.cable(&site.runs[run]).head, flow);
        }
    }
    collector.finish()
}

/// Every part that a site uses.
fn parts_in_use(site: &Site, collector: &mut Collector, wanted: &[Bears]) {
    if let Some(family) = site.catalogue.families.get(&site.family.value) {
        collector.part(&family.head, wanted);
    }
    for supply in &site.supplies {
        collector.part(&site.supply_model(supply).head, wanted);
    }
    for item in &site.boxes {
        collector.part(&site.box_model(item).head, wanted);
    }
    for station in &site.stations {
        collector.part(&site.station_model(station).head, wanted);
    }
    for run in &site.runs {
        collector.part(&site.cable(run).head, wanted);
    }
    // No signal goes through the cables of locks and alarm inputs.
    let without_signal: Vec<Bears> =
        wanted.iter().copied().filter(|bears| *bears != Bears::OnSignal).collect();
    for entrance in &site.entrances {
        for used in &entrance.locks {
            collector.part(&site.lock(used).head, wanted);
            match used.feed.value {
                LockFeed::OwnSupply => {
                    collector.keys(&format!("{} lock", entrance.id), &used.assumed, wanted)
                }
                LockFeed::Station => {
                    let station = site.station_model(&site.stations[entrance.station]);
                    collector.part(&station.head, &[Bears::OnLockOutput]);
                }
                LockFeed::Bus | LockFeed::DryContact => {}
            }
        }
        let of_locks = entrance.locks.iter().filter_map(|used| used.cable.as_ref());
        let of_inputs = entrance.alarm_inputs.iter().filter_map(|input| input.cable.as_ref());
        let of_parts = entrance.locks.iter().flat_map(|used| &used.cables).map(|to| &to.cable);
        for cable in of_locks.chain(of_parts).chain(of_inputs) {
            collector.part(&site.catalogue.cables[&cable.value].head, &without_signal);
        }
        collector.fittings(site, entrance, wanted);
    }
}

/// Assumed values that the verdict on a site rests on, besides those that its sheets tell. `judges_hours`: by supply, whether its hours on
/// battery are judged.
pub fn of_site(
    site: &Site,
    signal: &SignalSurvey,
    start_up: &StartUps,
    judges_hours: &[bool],
) -> Vec<String> {
    let mut collector = Collector::default();
    collector.conditions(&site.conditions);
    parts_in_use(site, &mut collector, &[Bears::OnFlow, Bears::OnRules]);
    collector.list.extend(for_signal(site, signal));
    collector.list.extend(for_start_up(site, start_up));
    for (supply, judged) in site.supplies.iter().zip(judges_hours) {
        if *judged {
            collector.part(&site.supply_model(supply).head, &[Bears::OnBattery]);
        }
    }
    collector.finish()
}

/// The site's conditions that signals are judged at: lengths and resistances are those at the ends of their tolerances. Joints are not in
/// their network.
const FOR_SIGNAL: [&str; 4] =
    ["length_tolerance", "hottest_temperature", "coldest_temperature", "usual_temperature"];

/// Assumed values that the signal rests on, as "part key", in order.
pub fn for_signal(site: &Site, signal: &SignalSurvey) -> Vec<String> {
    let mut collector = Collector::default();
    if !signal.bands.is_empty() {
        let keys = site.conditions.assumed.iter().filter(|one| FOR_SIGNAL.contains(&one.key.as_str()));
        collector.list.extend(keys.map(|one| format!("conditions {}", one.key)));
        parts_in_use(site, &mut collector, &[Bears::OnSignal]);
    }
    collector.finish()
}

/// Assumed values that power return rests on, as "part key", in order.
pub fn for_start_up(site: &Site, start_up: &StartUps) -> Vec<String> {
    let mut collector = Collector::default();
    if !start_up.stages.is_empty() {
        parts_in_use(site, &mut collector, &[Bears::OnStartUp]);
    }
    collector.finish()
}

/// The grade of a judgement that rests on these assumed values.
pub fn of_values(assumed: Vec<String>) -> DataGrade {
    if assumed.is_empty() { DataGrade::Known } else { DataGrade::Assumed(assumed) }
}
