//! A site with its assessment and everything that the tables share, worked out once.

use crate::locale::Locale;
use crate::options::Options;
use crate::stamp::Stamp;
use crate::standby::Standby;
use crate::terminals::{Device, Wiring, walking_order};
use latchline_assess::{Assessment, DeviceResult};
use latchline_finding::{Finding, Severity};
use latchline_network::{Layout, NodeRef, StateSpace, Terminal as NetworkTerminal};
use latchline_site::model::Site;
use std::collections::BTreeMap;

/// Everything that tables are made from.
pub struct Subject<'a> {
    /// The site.
    pub site: &'a Site,
    /// Its assessment.
    pub assessment: &'a Assessment,
    /// Standing findings of reading the files and of the rules, worst first.
    pub findings: Vec<&'a Finding>,
    /// What the pack is made for.
    pub options: &'a Options,
    /// Where it is from.
    pub stamp: &'a Stamp,
    /// Words and units.
    pub locale: Locale,
    /// Its electrical trees.
    pub layout: Layout,
    /// Its operating states.
    pub space: StateSpace,
    /// Predicted readings.
    pub standby: Standby,
    /// Cables and terminals.
    pub wiring: Wiring,
    /// Supplies, boxes and stations in walking order.
    pub order: Vec<Device>,
    results: BTreeMap<&'a str, &'a DeviceResult>,
    port_nodes: BTreeMap<(usize, u32), NodeRef>,
}

impl<'a> Subject<'a> {
    /// Works out what the tables share. `reading` are the findings met while reading the files.
    pub fn new(
        site: &'a Site,
        assessment: &'a Assessment,
        reading: &'a [Finding],
        options: &'a Options,
        stamp: &'a Stamp,
    ) -> Subject<'a> {
        let layout = Layout::new(site);
        let space = StateSpace::new(site, &layout);
        let standby = Standby::new(site, &layout, &space);
        let mut findings: Vec<&Finding> =
            reading.iter().chain(&assessment.findings).filter(|finding| finding.accepted.is_none()).collect();
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
        let mut port_nodes = BTreeMap::new();
        for (index, stage) in layout.stages.iter().enumerate() {
            for (node, terminal) in stage.terminal.iter().enumerate() {
                if let NetworkTerminal::Port { box_index, port } = *terminal {
                    port_nodes.insert((box_index, port), NodeRef { stage: index, node });
                }
            }
        }
        Subject {
            site,
            assessment,
            findings,
            options,
            stamp,
            locale: Locale::of(options),
            standby,
            wiring: Wiring::new(site),
            order: walking_order(site),
            results: assessment.devices.iter().map(|device| (device.id.as_str(), device)).collect(),
            port_nodes,
            layout,
            space,
        }
    }

    /// How many standing findings are errors.
    pub fn errors(&self) -> usize {
        self.findings.iter().filter(|finding| finding.severity == Severity::Error).count()
    }

    /// What the assessment says of a station or box.
    pub fn result(&self, id: &str) -> Option<&'a DeviceResult> {
        self.results.get(id).copied()
    }

    /// The node of a device's input.
    pub fn node(&self, device: Device) -> Option<NodeRef> {
        match device {
            Device::Supply(supply) => {
                let is_own = |source| source == latchline_network::StageSource::Supply(supply);
                let stage = self.layout.stages.iter().position(|stage| is_own(stage.source))?;
                Some(NodeRef { stage, node: 0 })
            }
            Device::Box(index) => self.layout.box_input[index],
            Device::Station(index) => self.layout.station[index],
            Device::Lock { .. } | Device::AlarmContact { .. } => None,
        }
    }

    /// The node of a port that feeds a run.
    pub fn port_node(&self, box_index: usize, port: u32) -> Option<NodeRef> {
        self.port_nodes.get(&(box_index, port)).copied()
    }

    /// Runs in the order in which they are put under power: from each supply outward, each run before
    /// what hangs on it. Runs that no supply reaches come last.
    pub fn runs_in_power_order(&self) -> Vec<usize> {
        let mut order = Vec::with_capacity(self.site.runs.len());
        for stage in &self.layout.stages {
            for segment in &stage.segment {
                if let latchline_network::Segment::Cable { run, section: 0 } = *segment {
                    order.push(run);
                }
            }
        }
        let mut missing: Vec<usize> = (0..self.site.runs.len()).filter(|run| !order.contains(run)).collect();
        order.append(&mut missing);
        order
    }

    /// The place of a device in words.
    pub fn place_words(&self, device: Device) -> String {
        self.place_in_words(crate::terminals::device_place(self.site, device))
    }

    /// A place in words.
    pub fn place_in_words(&self, place: &latchline_site::model::Place) -> String {
        if place.building.is_none() {
            let word = if place.outdoors { crate::language::Word::Outdoors } else { return String::new() };
            return self.locale.word(word).to_string();
        }
        self.site.place_words(place)
    }
}
