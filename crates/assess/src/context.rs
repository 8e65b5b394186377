//! What every rule may look at before anything is solved: the site and how it hangs together.

mod buses;
mod port_tree;

pub use buses::Buses;
pub use port_tree::{PortNode, PortTree, starts_ports};

use crate::grade;
use crate::touch_limits::{self, TouchLimits};
use latchline_finding::{DataGrade, ElementId, Origin};
use latchline_network::{Device, Layout, NodeRef, StageSource};
use latchline_site::addresses::{self, AddressPlan};
use latchline_site::model::{RunStart, RunStop, Site, StationOwner};
use std::sync::OnceLock;

/// What every rule may look at: the site and how it is wired.
#[derive(Clone, Copy)]
pub struct Context<'a> {
    /// The site.
    pub site: &'a Site,
    /// Its trees.
    pub layout: &'a Layout,
    /// Addresses and settings.
    pub addresses: &'a AddressPlan,
    /// How the site hangs together.
    pub topology: &'a Topology,
    /// Assumed values under the flow of each stage, as far as they were asked for.
    pub(crate) grades: &'a [OnceLock<DataGrade>],
}

/// What the wiring of a site says before anything is solved.
#[derive(Debug)]
pub struct Ground {
    /// The trees.
    pub layout: Layout,
    /// Addresses and settings.
    pub addresses: AddressPlan,
    /// How the site hangs together.
    pub topology: Topology,
    grades: Vec<OnceLock<DataGrade>>,
}

impl Ground {
    /// Lays out a site, numbers its devices and walks its runs.
    pub fn new(site: &Site) -> Self {
        let layout = Layout::new(site);
        let grades = layout.stages.iter().map(|_| OnceLock::new()).collect();
        Ground { layout, addresses: addresses::assign(site), topology: Topology::new(site), grades }
    }

    /// As rules see it.
    pub fn context<'a>(&'a self, site: &'a Site) -> Context<'a> {
        let Ground { layout, addresses, topology, grades } = self;
        Context { site, layout, addresses, topology, grades }
    }
}

impl Context<'_> {
    /// Name of a device.
    pub fn device_id(&self, device: Device) -> &ElementId {
        device.id(self.site)
    }

    /// Where a device is defined.
    pub fn device_origin(&self, device: Device) -> Origin {
        match device {
            Device::Station(index) => self.site.stations[index].origin.clone(),
            Device::Box(index) => self.site.boxes[index].origin.clone(),
        }
    }

    /// Where the user wired a device up: its place in a run, else its own definition.
    pub fn wiring_origin(&self, device: Device) -> Origin {
        let section = match device {
            Device::Station(index) => self.topology.section_to_station[index],
            Device::Box(index) => self.topology.section_to_box[index],
        };
        match section {
            Some((run, section)) => self.site.runs[run].sections[section].to_origin.clone(),
            None => self.device_origin(device),
        }
    }

    /// Model of a device.
    pub fn device_model(&self, device: Device) -> &str {
        match device {
            Device::Station(index) => &self.site.stations[index].model.value,
            Device::Box(index) => &self.site.boxes[index].model.value,
        }
    }

    /// The run whose section leads to a node.
    pub fn run_to(&self, at: NodeRef) -> Option<usize> {
        match self.layout.stages[at.stage].segment[at.node] {
            latchline_network::Segment::Cable { run, .. } => Some(run),
            _ => None,
        }
    }

    /// Model name of what feeds a stage.
    pub fn source_model(&self, source: StageSource) -> &str {
        match source {
            StageSource::Supply(index) => &self.site.supplies[index].model.value,
            StageSource::Regenerator(index) => &self.site.boxes[index].model.value,
        }
    }

    /// Where what feeds a stage is defined.
    pub fn source_origin(&self, source: StageSource) -> Origin {
        match source {
            StageSource::Supply(index) => self.site.supplies[index].origin.clone(),
            StageSource::Regenerator(index) => self.site.boxes[index].origin.clone(),
        }
    }

    /// Voltages that may be touched on what a source feeds; a box that makes its voltage anew takes the ripple out.
    pub fn touch_limits(&self, source: StageSource) -> TouchLimits {
        match source {
            StageSource::Supply(index) => {
                let ripple = &self.site.supply_model(&self.site.supplies[index]).ripple;
                touch_limits::with_ripple(ripple.as_ref().map_or(0.0, |ripple| ripple.value.as_fraction()))
            }
            StageSource::Regenerator(_) => touch_limits::DIRECT,
        }
    }

    /// The grade of a finding that rests on what these devices draw and need.
    pub fn grade_of_stage(&self, stage: usize) -> DataGrade {
        let grade = || grade::of_values(grade::of_stage(self.site, self.layout, stage));
        self.grades[stage].get_or_init(grade).clone()
    }
}

/// How the site hangs together, whatever flows: who is behind what.
#[derive(Debug, Clone, PartialEq)]
pub struct Topology {
    /// Runs that start at each station.
    pub runs_from_station: Vec<Vec<usize>>,
    /// Runs that start at each box, with their port.
    pub runs_from_box: Vec<Vec<(u32, usize)>>,
    /// Stations on the sections of each run and on everything beyond, in order.
    pub stations_beyond: Vec<Vec<usize>>,
    /// Cable length of each run and of everything beyond that no box separates, in metres.
    pub length_beyond_m: Vec<f64>,
    /// The run and section that lead to each station.
    pub section_to_station: Vec<Option<(usize, usize)>>,
    /// The run and section that lead to each box's input.
    pub section_to_box: Vec<Option<(usize, usize)>>,
    /// What hangs on each port in use, in the order of their runs.
    pub port_trees: Vec<PortTree>,
    /// What any cable or box joins.
    pub wired: Buses,
    /// What a call can pass along.
    pub signal: Buses,
}

impl Topology {
    /// Works it out.
    pub fn new(site: &Site) -> Self {
        let mut topology = Topology {
            runs_from_station: vec![Vec::new(); site.stations.len()],
            runs_from_box: vec![Vec::new(); site.boxes.len()],
            stations_beyond: vec![Vec::new(); site.runs.len()],
            length_beyond_m: vec![0.0; site.runs.len()],
            section_to_station: vec![None; site.stations.len()],
            section_to_box: vec![None; site.boxes.len()],
            port_trees: Vec::new(),
            wired: Buses::wired(site),
            signal: Buses::signal(site),
        };
        for (run_index, run) in site.runs.iter().enumerate() {
            match run.from {
                RunStart::Supply(_) => {}
                RunStart::Port { box_index, port } => {
                    topology.runs_from_box[box_index].push((port, run_index));
                }
                RunStart::Station(station) => topology.runs_from_station[station].push(run_index),
            }
            for (section_index, section) in run.sections.iter().enumerate() {
                match section.to {
                    RunStop::Station(station) => {
                        topology.section_to_station[station] = Some((run_index, section_index));
                    }
                    RunStop::BoxInput(index) => {
                        topology.section_to_box[index] = Some((run_index, section_index));
                    }
                    RunStop::BoxLink(_) => {}
                }
            }
        }
        for run in 0..site.runs.len() {
            let (stations, length_m) = topology.walk_beyond(site, run);
            topology.stations_beyond[run] = stations;
            topology.length_beyond_m[run] = length_m;
        }
        topology.port_trees = PortTree::all(site, &topology.runs_from_station, &topology.runs_from_box);
        topology
    }

    /// Stations on a run and beyond, and the length of cable up to the next boxes with a supply or
    /// converter of their own.
    fn walk_beyond(&self, site: &Site, run: usize) -> (Vec<usize>, f64) {
        let mut stations = Vec::new();
        let mut length_m = 0.0;
        let mut pending = vec![run];
        let mut seen = vec![false; site.runs.len()];
        while let Some(run) = pending.pop() {
            if std::mem::replace(&mut seen[run], true) {
                continue;
            }
            for section in &site.runs[run].sections {
                length_m += section.length.value.as_metres();
                match section.to {
                    RunStop::Station(station) => {
                        stations.push(station);
                        pending.extend(self.runs_from_station[station].iter().rev());
                    }
                    RunStop::BoxInput(index) => {
                        pending.extend(self.runs_from_box[index].iter().rev().map(|(_, run)| *run));
                    }
                    RunStop::BoxLink(_) => {}
                }
            }
        }
        (stations, length_m)
    }

    /// Dwellings among stations, each once, in order.
    pub fn dwellings(site: &Site, stations: &[usize]) -> Vec<usize> {
        let mut dwellings: Vec<usize> = stations
            .iter()
            .filter_map(|station| match site.stations[*station].owner {
                StationOwner::Dwelling { dwelling, .. } => Some(dwelling),
                _ => None,
            })
            .collect();
        dwellings.sort_unstable();
        dwellings.dedup();
        dwellings
    }
}
