//! Which things hang together.

use latchline_site::catalogue::BoxKind;
use latchline_site::model::{RunStart, RunStop, Site};

/// The bus that each thing hangs on, as a number. Two things on one bus have the same number.
#[derive(Debug, Clone, PartialEq)]
pub struct Buses {
    /// Of each supply.
    pub supply: Vec<usize>,
    /// Of the input of each box.
    pub box_input: Vec<usize>,
    /// Of the ports (and link) of each box.
    pub box_ports: Vec<usize>,
    /// Of each station.
    pub station: Vec<usize>,
}

impl Buses {
    /// Everything that any cable or box joins, for power or for signals.
    pub fn wired(site: &Site) -> Self {
        Self::joined(site, true)
    }

    /// What a call can pass along: no signal passes between the input of an isolating box and its
    /// ports, only between its link and its ports.
    pub fn signal(site: &Site) -> Self {
        Self::joined(site, false)
    }

    fn joined(site: &Site, through_isolating_boxes: bool) -> Self {
        let supplies = site.supplies.len();
        let boxes = site.boxes.len();
        let input = |index: usize| supplies + index;
        let ports = |index: usize| supplies + boxes + index;
        let station = |index: usize| supplies + 2 * boxes + index;
        let mut root: Vec<usize> = (0..station(site.stations.len())).collect();
        for (index, item) in site.boxes.iter().enumerate() {
            if through_isolating_boxes || site.box_model(item).kind.value != BoxKind::Isolating {
                join(&mut root, input(index), ports(index));
            }
        }
        for run in &site.runs {
            let start = match run.from {
                RunStart::Supply(supply) => supply,
                RunStart::Port { box_index, .. } => ports(box_index),
                RunStart::Station(index) => station(index),
            };
            for section in &run.sections {
                let stop = match section.to {
                    RunStop::Station(index) => station(index),
                    RunStop::BoxInput(index) => input(index),
                    RunStop::BoxLink(index) => ports(index),
                };
                join(&mut root, start, stop);
            }
        }
        let all: Vec<usize> = (0..root.len()).map(|node| find(&mut root, node)).collect();
        Buses {
            supply: all[..supplies].to_vec(),
            box_input: all[input(0)..ports(0)].to_vec(),
            box_ports: all[ports(0)..station(0)].to_vec(),
            station: all[station(0)..].to_vec(),
        }
    }
}

/// The representative of a node's set; halves the path on the way.
fn find(root: &mut [usize], mut node: usize) -> usize {
    while root[node] != node {
        root[node] = root[root[node]];
        node = root[node];
    }
    node
}

/// The lower number represents a joined set, so that numbers follow the order of the site.
fn join(root: &mut [usize], a: usize, b: usize) {
    let (a, b) = (find(root, a), find(root, b));
    root[a.max(b)] = a.min(b);
}
