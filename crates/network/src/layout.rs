//! From a site to its electrical trees.
//!
//! Direct current flows in *stages*: the galvanic tree of one supply, or of one regenerating box,
//! whose ports carry a voltage of their own and whose input is a load of the stage above. A stage is
//! a set of flat arrays in parent-first order, laid out once and solved many times. The
//! resistances are kept for three corners: [`Corner::Nominal`](crate::Corner::Nominal), [`Corner::Adverse`](crate::Corner::Adverse) (hot, long, upper end of tolerance)
//! and [`Corner::Light`](crate::Corner::Light) (cold, short, lower end).

use crate::resistance::{SectionResistance, section_resistances};
use latchline_finding::ElementId;
use latchline_site::catalogue::BoxKind;
use latchline_site::model::{RunStart, RunStop, Site};

/// What feeds a stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StageSource {
    /// A supply: index into [`Site::supplies`].
    Supply(usize),
    /// The ports of a regenerating box: index into [`Site::boxes`].
    Regenerator(usize),
}

/// What a node of a stage is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StageNode {
    /// The output of the supply, or the ports' common point of a regenerating box.
    Source,
    /// The input of a box: index into [`Site::boxes`].
    BoxInput(usize),
    /// A port of a box.
    Port {
        /// Index into [`Site::boxes`].
        box_index: usize,
        /// Port number from 1.
        port: u32,
    },
    /// The signal link of an isolating box: index into [`Site::boxes`]. Carries no direct current.
    BoxLink(usize),
    /// The terminals of a station: index into [`Site::stations`].
    Station(usize),
}

/// The segment that leads to a node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// Inside the source: its own resistance.
    Source,
    /// Inside a box, from its input to a port.
    PortResistance,
    /// A section of a run, surge protection included.
    Cable {
        /// Index into [`Site::runs`].
        run: usize,
        /// Section of that run.
        section: usize,
    },
}

/// The galvanic tree of one source, in parent-first order; node 0 is the source's terminal.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// What feeds it.
    pub source: StageSource,
    /// Its name: the supply or box.
    pub id: ElementId,
    /// Parent of each node; entry 0 is 0.
    pub parent: Vec<u32>,
    /// What each node is.
    pub terminal: Vec<StageNode>,
    /// The segment that leads to each node.
    pub segment: Vec<Segment>,
    /// Loop resistance of that segment in ohms, by corner; entry 0 is the source's own.
    pub resistance_ohm: [Vec<f64>; 3],
    /// Length of cable from the source to each node in metres.
    pub distance_m: Vec<f64>,
    /// Open-circuit voltage by corner, in volts.
    pub voltage_v: [f64; 3],
    /// One past the last node of the subtree of each node (nodes are in depth-first order).
    pub subtree_end: Vec<u32>,
    /// Regenerating boxes on this stage: their input node and the stage that they feed.
    pub converters: Vec<Converter>,
}

/// The input of a regenerating box as a load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Converter {
    /// Node of its input.
    pub node: usize,
    /// The stage that it feeds; always a later one.
    pub stage: usize,
    /// Efficiency from input to ports.
    pub efficiency: f64,
}

/// A place in the stages.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct NodeRef {
    /// Index into [`Layout::stages`].
    pub stage: usize,
    /// Node of that stage.
    pub node: usize,
}

/// The whole site as trees.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// Stages; a converter's own stage comes after the stage it draws from.
    pub stages: Vec<Stage>,
    /// Where each station is.
    pub station: Vec<Option<NodeRef>>,
    /// Where the input of each box is.
    pub box_input: Vec<Option<NodeRef>>,
    /// The node at the end of the first section of each run.
    pub run_start: Vec<Option<NodeRef>>,
    /// The node at the end of the last section of each run.
    pub run_end: Vec<Option<NodeRef>>,
    /// Lengths and resistances of the sections of each run.
    pub sections: Vec<Vec<SectionResistance>>,
}

impl Layout {
    /// A stage with all that draw from it, directly or through others: deepest first, itself last.
    pub fn with_stages_below(&self, stage: usize) -> Vec<usize> {
        let mut list = Vec::new();
        for converter in &self.stages[stage].converters {
            list.extend(self.with_stages_below(converter.stage));
        }
        list.push(stage);
        list
    }

    /// Lays out a resolved site. What no supply reaches has no node (the resolver has said so).
    pub fn new(site: &Site) -> Self {
        let sections: Vec<_> = site.runs.iter().map(|run| section_resistances(site, run)).collect();
        let mut layout = Layout {
            stages: Vec::new(),
            station: vec![None; site.stations.len()],
            box_input: vec![None; site.boxes.len()],
            run_start: vec![None; site.runs.len()],
            run_end: vec![None; site.runs.len()],
            sections,
        };
        let mut runs_from = RunsFrom::new(site);
        // Regenerating boxes join the queue as their inputs are met, so a stage follows its feeder.
        let mut queue: std::collections::VecDeque<(StageSource, Option<(usize, usize)>)> =
            (0..site.supplies.len()).map(|supply| (StageSource::Supply(supply), None)).collect();
        while let Some((source, feeder)) = queue.pop_front() {
            let index = layout.stages.len();
            let stage = lay_out_stage(site, &mut layout, &mut runs_from, source, index);
            for &(node, box_index) in &stage.regenerators {
                queue.push_back((StageSource::Regenerator(box_index), Some((index, node))));
            }
            layout.stages.push(stage.stage);
            if let (Some((above, node)), StageSource::Regenerator(box_index)) = (feeder, source) {
                let model = site.box_model(&site.boxes[box_index]);
                let efficiency = model.efficiency.as_ref().map_or(1.0, |value| value.value.as_fraction());
                layout.stages[above].converters.push(Converter { node, stage: index, efficiency });
            }
        }
        layout
    }

    /// The stage of a node.
    pub fn stage(&self, node: NodeRef) -> &Stage {
        &self.stages[node.stage]
    }
}

/// Runs by where they start, taken out as they are laid so that no run is laid twice.
struct RunsFrom {
    from_supply: Vec<Vec<usize>>,
    from_port: Vec<Vec<(u32, usize)>>,
    from_station: Vec<Vec<usize>>,
}

impl RunsFrom {
    fn new(site: &Site) -> Self {
        let mut runs = RunsFrom {
            from_supply: vec![Vec::new(); site.supplies.len()],
            from_port: vec![Vec::new(); site.boxes.len()],
            from_station: vec![Vec::new(); site.stations.len()],
        };
        for (index, run) in site.runs.iter().enumerate() {
            match run.from {
                RunStart::Supply(supply) => runs.from_supply[supply].push(index),
                RunStart::Port { box_index, port } => runs.from_port[box_index].push((port, index)),
                RunStart::Station(station) => runs.from_station[station].push(index),
            }
        }
        for ports in &mut runs.from_port {
            ports.sort_unstable();
        }
        runs
    }
}

struct LaidStage {
    stage: Stage,
    /// Input node and box of each regenerating box met.
    regenerators: Vec<(usize, usize)>,
}

/// Work still to do while a stage is laid out: last in, first out gives depth-first order.
enum Pending {
    /// The sections of a run from this one on, starting at this node.
    Run { from: usize, run: usize, section: usize },
    /// A port with its run.
    Port { input: usize, box_index: usize, port: u32, run: usize },
}

fn lay_out_stage(
    site: &Site,
    layout: &mut Layout,
    runs_from: &mut RunsFrom,
    source: StageSource,
    index: usize,
) -> LaidStage {
    let (id, voltage_v, source_resistance) = source_values(site, source);
    let mut laid = LaidStage {
        stage: Stage {
            source,
            id,
            parent: vec![0],
            terminal: vec![StageNode::Source],
            segment: vec![Segment::Source],
            resistance_ohm: [vec![source_resistance], vec![source_resistance], vec![source_resistance]],
            distance_m: vec![0.0],
            voltage_v,
            subtree_end: Vec::new(),
            converters: Vec::new(),
        },
        regenerators: Vec::new(),
    };
    let mut pending = Vec::new();
    match source {
        StageSource::Supply(supply) => {
            let runs = std::mem::take(&mut runs_from.from_supply[supply]);
            pending.extend(runs.into_iter().rev().map(|run| Pending::Run { from: 0, run, section: 0 }));
        }
        StageSource::Regenerator(box_index) => push_ports(runs_from, &mut pending, 0, box_index),
    }
    while let Some(next) = pending.pop() {
        match next {
            Pending::Port { input, box_index, port, run } => {
                let ohm = site.box_model(&site.boxes[box_index]).port_resistance.value.as_ohms();
                let terminal = StageNode::Port { box_index, port };
                let node = add(&mut laid.stage, input, terminal, Segment::PortResistance, [ohm; 3], 0.0);
                pending.push(Pending::Run { from: node, run, section: 0 });
            }
            Pending::Run { from, run, section } => {
                let stop = site.runs[run].sections[section].to;
                let values = layout.sections[run][section];
                let (terminal, taken) = match stop {
                    RunStop::Station(station) => {
                        (StageNode::Station(station), layout.station[station].is_some())
                    }
                    RunStop::BoxInput(index) => {
                        (StageNode::BoxInput(index), layout.box_input[index].is_some())
                    }
                    RunStop::BoxLink(index) => (StageNode::BoxLink(index), false),
                };
                if taken {
                    // A ring or dual feed: the resolver refuses it by name before this is reached.
                    continue;
                }
                let segment = Segment::Cable { run, section };
                let length = values.length_m;
                let node = add(&mut laid.stage, from, terminal, segment, values.ohm, length);
                let place = NodeRef { stage: index, node };
                if section == 0 {
                    layout.run_start[run] = Some(place);
                }
                if section + 1 == site.runs[run].sections.len() {
                    layout.run_end[run] = Some(place);
                }
                match stop {
                    RunStop::Station(station) => {
                        layout.station[station] = Some(place);
                        let runs = std::mem::take(&mut runs_from.from_station[station]);
                        let rest = runs.into_iter().rev();
                        pending.extend(rest.map(|run| Pending::Run { from: node, run, section: 0 }));
                    }
                    RunStop::BoxInput(box_index) => {
                        layout.box_input[box_index] = Some(place);
                        if site.box_model(&site.boxes[box_index]).kind.value == BoxKind::Regenerated {
                            laid.regenerators.push((node, box_index));
                        } else {
                            push_ports(runs_from, &mut pending, node, box_index);
                        }
                    }
                    RunStop::BoxLink(_) => {}
                }
                // The rest of this run comes first, so that a chain lies together in memory.
                if section + 1 < site.runs[run].sections.len() {
                    pending.push(Pending::Run { from: node, run, section: section + 1 });
                }
            }
        }
    }
    laid.stage.subtree_end = subtree_ends(&laid.stage.parent);
    laid
}

fn push_ports(runs_from: &mut RunsFrom, pending: &mut Vec<Pending>, input: usize, box_index: usize) {
    let runs = std::mem::take(&mut runs_from.from_port[box_index]);
    let ports = runs.into_iter().rev();
    pending.extend(ports.map(|(port, run)| Pending::Port { input, box_index, port, run }));
}

fn add(
    stage: &mut Stage,
    parent: usize,
    terminal: StageNode,
    segment: Segment,
    ohm: [f64; 3],
    length_m: f64,
) -> usize {
    let node = stage.parent.len();
    stage.parent.push(parent as u32);
    stage.terminal.push(terminal);
    stage.segment.push(segment);
    for (corner, value) in stage.resistance_ohm.iter_mut().zip(ohm) {
        corner.push(value);
    }
    let distance = stage.distance_m[parent] + length_m;
    stage.distance_m.push(distance);
    node
}

/// In depth-first order the subtree of a node is the range from it to its end.
fn subtree_ends(parent: &[u32]) -> Vec<u32> {
    let mut ends: Vec<u32> = (1..=parent.len() as u32).collect();
    for node in (1..parent.len()).rev() {
        let above = parent[node] as usize;
        ends[above] = ends[above].max(ends[node]);
    }
    ends
}

/// Name, voltages by corner and series resistance of what feeds a stage.
fn source_values(site: &Site, source: StageSource) -> (ElementId, [f64; 3], f64) {
    let spread =
        |nominal: f64, tolerance: f64| [nominal, nominal * (1.0 - tolerance), nominal * (1.0 + tolerance)];
    match source {
        StageSource::Supply(index) => {
            let supply = &site.supplies[index];
            let model = site.supply_model(supply);
            let nominal = supply.set_voltage.as_ref().map_or(model.voltage.value, |set| set.value);
            let tolerance = model.voltage_tolerance.value.as_fraction();
            let resistance = model.source_resistance.value.as_ohms();
            (supply.id.clone(), spread(nominal.as_volts(), tolerance), resistance)
        }
        StageSource::Regenerator(index) => {
            let regenerator = &site.boxes[index];
            let model = site.box_model(regenerator);
            let family = &site.catalogue.families[&model.family.value];
            let nominal =
                model.output_voltage.as_ref().map_or(family.nominal_voltage.value, |value| value.value);
            let tolerance = model.output_tolerance.as_ref().map_or(0.0, |value| value.value.as_fraction());
            let resistance = model.output_resistance.as_ref().map_or(0.0, |value| value.value.as_ohms());
            (regenerator.id.clone(), spread(nominal.as_volts(), tolerance), resistance)
        }
    }
}
