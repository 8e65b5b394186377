//! A short at every place: how much flows, what acts, what else goes dark, how warm the cable gets.
//!
//! Judged with the least fault current: the lowest source voltage, the hottest conductors, a bolted short, and the worse of
//! the other loads kept and neglected ([`prospective_worst`]). The loads are the currents of standby at night.
//!
//! A supply or port that hiccups or trips acts at its limit current; the catalogue states no spread of it. One that holds
//! its current or folds back never trips: the voltage behind it collapses, and what else hangs there goes dark.
//!
//! Heat goes with the most current that can flow on instead: the highest source voltage, the coldest and shortest conductors, all
//! other loads gone dark; where a trip is on the way, what hardly does not reach it. How warm a cable gets with it is
//! [`steady_temperature_c`] with [`THERMAL_K_M_PER_W`] from its conductors to the air: an assumption
//! on the safe side for a thin pair in a wall (common practice, no source).

use crate::evaluate::Solver;
use crate::layout::{Corner, Layout, Segment, Stage, StageSource, Terminal};
use crate::resistance::conductor_ohm_per_m;
use crate::states::StateSpace;
use latchline_circuit::short_circuit::{
    Acts, FaultLoad, PortProtection, Prospective, Protection, Protector, ShortCircuitNetwork, TripBand,
    prospective, prospective_worst, standing_fault, steady_temperature_c,
};
use latchline_circuit::startup::Limit;
use latchline_finding::StateKind;
use latchline_site::catalogue::LimitKind;
use latchline_site::model::Site;

/// Thermal resistance from the conductors of a pair to the air, K m/W, when laid in insulation (common practice, no source).
pub const THERMAL_K_M_PER_W: f64 = 10.0;
/// Conductor temperature that thermoplastic insulation stands, °C, where the cable states none (IEC 60364-5-52 table
/// 52.1, from memory).
pub const USUAL_LIMIT_C: f64 = 70.0;

/// What acts on a short, with its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Acting {
    /// The supply or regenerating box trips or hiccups.
    SourceTrips,
    /// This port trips or hiccups.
    PortTrips {
        /// Index into [`Site::boxes`].
        box_index: usize,
        /// Port number from 1.
        port: u32,
    },
    /// The supply or regenerating box holds its limit; nothing trips.
    SourceLimits,
    /// This port holds its limit; nothing trips.
    PortLimits {
        /// Index into [`Site::boxes`].
        box_index: usize,
        /// Port number from 1.
        port: u32,
    },
    /// Nothing acts: the fault current flows on.
    Nothing,
}

/// A short at the far end of a run: its last terminal.
#[derive(Debug, Clone, PartialEq)]
pub struct RunShort {
    /// Index into [`Site::runs`].
    pub run: usize,
    /// Stage of its end.
    pub stage: usize,
    /// Node of its end.
    pub node: usize,
    /// Current through the short, in amperes.
    pub fault_a: f64,
    /// Current through it if nothing limited it, in amperes.
    pub unlimited_a: f64,
    /// What acts.
    pub acts: Acting,
    /// Current that the nearest trip would need, in amperes, where there is a trip on the way.
    pub trip_needs_a: Option<f64>,
    /// Dwellings beyond the supply's own part that go dark besides those on the run and behind it.
    pub also_dark: Vec<usize>,
    /// The most current that can flow on and heat the run, all other loads gone, in amperes.
    pub heating_a: f64,
    /// Temperature of the run's conductors while the current flows on, in °C; `None` where a trip ends it, infinite
    /// where it runs away.
    pub temperature_c: Option<f64>,
    /// What its insulation stands, in °C.
    pub temperature_limit_c: f64,
}

/// A trip or limit that the largest legitimate current reaches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nuisance {
    /// Stage.
    pub stage: usize,
    /// Box and port; `None` for the source itself.
    pub port: Option<(usize, u32)>,
    /// Largest legitimate current, in amperes.
    pub legitimate_a: f64,
    /// Smallest trip current, in amperes.
    pub trip_a: f64,
}

/// Shorts on all runs.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ShortCircuits {
    /// Runs in file order.
    pub runs: Vec<RunShort>,
    /// Prospective current at every node of every stage, in amperes.
    pub fault_a: Vec<Vec<f64>>,
}

/// Judges a short at the end of every run.
pub fn short_circuits(site: &Site, layout: &Layout, space: &StateSpace) -> ShortCircuits {
    let night = space.phases.iter().find(|phase| phase.kind == StateKind::StandbyNight);
    let solver = night.map(|phase| (Solver::new(layout, phase), phase));
    let mut result = ShortCircuits::default();
    for (index, stage) in layout.stages.iter().enumerate() {
        let mut load_a = vec![0.0; stage.parent.len()];
        if let Some((solver, phase)) = &solver
            && let Some(base) = solver.base(index)
        {
            let loads = &phase.base[index];
            for (node, load) in load_a.iter_mut().enumerate() {
                *load = loads.demand(node).current_at(base.voltage_v[node], loads.drop_v[node]).max(0.0);
            }
        }
        judge_stage(site, stage, index, &load_a, &mut result);
    }
    result.runs.sort_by_key(|short| short.run);
    result
}

/// Protection of a stage's source: its limiter, and its trip beside it.
fn source_protection(site: &Site, stage: &Stage) -> (Limit, Option<TripBand>) {
    let nominal_v = stage.voltage_v[Corner::Nominal.index()];
    match stage.source {
        StageSource::Supply(index) => {
            let model = site.supply_model(&site.supplies[index]);
            let limit_a = model.limit_current.as_ref().unwrap_or(&model.rated_current).value.as_amps();
            let band = TripBand { smallest_a: limit_a, largest_a: limit_a };
            match model.limit_kind.value {
                LimitKind::ConstantCurrent => (Limit::ConstantCurrent { current_a: limit_a }, None),
                LimitKind::Foldback => {
                    // Without a figure, as much as at full voltage: most heat, and no trip either way.
                    let short = model.short_circuit_current.as_ref();
                    let short_current_a = short.map_or(limit_a, |short| short.value.as_amps()).min(limit_a);
                    let knee_voltage_v = crate::start_up::KNEE * nominal_v;
                    (Limit::Foldback { max_current_a: limit_a, knee_voltage_v, short_current_a }, None)
                }
                // Both act once the limit has lasted; how long is not asked here.
                LimitKind::Hiccup => {
                    (Limit::Hiccup { current_a: limit_a, trip_time_s: 1.0, off_time_s: 1.0 }, None)
                }
                LimitKind::Trip => (Limit::None, Some(band)),
            }
        }
        StageSource::Regenerator(index) => {
            let model = site.box_model(&site.boxes[index]);
            let limit = model.output_power.as_ref().map_or(Limit::None, |power| Limit::ConstantCurrent {
                current_a: power.value.as_watts() / nominal_v,
            });
            (limit, None)
        }
    }
}

/// Limit or trip of every port that has one, with its box and port number.
fn port_protection(site: &Site, stage: &Stage) -> (Vec<PortProtection>, Vec<(usize, u32)>) {
    let (mut list, mut names) = (Vec::new(), Vec::new());
    for (node, terminal) in stage.terminal.iter().enumerate() {
        let Terminal::Port { box_index, port } = *terminal else { continue };
        let model = site.box_model(&site.boxes[box_index]);
        let Some(limit) = &model.port_current_limit else { continue };
        let limit_a = limit.value.as_amps();
        let protection = match model.port_limit_kind.as_ref().map(|kind| kind.value) {
            Some(LimitKind::Hiccup | LimitKind::Trip) => {
                Protection::Trip(TripBand { smallest_a: limit_a, largest_a: limit_a })
            }
            _ => Protection::Limit(limit_a),
        };
        list.push(PortProtection { node, protection });
        names.push((box_index, port));
    }
    (list, names)
}

fn judge_stage(site: &Site, stage: &Stage, index: usize, load_a: &[f64], result: &mut ShortCircuits) {
    let (limit, trip) = source_protection(site, stage);
    let (ports, names) = port_protection(site, stage);
    let in_corner = |corner: Corner| {
        let resistance_ohm = &stage.resistance_ohm[corner.index()];
        ShortCircuitNetwork {
            parent: &stage.parent,
            loop_resistance_ohm: resistance_ohm,
            voltage_v: stage.voltage_v[corner.index()],
            source_ohm: resistance_ohm[0],
            limit,
            trip,
            ports: &ports,
        }
    };
    let network = in_corner(Corner::Adverse);
    // What the kernel refuses cannot come from a resolved site; the stage is then left without figures.
    let Ok(verdicts) = prospective_worst(&network, 0.0, load_a) else {
        result.fault_a.push(Vec::new());
        return;
    };
    let most = prospective(&in_corner(Corner::Light), 0.0, None).unwrap_or_default();
    result.fault_a.push(verdicts.iter().map(|verdict| verdict.worst.fault_a).collect());
    let loads: Vec<FaultLoad> = stage
        .terminal
        .iter()
        .enumerate()
        .filter_map(|(node, terminal)| {
            let hold_up_v = hold_up_v(site, *terminal)?;
            Some(FaultLoad { node, current_a: load_a[node], hold_up_v })
        })
        .collect();
    for (node, segment) in stage.segment.iter().enumerate() {
        let Segment::Cable { run, section } = *segment else { continue };
        if section + 1 != site.runs[run].sections.len()
            || matches!(stage.terminal[node], Terminal::BoxLink(_))
        {
            continue;
        }
        let worst = verdicts[node].worst;
        let acts = match worst.acts {
            Acts::Trips(Protector::Supply) => Acting::SourceTrips,
            Acts::Limits(Protector::Supply) => Acting::SourceLimits,
            Acts::Trips(Protector::Port(at)) => {
                Acting::PortTrips { box_index: names[at].0, port: names[at].1 }
            }
            Acts::Limits(Protector::Port(at)) => {
                Acting::PortLimits { box_index: names[at].0, port: names[at].1 }
            }
            Acts::Undetected => Acting::Nothing,
        };
        let tripped_from = match worst.acts {
            Acts::Trips(Protector::Supply) => Some(0),
            Acts::Trips(Protector::Port(at)) => Some(ports[at].node),
            _ => None,
        };
        let own = run_start(stage, run, node);
        let also_dark = dark_besides(site, stage, &network, node, own, tripped_from, &loads);
        let ends_it = matches!(acts, Acting::SourceTrips | Acting::PortTrips { .. });
        let heating_a = most.get(node).map_or(worst.fault_a, most_sustained_a);
        let cable = site.cable(&site.runs[run]);
        let limit_c = cable.conductor_temperature_limit.as_ref();
        result.runs.push(RunShort {
            run,
            stage: index,
            node,
            fault_a: worst.fault_a,
            unlimited_a: worst.unlimited_a,
            acts,
            trip_needs_a: worst.trip_reserve_a.map(|reserve| worst.fault_a - reserve),
            also_dark,
            heating_a,
            temperature_c: (!ends_it).then(|| temperature_c(site, run, heating_a)),
            temperature_limit_c: limit_c.map_or(USUAL_LIMIT_C, |limit| limit.value.as_celsius()),
        });
    }
}

/// The most that flows on: all of it, or what hardly does not reach the trip on the way.
fn most_sustained_a(most: &Prospective) -> f64 {
    match most.trip_reserve_a {
        Some(reserve_a) if reserve_a > 0.0 => most.fault_a - reserve_a,
        _ => most.fault_a,
    }
}

/// Voltage below which what is there goes dark.
fn hold_up_v(site: &Site, terminal: Terminal) -> Option<f64> {
    match terminal {
        Terminal::Station(station) => {
            let model = site.station_model(&site.stations[station]);
            let off = model.turn_off_voltage.as_ref().map(|off| off.value.as_volts());
            Some(off.unwrap_or(model.least_standby_voltage.value.as_volts()))
        }
        Terminal::BoxInput(index) => {
            let model = site.box_model(&site.boxes[index]);
            model.least_voltage.as_ref().map(|least| least.value.as_volts())
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

/// Dwellings of the stage that go dark, without those on the shorted run and behind it.
fn dark_besides(
    site: &Site,
    stage: &Stage,
    network: &ShortCircuitNetwork<'_>,
    node: usize,
    own: usize,
    tripped_from: Option<usize>,
    loads: &[FaultLoad],
) -> Vec<usize> {
    let is_own = |at: usize| (own..stage.subtree_end[own] as usize).contains(&at);
    let dark: Vec<bool> = match tripped_from {
        Some(from) => {
            loads.iter().map(|load| (from..stage.subtree_end[from] as usize).contains(&load.node)).collect()
        }
        None => match standing_fault(network, node, 0.0, loads) {
            Ok(standing) => standing.dark,
            Err(_) => return Vec::new(),
        },
    };
    let mut dwellings: Vec<usize> = loads
        .iter()
        .zip(dark)
        .filter(|(load, dark)| *dark && !is_own(load.node))
        .filter_map(|(load, _)| match stage.terminal[load.node] {
            Terminal::Station(station) => match site.stations[station].owner {
                latchline_site::model::StationOwner::Dwelling { dwelling, .. } => Some(dwelling),
                _ => None,
            },
            _ => None,
        })
        .collect();
    dwellings.sort_unstable();
    dwellings.dedup();
    dwellings
}

/// Steady temperature of a run's conductors at a current, in °C; infinite where there is none.
fn temperature_c(site: &Site, run: usize, current_a: f64) -> f64 {
    let run = &site.runs[run];
    let ambient_c = site.conditions.hottest_temperature.value.as_celsius();
    let each_a = current_a / f64::from(run.pairs.value.max(1));
    let ohm_per_m = conductor_ohm_per_m(site.cable(run), 20.0);
    match steady_temperature_c(each_a, ohm_per_m, THERMAL_K_M_PER_W, ambient_c) {
        Ok(Some(temperature_c)) => temperature_c,
        Ok(None) => f64::INFINITY,
        // No current, no heat.
        Err(_) => ambient_c,
    }
}

/// Trips and hiccup limits that the largest legitimate currents reach: `source_a` by stage, `run_a` by run.
pub fn nuisance_trips(
    site: &Site,
    layout: &Layout,
    source_a: &[Option<f64>],
    run_a: &[Option<f64>],
) -> Vec<Nuisance> {
    let mut found = Vec::new();
    for (index, stage) in layout.stages.iter().enumerate() {
        if let StageSource::Supply(supply) = stage.source
            && let Some(legitimate_a) = source_a[index]
        {
            let model = site.supply_model(&site.supplies[supply]);
            let limit = model.limit_current.as_ref().unwrap_or(&model.rated_current).value.as_amps();
            let trips = matches!(model.limit_kind.value, LimitKind::Hiccup | LimitKind::Trip);
            if trips && legitimate_a >= limit {
                found.push(Nuisance { stage: index, port: None, legitimate_a, trip_a: limit });
            }
        }
    }
    for (run, at) in layout.run_start.iter().enumerate() {
        let (Some(at), Some(legitimate_a)) = (at, run_a[run]) else { continue };
        let latchline_site::model::RunStart::Port { box_index, port } = site.runs[run].from else { continue };
        let model = site.box_model(&site.boxes[box_index]);
        let Some(limit) = &model.port_current_limit else { continue };
        let trips = matches!(
            model.port_limit_kind.as_ref().map(|kind| kind.value),
            Some(LimitKind::Hiccup | LimitKind::Trip)
        );
        let trip_a = limit.value.as_amps();
        if trips && legitimate_a >= trip_a {
            found.push(Nuisance { stage: at.stage, port: Some((box_index, port)), legitimate_a, trip_a });
        }
    }
    found
}
