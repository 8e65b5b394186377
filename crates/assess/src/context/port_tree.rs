//! The wiring behind each port, as limits on counts and lengths see it.
//!
//! A *port* is where a family's limits begin to count: an output of a supply, or a port of a
//! distributor. Behind it lies a tree: sections of runs, stations and branch boxes. It ends at the
//! inputs of distributors, whose own ports begin trees of their own; a run that is looped through
//! a distributor's input goes on in the same tree.

use latchline_finding::ElementId;
use latchline_site::catalogue::{BoxKind, BoxModel, BoxRole};
use latchline_site::model::{RunStart, RunStop, Site};

/// What hangs on one port. Nodes are in depth-first order, so the subtree of a node is a range.
#[derive(Debug, Clone, PartialEq)]
pub struct PortTree {
    /// The supply or port.
    pub start: RunStart,
    /// The run that starts there.
    pub run: usize,
    /// The stops of its sections and of everything beyond.
    pub nodes: Vec<PortNode>,
}

/// One stop.
#[derive(Debug, Clone, PartialEq)]
pub struct PortNode {
    /// The stop before it; `None` next to the port.
    pub parent: Option<usize>,
    /// What it is.
    pub stop: RunStop,
    /// The run whose section leads to it.
    pub run: usize,
    /// That section.
    pub section: usize,
    /// Cable length from the port in metres.
    pub distance_m: f64,
    /// Sections that go on from here.
    pub ways_on: usize,
    /// One past the last node of its subtree.
    pub subtree_end: usize,
}

/// Whether counts and lengths begin anew at the ports of a box: it is a distributor, or it feeds
/// its ports itself.
pub fn starts_ports(model: &BoxModel) -> bool {
    model.role.value == BoxRole::Distributor
        || matches!(model.kind.value, BoxKind::Regenerated | BoxKind::Isolating)
}

impl PortTree {
    /// The trees of all ports in use, in the order of their runs.
    ///
    /// `from_station` and `from_box` are the runs by where they start.
    pub fn all(site: &Site, from_station: &[Vec<usize>], from_box: &[Vec<(u32, usize)>]) -> Vec<Self> {
        let mut taken = vec![false; site.runs.len()];
        let mut trees = Vec::new();
        for (run, start) in site.runs.iter().enumerate().map(|(index, run)| (index, run.from)) {
            let is_port = match start {
                RunStart::Supply(_) => true,
                RunStart::Port { box_index, .. } => starts_ports(site.box_model(&site.boxes[box_index])),
                RunStart::Station(_) => false,
            };
            if is_port {
                let nodes = walk(site, from_station, from_box, run, &mut taken);
                trees.push(PortTree { start, run, nodes });
            }
        }
        trees
    }

    /// Stations of the tree, or of the subtree of one node, in order.
    pub fn stations(&self, range: std::ops::Range<usize>) -> impl Iterator<Item = usize> {
        self.nodes[range].iter().filter_map(|node| match node.stop {
            RunStop::Station(station) => Some(station),
            _ => None,
        })
    }

    /// Total length of cable in metres.
    pub fn length_m(&self, site: &Site) -> f64 {
        self.nodes
            .iter()
            .map(|node| site.runs[node.run].sections[node.section].length.value.as_metres())
            .sum()
    }

    /// Whether nothing branches off between the port and the end.
    pub fn is_chain(&self) -> bool {
        self.nodes.iter().all(|node| node.ways_on <= 1)
    }

    /// The last node of every way: nothing goes on from there.
    pub fn ends(&self) -> impl Iterator<Item = &PortNode> {
        self.nodes.iter().filter(|node| node.ways_on == 0)
    }

    /// The nodes directly beyond a node.
    pub fn beyond(&self, node: usize) -> impl Iterator<Item = &PortNode> {
        let range = node + 1..self.nodes[node].subtree_end;
        self.nodes[range].iter().filter(move |next| next.parent == Some(node))
    }

    /// Name of the port.
    pub fn id(&self, site: &Site) -> ElementId {
        site.start_id(self.start)
    }
}

/// A section that is still to be walked, and the node that it comes from.
struct Pending {
    from: Option<usize>,
    run: usize,
    section: usize,
}

/// Depth first from the start of a run; `taken` keeps a run from being walked twice.
fn walk(
    site: &Site,
    from_station: &[Vec<usize>],
    from_box: &[Vec<(u32, usize)>],
    run: usize,
    taken: &mut [bool],
) -> Vec<PortNode> {
    let mut nodes: Vec<PortNode> = Vec::new();
    let mut pending = vec![Pending { from: None, run, section: 0 }];
    while let Some(Pending { from, run, section }) = pending.pop() {
        let sections = &site.runs[run].sections;
        if section == 0 && std::mem::replace(&mut taken[run], true) {
            continue;
        }
        let Some(way) = sections.get(section) else { continue };
        let before_m = from.map_or(0.0, |node| nodes[node].distance_m);
        if let Some(from) = from {
            nodes[from].ways_on += 1;
        }
        let index = nodes.len();
        nodes.push(PortNode {
            parent: from,
            stop: way.to,
            run,
            section,
            distance_m: before_m + way.length.value.as_metres(),
            ways_on: 0,
            subtree_end: index + 1,
        });
        let from = Some(index);
        match way.to {
            RunStop::Station(station) => {
                let runs = from_station[station].iter().rev();
                pending.extend(runs.map(|run| Pending { from, run: *run, section: 0 }));
            }
            RunStop::BoxInput(box_index) if !starts_ports(site.box_model(&site.boxes[box_index])) => {
                let runs = from_box[box_index].iter().rev();
                pending.extend(runs.map(|(_, run)| Pending { from, run: *run, section: 0 }));
            }
            RunStop::BoxInput(_) | RunStop::BoxLink(_) => {}
        }
        // The rest of this run comes first, so that a chain lies together.
        if section + 1 < sections.len() {
            pending.push(Pending { from, run, section: section + 1 });
        }
    }
    for index in (0..nodes.len()).rev() {
        if let Some(parent) = nodes[index].parent {
            nodes[parent].subtree_end = nodes[parent].subtree_end.max(nodes[index].subtree_end);
        }
    }
    nodes
}
