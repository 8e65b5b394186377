//! A short at every place: how much flows, what acts, what else goes dark, how warm the cable gets.
//!
//! Judged with the least fault current: the lowest source voltage, the hottest conductors, a bolted short, and the worse of
//! the other loads kept and neglected (`prospective_worst`). The loads are the currents of standby at night.
//!
//! A supply or port that hiccups or trips acts at its limit current; the catalogue states no spread of it. One that holds
//! its current or folds back never trips: the voltage behind it collapses, and what else hangs there goes dark.
//!
//! Heat goes with the most current that can flow on instead: the highest source voltage, the coldest and shortest conductors, all
//! other loads gone dark; where a trip is on the way, what hardly does not reach it. How warm a cable gets with it is
//! [`steady_temperature_c`] with [`THERMAL_K_M_PER_W`] from its conductors to the air: an assumption
//! on the safe side for a thin pair in a wall (common practice, no source).

mod stage;

pub(crate) use stage::StageShorts;

use crate::evaluate::Solver;
use crate::layout::{Layout, Segment, Stage, StageNode, StageSource};
use crate::memory::Memory;
use crate::resistance::conductor_ohm_per_m;
use crate::state_space::StateSpace;
use crate::wanted::GivenUp;
use latchline_circuit::short_circuit::{Acts, Protector, steady_temperature_c};
use latchline_finding::StateKind;
use latchline_site::catalogue::LimitKind;
use latchline_site::model::{Site, StationOwner};
use rayon::prelude::*;
use stage::{LocalShort, StageTask, port_nodes};
use std::sync::Arc;

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
    short_circuits_with(site, layout, space, &Memory::default())
        .expect("work that is wanted whatever happens is not given up")
}

/// As [`short_circuits`], with what is remembered of stages that are the same.
///
/// # Errors
/// [`GivenUp`] if the memory's work is no longer wanted.
pub fn short_circuits_with(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    memory: &Memory,
) -> Result<ShortCircuits, GivenUp> {
    let night = space.phases.iter().find(|phase| phase.kind == StateKind::StandbyNight);
    let solver = night.map(|phase| (Solver::new(layout, phase), phase));
    let found: Vec<Arc<StageShorts>> = layout
        .stages
        .par_iter()
        .enumerate()
        .map(|(index, stage)| {
            memory.check()?;
            let mut load_a = vec![0.0; stage.parent.len()];
            if let Some((solver, phase)) = &solver
                && let Some(base) = solver.base(index)
            {
                let loads = &phase.base[index];
                for (node, load) in load_a.iter_mut().enumerate() {
                    let current_a = loads.demand(node).current_at(base.voltage_v[node], loads.drop_v[node]);
                    *load = current_a.max(0.0);
                }
            }
            let task = StageTask::new(site, stage, load_a);
            Ok(memory.shorts(task.key(), || task.run()))
        })
        .collect::<Result<_, GivenUp>>()?;
    let mut result = ShortCircuits::default();
    for (index, (stage, found)) in layout.stages.iter().zip(found).enumerate() {
        result.runs.extend(found.runs.iter().map(|short| named(site, stage, index, short)));
        result.fault_a.push(found.fault_a.clone());
    }
    result.runs.sort_by_key(|short| short.run);
    Ok(result)
}

/// A short in terms of its site.
fn named(site: &Site, stage: &Stage, index: usize, short: &LocalShort) -> RunShort {
    let Segment::Cable { run, .. } = stage.segment[short.node] else {
        unreachable!("a run ends in a cable");
    };
    let port = |at: usize| match stage.terminal[port_nodes(site, stage)[at]] {
        StageNode::Port { box_index, port } => (box_index, port),
        _ => unreachable!("a port with a limit is a port"),
    };
    let acts = match short.acts {
        Acts::Trips(Protector::Supply) => Acting::SourceTrips,
        Acts::Limits(Protector::Supply) => Acting::SourceLimits,
        Acts::Trips(Protector::Port(at)) => {
            let (box_index, port) = port(at);
            Acting::PortTrips { box_index, port }
        }
        Acts::Limits(Protector::Port(at)) => {
            let (box_index, port) = port(at);
            Acting::PortLimits { box_index, port }
        }
        Acts::Undetected => Acting::Nothing,
    };
    let mut also_dark: Vec<usize> = short
        .dark
        .iter()
        .filter_map(|node| match stage.terminal[*node as usize] {
            StageNode::Station(station) => match site.stations[station].owner {
                StationOwner::Dwelling { dwelling, .. } => Some(dwelling),
                _ => None,
            },
            _ => None,
        })
        .collect();
    also_dark.sort_unstable();
    also_dark.dedup();
    let ends_it = matches!(acts, Acting::SourceTrips | Acting::PortTrips { .. });
    let limit_c = site.cable(&site.runs[run]).conductor_temperature_limit.as_ref();
    RunShort {
        run,
        stage: index,
        node: short.node,
        fault_a: short.fault_a,
        unlimited_a: short.unlimited_a,
        acts,
        trip_needs_a: short.trip_needs_a,
        also_dark,
        heating_a: short.heating_a,
        temperature_c: (!ends_it).then(|| temperature_c(site, run, short.heating_a)),
        temperature_limit_c: limit_c.map_or(USUAL_LIMIT_C, |limit| limit.value.as_celsius()),
    }
}

/// Steady temperature of a run's conductors at a current, in °C; infinite where there is none.
fn temperature_c(site: &Site, run: usize, current_a: f64) -> f64 {
    let run = &site.runs[run];
    let ambient_c = site.conditions.hottest_temperature.value.as_celsius();
    let each_a = current_a / run.pairs_in_parallel();
    let ohm_per_m = |celsius: f64| conductor_ohm_per_m(site.cable(run), celsius);
    // Resistance is linear in temperature, so that any two give the metal's coefficient.
    let per_k = (ohm_per_m(120.0) / ohm_per_m(20.0) - 1.0) / 100.0;
    match steady_temperature_c(each_a, ohm_per_m(20.0), per_k, THERMAL_K_M_PER_W, ambient_c) {
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
