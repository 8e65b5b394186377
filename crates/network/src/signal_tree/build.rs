//! Building the network from a site and its layout.

use super::line::{PairConstants, line_of, pair_constants};
use super::{CableLengths, Feed, MissingKind, MissingValue, SignalEdge, SignalNetwork};
use crate::layout::{Layout, NodeRef, Segment, StageNode, StageSource};
use latchline_circuit::signal::{Entry, Line, LineLaw, LossPoint, PlainLine, Shunt};
use latchline_finding::quantity::{Inductance, Resistance};
use latchline_finding::{ElementId, Sourced};
use latchline_site::catalogue::{BoxKind, BoxModel, BoxRole};
use latchline_site::model::Site;
use latchline_site::protectors::{self, SectionProtectors};
use latchline_words::missing::Missing;
use std::collections::BTreeMap;

/// Inductance of a feed without a choke: a few centimetres of wire, a short for every signal.
const WIRE_H: f64 = 1e-8;

impl SignalNetwork {
    /// The network of a site with its cables at one of the lengths that are tried.
    pub fn new(site: &Site, layout: &Layout, lengths: CableLengths) -> Self {
        Builder::new(site, layout, &constants_of_runs(site), lengths).build()
    }

    /// The networks of a site with its cables at each of these lengths.
    pub(super) fn of_lengths(site: &Site, layout: &Layout, lengths: &[CableLengths]) -> Vec<Self> {
        let constants = constants_of_runs(site);
        lengths.iter().map(|lengths| Builder::new(site, layout, &constants, *lengths).build()).collect()
    }
}

/// The constants of the cable of each run. A fit takes its time: once a cable.
fn constants_of_runs(site: &Site) -> Vec<Option<PairConstants>> {
    let mut known: BTreeMap<&str, Option<PairConstants>> = BTreeMap::new();
    let cables = site.runs.iter().map(|run| site.cable(run));
    cables
        .map(|cable| *known.entry(cable.head.name.as_str()).or_insert_with(|| pair_constants(cable)))
        .collect()
}

struct Builder<'a> {
    site: &'a Site,
    layout: &'a Layout,
    /// What a stated length is multiplied by.
    length_factor: f64,
    network: SignalNetwork,
    /// First node of each stage.
    first: Vec<usize>,
    /// Joint of the link and the ports of each isolating box.
    hub: Vec<Option<usize>>,
    /// Line of each run: into `network.lines`.
    line_of_run: Vec<Option<usize>>,
    /// Surge protectors of each run, section by section.
    protectors_of_run: Vec<Vec<SectionProtectors>>,
    /// What is missing, with the node that tells the component.
    missing: Vec<(usize, MissingKind, ElementId, Missing)>,
}

/// A joint of no length needs some line; any will do.
fn joint() -> Line {
    let law = LineLaw::Plain(PlainLine {
        r_ohm_per_m: 0.1,
        l_h_per_m: 6e-7,
        c_f_per_m: 5e-11,
        g_s_per_m: 0.0,
        skin_corner_hz: None,
        loss_tangent: 0.0,
    });
    Line::new(law).expect("the constants of a telephone pair are those of a line")
}

impl<'a> Builder<'a> {
    fn new(
        site: &'a Site,
        layout: &'a Layout,
        constants: &[Option<PairConstants>],
        lengths: CableLengths,
    ) -> Self {
        let mut first = Vec::with_capacity(layout.stages.len());
        let mut nodes = 0;
        for stage in &layout.stages {
            first.push(nodes);
            nodes += stage.parent.len();
        }
        let mut lines = vec![joint()];
        let line_of_run = site
            .runs
            .iter()
            .zip(constants)
            .map(|(run, constants)| {
                let line = line_of(site, run, (*constants)?, lengths)?;
                let known = lines.iter().position(|other| *other == line);
                Some(known.unwrap_or_else(|| {
                    lines.push(line);
                    lines.len() - 1
                }))
            })
            .collect();
        let network = SignalNetwork {
            lines,
            edges: Vec::new(),
            fixed: Vec::new(),
            station: vec![None; site.stations.len()],
            bridging: vec![None; site.stations.len()],
            feeds: Vec::new(),
            component: (0..nodes).collect(),
            missing: Vec::new(),
        };
        let hub = vec![None; site.boxes.len()];
        let length_factor = lengths.factor(&site.conditions);
        let protectors_of_run = site.runs.iter().map(|run| protectors::of_sections(site, run)).collect();
        let missing = Vec::new();
        Builder { site, layout, length_factor, network, first, hub, line_of_run, protectors_of_run, missing }
    }

    fn build(mut self) -> SignalNetwork {
        for stage in 0..self.layout.stages.len() {
            self.source(stage);
            for node in 1..self.layout.stages[stage].parent.len() {
                self.segment(stage, node);
            }
        }
        self.stations();
        self.terminators();
        self.components();
        self.network
    }

    fn node(&self, at: NodeRef) -> usize {
        self.first[at.stage] + at.node
    }

    fn new_node(&mut self) -> usize {
        let node = self.network.component.len();
        self.network.component.push(node);
        node
    }

    fn hub(&mut self, box_index: usize) -> usize {
        match self.hub[box_index] {
            Some(node) => node,
            None => {
                let node = self.new_node();
                self.hub[box_index] = Some(node);
                node
            }
        }
    }

    fn joint(&mut self, from: usize, to: usize, entry: Option<Entry>) {
        self.network.edges.push(SignalEdge { ends: (from, to), line: 0, length_m: 0.0, entry });
    }

    fn lacks(&mut self, node: usize, kind: MissingKind, element: &ElementId, missing: Missing) {
        self.missing.push((node, kind, element.clone(), missing));
    }

    /// The feed of a stage at its first node.
    fn source(&mut self, stage: usize) {
        let node = self.first[stage];
        match self.layout.stages[stage].source {
            StageSource::Supply(index) => {
                let supply = &self.site.supplies[index];
                let model = self.site.supply_model(supply);
                self.feed(node, model.feed_choke.as_ref(), &supply.id, &model.head.name);
            }
            StageSource::Regenerator(index) => {
                if let Some(input) = self.layout.box_input[index] {
                    let input = self.node(input);
                    self.joint(input, node, None);
                }
            }
        }
    }

    fn feed(&mut self, node: usize, choke: Option<&Sourced<Inductance>>, element: &ElementId, model: &str) {
        match choke {
            None => self.lacks(node, MissingKind::Choke, element, Missing::key(model, "feed_choke")),
            Some(choke) => {
                let inductance_h = choke.value.as_henries();
                let shunt =
                    Shunt::FeedChoke { inductance_h: inductance_h.max(WIRE_H), winding_resistance_ohm: 0.0 };
                self.network.fixed.push((node, shunt));
                self.network.feeds.push(Feed { node, inductance_h, element: element.clone() });
            }
        }
    }

    /// The segment that leads to a node.
    fn segment(&mut self, stage: usize, node: usize) {
        let laid = &self.layout.stages[stage];
        let here = self.first[stage] + node;
        let mut from = self.first[stage] + laid.parent[node] as usize;
        match (laid.segment[node], laid.terminal[node]) {
            (Segment::Cable { run, section }, terminal) => {
                let SectionProtectors { before, behind } = self.protectors_of_run[run][section];
                if let Some(before) = before {
                    let between = self.new_node();
                    self.joint(from, between, Some(protector(before.as_ohms())));
                    from = between;
                }
                // One without resistance is a plain joint.
                let behind_ohm = behind.map_or(0.0, Resistance::as_ohms);
                let end = if behind_ohm > 0.0 { self.new_node() } else { here };
                self.cable(from, end, run, section);
                if end != here {
                    self.joint(end, here, Some(protector(behind_ohm)));
                }
                if let StageNode::BoxLink(box_index) = terminal {
                    let hub = self.hub(box_index);
                    self.joint(here, hub, None);
                }
            }
            (_, StageNode::Port { box_index, .. }) => {
                let item = &self.site.boxes[box_index];
                let model = self.site.box_model(item);
                let from = if model.kind.value == BoxKind::Isolating { self.hub(box_index) } else { from };
                let entry = self.loss(here, model, &item.id);
                self.joint(from, here, entry);
                if matches!(model.kind.value, BoxKind::Isolating | BoxKind::Regenerated) {
                    self.feed(here, model.feed_choke.as_ref(), &item.id, &model.head.name);
                }
            }
            // Only ports and cables lead away from a source.
            _ => self.joint(from, here, None),
        }
    }

    /// A section; without line constants the two ends are joined, and what hangs there is not judged.
    fn cable(&mut self, from: usize, to: usize, run: usize, section: usize) {
        let wired = &self.site.runs[run];
        match self.line_of_run[run] {
            Some(line) => {
                let length_m = wired.sections[section].length.value.as_metres() * self.length_factor;
                self.network.edges.push(SignalEdge { ends: (from, to), line, length_m, entry: None });
            }
            None => {
                if section == 0 {
                    let missing = Missing::key(&self.site.cable(wired).head.name, "line");
                    self.lacks(from, MissingKind::Line, &wired.id, missing);
                }
                self.joint(from, to, None);
            }
        }
    }

    /// Loss from a box's input or link to a port. A branch box that states none is a plain joint.
    fn loss(&mut self, node: usize, model: &BoxModel, element: &ElementId) -> Option<Entry> {
        let Some(loss) = &model.signal_loss else {
            let is_joint = model.role.value == BoxRole::BranchBox && model.kind.value == BoxKind::Transparent;
            if !is_joint {
                self.lacks(node, MissingKind::Part, element, Missing::key(&model.head.name, "signal_loss"));
            }
            return None;
        };
        let loss_db = loss.value.as_decibels();
        // The one row holds at every frequency.
        let table = vec![LossPoint { frequency_hz: 1e3, loss_db }];
        (loss_db > 0.0)
            .then_some(Entry::Loss { reference_ohm: model.signal_reference.value.as_ohms(), table })
    }

    fn stations(&mut self) {
        for (index, at) in self.layout.station.iter().enumerate() {
            let Some(at) = *at else { continue };
            let node = self.node(at);
            self.network.station[index] = Some(node);
            let station = &self.site.stations[index];
            let model = self.site.station_model(station);
            let name = &model.head.name;
            let mut lacking = |key: &'static str, is_there: bool| {
                if !is_there {
                    let missing = Missing::key(name, key);
                    self.missing.push((node, MissingKind::Part, station.id.clone(), missing));
                }
            };
            lacking("bridging_resistance", model.bridging_resistance.is_some());
            lacking("bridging_capacitance", model.bridging_capacitance.is_some());
            lacking("signal_impedance", model.signal_impedance.is_some());
            self.network.bridging[index] =
                model.bridging_resistance.as_ref().zip(model.bridging_capacitance.as_ref()).map(
                    |(resistance, capacitance)| Shunt::Load {
                        resistance_ohm: resistance.value.as_ohms(),
                        series_capacitance_f: None,
                        parallel_capacitance_f: capacitance.value.as_farads(),
                    },
                );
        }
    }

    fn terminators(&mut self) {
        let family = self.site.family();
        for (index, run) in self.site.runs.iter().enumerate() {
            let is_set = run.terminator.as_ref().is_some_and(|terminator| terminator.value);
            let Some(end) = self.layout.run_end[index].filter(|_| is_set) else { continue };
            let node = self.node(end);
            let Some(resistance) = &family.terminator_resistance else {
                let missing = Missing::key(&family.head.name, "terminator_resistance");
                self.lacks(node, MissingKind::Part, &run.id, missing);
                continue;
            };
            let series_capacitance_f = if run.terminator_capacitor.value {
                let Some(capacitance) = &family.terminator_capacitance else {
                    let missing = Missing::key(&family.head.name, "terminator_capacitance");
                    self.lacks(node, MissingKind::Part, &run.id, missing);
                    continue;
                };
                Some(capacitance.value.as_farads())
            } else {
                None
            };
            let shunt = Shunt::Load {
                resistance_ohm: resistance.value.as_ohms(),
                series_capacitance_f,
                parallel_capacitance_f: 0.0,
            };
            self.network.fixed.push((node, shunt));
        }
    }

    /// Numbers the separate networks and finds what closes a loop.
    fn components(&mut self) {
        let network = &mut self.network;
        let root = &mut network.component;
        let mut closing = Vec::new();
        for edge in &network.edges {
            let (a, b) = (find(root, edge.ends.0), find(root, edge.ends.1));
            if a == b {
                closing.push(edge.ends.0);
            }
            root[a.max(b)] = a.min(b);
        }
        for node in 0..root.len() {
            root[node] = find(root, node);
        }
        for node in closing {
            let hub_box = self.hub.iter().position(|hub| *hub == Some(node));
            let element =
                hub_box.map_or_else(|| ElementId::from(""), |index| self.site.boxes[index].id.clone());
            let missing = Missing::OpenSignalLink;
            self.missing.push((node, MissingKind::Loop, element, missing));
        }
        let component = &network.component;
        network.missing = std::mem::take(&mut self.missing)
            .into_iter()
            .map(|(node, kind, element, missing)| MissingValue {
                kind,
                element,
                missing,
                component: component[node],
            })
            .collect();
    }
}

fn protector(series_resistance_ohm: f64) -> Entry {
    Entry::SurgeProtector { series_resistance_ohm, shunt_capacitance_f: 0.0 }
}

fn find(root: &mut [usize], mut node: usize) -> usize {
    while root[node] != node {
        root[node] = root[root[node]];
        node = root[node];
    }
    node
}
