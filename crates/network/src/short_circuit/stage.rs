//! Shorts on one stage, in terms that hold for any site with the same stage.

use crate::corner::Corner;
use crate::layout::{Segment, Stage, StageNode, StageSource};
use crate::memory::{Fingerprint, Key, Weighed};
use latchline_circuit::short_circuit::{
    Acts, FaultLoad, PortProtection, Prospective, Protection, Protector, ShortCircuitNetwork, TripBand,
    prospective, prospective_worst, standing_fault,
};
use latchline_circuit::startup::SupplyLimit;
use latchline_site::catalogue::LimitKind;
use latchline_site::model::Site;

/// A short at the far end of a run, in terms that hold for any site with the same stage.
#[derive(Debug)]
pub(super) struct LocalShort {
    /// Node of its end.
    pub node: usize,
    pub fault_a: f64,
    pub unlimited_a: f64,
    pub acts: Acts,
    pub trip_needs_a: Option<f64>,
    /// Nodes that go dark besides those on the run and behind it.
    pub dark: Vec<u32>,
    pub heating_a: f64,
}

/// Shorts on a stage, by run in the order of their ends.
#[derive(Debug, Default)]
pub(crate) struct StageShorts {
    pub(super) runs: Vec<LocalShort>,
    /// Prospective current at every node, in amperes.
    pub(super) fault_a: Vec<f64>,
}

impl Weighed for StageShorts {
    fn bytes(&self) -> usize {
        let dark: usize = self.runs.iter().map(|short| 4 * short.dark.len()).sum();
        size_of::<LocalShort>() * self.runs.len() + 8 * self.fault_a.len() + dark
    }
}

/// Everything that the shorts on a stage depend on.
pub(super) struct StageTask<'a> {
    stage: &'a Stage,
    limit: SupplyLimit,
    trip: Option<TripBand>,
    ports: Vec<PortProtection>,
    load_a: Vec<f64>,
    loads: Vec<FaultLoad>,
    /// First and last node of every run whose end can be shorted.
    ends: Vec<(usize, usize)>,
}

impl<'a> StageTask<'a> {
    pub fn new(site: &Site, stage: &'a Stage, load_a: Vec<f64>) -> Self {
        let (limit, trip) = source_protection(site, stage);
        let loads = stage
            .terminal
            .iter()
            .enumerate()
            .filter_map(|(node, terminal)| {
                let hold_up_v = hold_up_v(site, *terminal)?;
                Some(FaultLoad { node, current_a: load_a[node], hold_up_v })
            })
            .collect();
        let ends = stage
            .segment
            .iter()
            .enumerate()
            .filter_map(|(node, segment)| match *segment {
                Segment::Cable { run, section }
                    if section + 1 == site.runs[run].sections.len()
                        && !matches!(stage.terminal[node], StageNode::BoxLink(_)) =>
                {
                    Some((run_start(stage, run, node), node))
                }
                _ => None,
            })
            .collect();
        StageTask { stage, limit, trip, ports: port_protection(site, stage), load_a, loads, ends }
    }

    pub fn key(&self) -> Key {
        let mut key = Fingerprint::new();
        key.counts(self.stage.parent.iter().map(|parent| *parent as usize));
        for corner in [Corner::Adverse, Corner::Light] {
            key.numbers(&self.stage.resistance_ohm[corner.index()]);
            key.number(self.stage.voltage_v[corner.index()]);
        }
        key.limit(self.limit)
            .optional(self.trip.map(|band| band.smallest_a))
            .optional(self.trip.map(|band| band.largest_a));
        key.count(self.ports.len());
        for PortProtection { node, protection } in &self.ports {
            key.count(*node);
            match *protection {
                Protection::Limit(limit_a) => key.count(0).number(limit_a),
                Protection::Trip(band) => key.count(1).number(band.smallest_a).number(band.largest_a),
            };
        }
        key.numbers(&self.load_a);
        key.count(self.loads.len());
        for FaultLoad { node, current_a, hold_up_v } in &self.loads {
            key.count(*node).number(*current_a).number(*hold_up_v);
        }
        key.count(self.ends.len());
        for (first, last) in &self.ends {
            key.count(*first).count(*last);
        }
        key.finish()
    }

    fn network(&self, corner: Corner) -> ShortCircuitNetwork<'_> {
        let resistance_ohm = &self.stage.resistance_ohm[corner.index()];
        ShortCircuitNetwork {
            parent: &self.stage.parent,
            loop_resistance_ohm: resistance_ohm,
            voltage_v: self.stage.voltage_v[corner.index()],
            source_ohm: resistance_ohm[0],
            limit: self.limit,
            trip: self.trip,
            ports: &self.ports,
        }
    }

    pub fn run(&self) -> StageShorts {
        let network = self.network(Corner::Adverse);
        // What the kernel refuses cannot come from a resolved site; the stage is then left without figures.
        let Ok(verdicts) = prospective_worst(&network, 0.0, &self.load_a) else {
            return StageShorts::default();
        };
        let most = prospective(&self.network(Corner::Light), 0.0, None).unwrap_or_default();
        let runs = self
            .ends
            .iter()
            .map(|&(first, node)| {
                let worst = verdicts[node].worst;
                let tripped_from = match worst.acts {
                    Acts::Trips(Protector::Supply) => Some(0),
                    Acts::Trips(Protector::Port(at)) => Some(self.ports[at].node),
                    _ => None,
                };
                LocalShort {
                    node,
                    fault_a: worst.fault_a,
                    unlimited_a: worst.unlimited_a,
                    acts: worst.acts,
                    trip_needs_a: worst.trip_reserve_a.map(|reserve| worst.fault_a - reserve),
                    dark: self.dark_besides(&network, node, first, tripped_from),
                    heating_a: most.get(node).map_or(worst.fault_a, most_sustained_a),
                }
            })
            .collect();
        StageShorts { runs, fault_a: verdicts.iter().map(|verdict| verdict.worst.fault_a).collect() }
    }

    /// Nodes of the stage that go dark, without those on the shorted run and behind it.
    fn dark_besides(
        &self,
        network: &ShortCircuitNetwork<'_>,
        node: usize,
        own: usize,
        tripped_from: Option<usize>,
    ) -> Vec<u32> {
        let behind = |from: usize| from..self.stage.subtree_end[from] as usize;
        let dark: Vec<bool> = match tripped_from {
            Some(from) => self.loads.iter().map(|load| behind(from).contains(&load.node)).collect(),
            None => match standing_fault(network, node, 0.0, &self.loads) {
                Ok(standing) => standing.dark,
                Err(_) => return Vec::new(),
            },
        };
        let dark =
            self.loads.iter().zip(dark).filter(|(load, dark)| *dark && !behind(own).contains(&load.node));
        dark.map(|(load, _)| load.node as u32).collect()
    }
}

/// Protection of a stage's source: its limiter, and its trip beside it.
fn source_protection(site: &Site, stage: &Stage) -> (SupplyLimit, Option<TripBand>) {
    let nominal_v = stage.voltage_v[Corner::Nominal.index()];
    match stage.source {
        StageSource::Supply(index) => {
            let model = site.supply_model(&site.supplies[index]);
            let limit_a = model.limit_current.as_ref().unwrap_or(&model.rated_current).value.as_amps();
            let band = TripBand { smallest_a: limit_a, largest_a: limit_a };
            match model.limit_kind.value {
                LimitKind::ConstantCurrent => (SupplyLimit::ConstantCurrent { current_a: limit_a }, None),
                LimitKind::Foldback => {
                    // Without a figure, as much as at full voltage: most heat, and no trip either way.
                    let short = model.short_circuit_current.as_ref();
                    let short_current_a = short.map_or(limit_a, |short| short.value.as_amps()).min(limit_a);
                    let knee_voltage_v = model.foldback_from.value.as_fraction() * nominal_v;
                    (SupplyLimit::Foldback { max_current_a: limit_a, knee_voltage_v, short_current_a }, None)
                }
                // Both act once the limit has lasted; how long is not asked here.
                LimitKind::Hiccup => {
                    (SupplyLimit::Hiccup { current_a: limit_a, trip_time_s: 1.0, off_time_s: 1.0 }, None)
                }
                LimitKind::Trip => (SupplyLimit::None, Some(band)),
            }
        }
        StageSource::Regenerator(index) => {
            let model = site.box_model(&site.boxes[index]);
            let limit = model.output_power.as_ref().map_or(SupplyLimit::None, |power| {
                SupplyLimit::ConstantCurrent { current_a: power.value.as_watts() / nominal_v }
            });
            (limit, None)
        }
    }
}

/// Nodes of the ports that have a limit.
pub(super) fn port_nodes(site: &Site, stage: &Stage) -> Vec<usize> {
    let has_limit = |terminal: &StageNode| match *terminal {
        StageNode::Port { box_index, .. } => {
            site.box_model(&site.boxes[box_index]).port_current_limit.is_some()
        }
        _ => false,
    };
    (0..stage.terminal.len()).filter(|node| has_limit(&stage.terminal[*node])).collect()
}

/// Limit or trip of every port that has one.
fn port_protection(site: &Site, stage: &Stage) -> Vec<PortProtection> {
    let of_port = |node: usize| {
        let StageNode::Port { box_index, .. } = stage.terminal[node] else { return None };
        let model = site.box_model(&site.boxes[box_index]);
        let limit_a = model.port_current_limit.as_ref()?.value.as_amps();
        let protection = match model.port_limit_kind.as_ref().map(|kind| kind.value) {
            Some(LimitKind::Hiccup | LimitKind::Trip) => {
                Protection::Trip(TripBand { smallest_a: limit_a, largest_a: limit_a })
            }
            _ => Protection::Limit(limit_a),
        };
        Some(PortProtection { node, protection })
    };
    port_nodes(site, stage).into_iter().filter_map(of_port).collect()
}

/// The most that flows on: all of it, or what hardly does not reach the trip on the way.
fn most_sustained_a(most: &Prospective) -> f64 {
    match most.trip_reserve_a {
        Some(reserve_a) if reserve_a > 0.0 => most.fault_a - reserve_a,
        _ => most.fault_a,
    }
}

/// Voltage below which what is there goes dark: where its turn-off voltage is not stated, what it needs at least, which is never too low.
fn hold_up_v(site: &Site, terminal: StageNode) -> Option<f64> {
    match terminal {
        StageNode::Station(station) => {
            let model = site.station_model(&site.stations[station]);
            let off = model.turn_off_voltage.as_ref().map(|off| off.value.as_volts());
            Some(off.unwrap_or(model.least_standby_voltage.value.as_volts()))
        }
        StageNode::BoxInput(index) => {
            let model = site.box_model(&site.boxes[index]);
            let off = model.turn_off_voltage.as_ref().or(model.least_voltage.as_ref());
            off.map(|off| off.value.as_volts())
        }
        _ => None,
    }
}

/// The first node of a run of which `node` is the last.
fn run_start(stage: &Stage, run: usize, mut node: usize) -> usize {
    while matches!(stage.segment[node], Segment::Cable { run: here, section } if here == run && section > 0) {
        node = stage.parent[node] as usize;
    }
    node
}
