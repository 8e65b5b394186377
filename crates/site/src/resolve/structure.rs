//! Whether the wiring is a set of trees that reach everything.
//!
//! Every station, box input and signal link is a node; every section of a run leads from a node
//! (or a supply) to the node that it reaches. A sound site reaches every node exactly once, and
//! every way back ends at a supply. Two such graphs are looked at: in the one for power the ports
//! of an isolating box hang on its input, in the one for signals on its link.

use super::left_out::{Headless, LeftOut};
use super::resolver::Resolver;
use crate::catalogue::BoxKind;
use crate::codes;
use crate::model::{RunStart, RunStop, Site, StationOwner};
use crate::parse::clip;
use latchline_finding::{ElementId, Finding, Origin, Severity};
use latchline_words::reading::Thing;
use std::collections::{BTreeMap, BTreeSet};

/// Most members of a loop that are named.
const MOST_MEMBERS_NAMED: usize = 24;
/// Most steps spent on telling a ring from a dual feed.
const MOST_STEPS: usize = 4_000_000;

/// What a section comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Above {
    Supply,
    /// A port of this box.
    Port(usize),
    Node(usize),
}

/// How a node is reached.
#[derive(Debug, Clone, Copy)]
struct Reach {
    above: Above,
    run: usize,
    section: usize,
}

struct Graph<'s> {
    site: &'s Site,
    reached: Vec<Option<Reach>>,
    isolating: Vec<bool>,
}

impl Graph<'_> {
    fn input(&self, index: usize) -> usize {
        self.site.stations.len() + index
    }

    fn link(&self, index: usize) -> usize {
        self.site.stations.len() + self.site.boxes.len() + index
    }

    fn node(&self, stop: RunStop) -> usize {
        match stop {
            RunStop::Station(station) => station,
            RunStop::BoxInput(index) => self.input(index),
            RunStop::BoxLink(index) => self.link(index),
        }
    }

    fn id(&self, node: usize) -> &ElementId {
        let (stations, boxes) = (self.site.stations.len(), self.site.boxes.len());
        if node < stations {
            &self.site.stations[node].id
        } else {
            &self.site.boxes[(node - stations) % boxes.max(1)].id
        }
    }

    /// The node above, for power or for signals; `None` at a supply or where nothing reaches.
    fn above(&self, node: usize, signals: bool) -> Option<usize> {
        match self.reached[node]?.above {
            Above::Supply => None,
            Above::Node(above) => Some(above),
            Above::Port(index) if signals && self.isolating[index] => Some(self.link(index)),
            Above::Port(index) => Some(self.input(index)),
        }
    }

    /// Loops in the ways back, each as its nodes from feeding to fed.
    fn loops(&self, signals: bool) -> Vec<Vec<usize>> {
        let mut seen_by = vec![usize::MAX; self.reached.len()];
        let mut loops = Vec::new();
        for start in 0..self.reached.len() {
            let mut node = start;
            let mut path = Vec::new();
            loop {
                if seen_by[node] != usize::MAX {
                    if seen_by[node] == start {
                        let first = path.iter().position(|member| *member == node).unwrap_or(0);
                        let mut members: Vec<usize> = path.split_off(first);
                        members.reverse();
                        loops.push(members);
                    }
                    break;
                }
                seen_by[node] = start;
                path.push(node);
                match self.above(node, signals) {
                    Some(above) => node = above,
                    None => break,
                }
            }
        }
        loops
    }
}

impl Resolver<'_> {
    /// Checks the structure of the wiring. What hangs on a part of it that was refused is not told as not wired.
    pub(super) fn structure(&mut self, site: &Site, left_out: LeftOut) {
        let isolating = site.boxes.iter().map(|item| {
            let model = self.loader.catalogue.boxes.get(&item.model.value);
            model.is_some_and(|model| model.kind.value == BoxKind::Isolating)
        });
        let isolating: Vec<bool> = isolating.collect();
        let nodes = site.stations.len() + 2 * site.boxes.len();
        let mut graph = Graph { site, reached: vec![None; nodes], isolating };
        self.ports_used(site);
        self.reach(&mut graph);
        self.loops(&graph);
        let reached_without_start = self.headless(&graph, &left_out.headless);
        self.unwired(&graph, &left_out, &reached_without_start);
    }

    fn ports_used(&mut self, site: &Site) {
        let mut used: BTreeMap<(usize, u32), usize> = BTreeMap::new();
        for (index, run) in site.runs.iter().enumerate() {
            let RunStart::Port { box_index, port } = run.from else { continue };
            let Some(first) = used.insert((box_index, port), index) else { continue };
            used.insert((box_index, port), first);
            let other = &site.runs[first];
            let finding = self
                .report(codes::PORT_USED_TWICE, run.from_origin.clone())
                .about(run.id.clone())
                .with("port", site.start_id(run.from))
                .with("run", &run.id)
                .with("other_run", &other.id)
                .also_at("first-used-here", other.from_origin.clone());
            self.findings.push(finding);
        }
    }

    fn reach(&mut self, graph: &mut Graph<'_>) {
        let site = graph.site;
        let mut steps = 0;
        for (run_index, run) in site.runs.iter().enumerate() {
            let mut above = match run.from {
                RunStart::Supply(_) => Above::Supply,
                RunStart::Port { box_index, .. } => Above::Port(box_index),
                RunStart::Station(station) => Above::Node(station),
            };
            for (section_index, section) in run.sections.iter().enumerate() {
                let node = graph.node(section.to);
                match graph.reached[node] {
                    None => {
                        graph.reached[node] = Some(Reach { above, run: run_index, section: section_index })
                    }
                    Some(first) => {
                        self.second_feed(graph, node, above, first, run_index, section_index, &mut steps)
                    }
                }
                above = Above::Node(node);
            }
        }
    }

    /// A node is reached again: a ring if the way back from there leads through it, else a dual
    /// feed.
    #[expect(clippy::too_many_arguments, reason = "two places and what was spent so far")]
    fn second_feed(
        &mut self,
        graph: &Graph<'_>,
        node: usize,
        above: Above,
        first: Reach,
        run_index: usize,
        section_index: usize,
        steps: &mut usize,
    ) {
        let site = graph.site;
        let run = &site.runs[run_index];
        let origin = run.sections[section_index].to_origin.clone();
        let first_run = &site.runs[first.run];
        let first_origin = first_run.sections[first.section].to_origin.clone();
        let mut at = match above {
            Above::Supply => None,
            Above::Port(index) => Some(graph.input(index)),
            Above::Node(above) => Some(above),
        };
        // The same name twice in one list is a slip of the pen.
        if first.run == run_index {
            let finding = self
                .report(codes::FED_TWICE, origin)
                .about(graph.id(node).clone())
                .with("name", graph.id(node))
                .with("run", &run.id)
                .with("twice_in", &run.id)
                .also_at("first-reached-here", first_origin);
            self.findings.push(finding);
            return;
        }
        let mut members = Vec::new();
        // The ways back may themselves run in a circle: then the steps end it.
        let most = graph.reached.len();
        while let Some(member) = at.filter(|_| members.len() <= most && *steps < MOST_STEPS) {
            *steps += 1;
            members.push(member);
            if member == node {
                members.reverse();
                let finding = loop_finding(graph, &members, origin).about(run.id.clone());
                self.findings.push(finding.also_at("first-reached-here", first_origin));
                return;
            }
            at = graph.above(member, false);
        }
        let finding = self
            .report(codes::FED_TWICE, origin)
            .about(graph.id(node).clone())
            .with("name", graph.id(node))
            .with("run", &run.id)
            .with("other_run", &first_run.id)
            .also_at("first-reached-here", first_origin);
        self.findings.push(finding);
    }

    fn loops(&mut self, graph: &Graph<'_>) {
        let mut told = BTreeSet::new();
        for members in graph.loops(false).into_iter().chain(graph.loops(true)) {
            let mut set = members.clone();
            set.sort_unstable();
            if told.insert(set) {
                let origin = members.first().map_or(Origin::None, |node| reached_at(graph, *node));
                self.findings.push(loop_finding(graph, &members, origin));
            }
        }
    }

    /// What runs without a start reach: twice where another run reaches it as well. Given back are the nodes.
    fn headless(&mut self, graph: &Graph<'_>, runs: &[Headless]) -> BTreeSet<usize> {
        let mut reached = BTreeSet::new();
        for Headless { run, stops } in runs {
            for (stop, origin) in stops {
                let node = graph.node(*stop);
                reached.insert(node);
                let Some(first) = graph.reached[node] else { continue };
                let other = &graph.site.runs[first.run];
                let finding = self
                    .report(codes::FED_TWICE, origin.clone())
                    .about(graph.id(node).clone())
                    .with("name", graph.id(node))
                    .with("run", run)
                    .with("other_run", &other.id)
                    .also_at("first-reached-here", other.sections[first.section].to_origin.clone());
                self.findings.push(finding);
            }
        }
        reached
    }

    /// What no run reaches, but for what a wrong name at the end of a run may stand for.
    fn unwired(&mut self, graph: &Graph<'_>, left_out: &LeftOut, reached_without_start: &BTreeSet<usize>) {
        let site = graph.site;
        if left_out.is_open {
            return;
        }
        let is_unreached =
            |node: usize| graph.reached[node].is_none() && !reached_without_start.contains(&node);
        let inputs = (0..site.boxes.len()).map(|index| graph.input(index));
        let unreached: Vec<usize> =
            (0..site.stations.len()).chain(inputs).filter(|node| is_unreached(*node)).collect();
        let mut meant: BTreeSet<String> = BTreeSet::new();
        for wrong in &left_out.unknown {
            let near = self.budget.nearest(wrong, unreached.iter().map(|node| graph.id(*node).as_str()));
            // A name that is like none of them may be that of any.
            if near.is_empty() && !unreached.is_empty() {
                return;
            }
            meant.extend(near);
        }
        let is_told = |node: usize| is_unreached(node) && !meant.contains(graph.id(node).as_str());
        for (index, station) in site.stations.iter().enumerate() {
            if is_told(index) {
                let kind = match station.owner {
                    StationOwner::Dwelling { .. } => Thing::IndoorStation,
                    StationOwner::Entrance(_) => Thing::DoorStation,
                    StationOwner::Management(_) => Thing::ManagementStation,
                };
                self.not_wired(&station.id, kind, station.origin.clone());
            }
        }
        for (index, item) in site.boxes.iter().enumerate() {
            let fed = !is_told(graph.input(index));
            if !fed && graph.isolating[index] {
                let finding = self
                    .report(codes::ISOLATING_BOX_WITHOUT_SUPPLY, item.origin.clone())
                    .about(item.id.clone())
                    .with("name", &item.id);
                self.findings.push(finding);
            } else if !fed {
                self.not_wired(&item.id, Thing::Box, item.origin.clone());
            }
        }
    }

    fn not_wired(&mut self, id: &ElementId, kind: Thing, origin: Origin) {
        let finding = self
            .report(codes::NOT_WIRED, origin)
            .about(id.clone())
            .with("name", id)
            .with("kind", kind.both());
        self.findings.push(finding);
    }
}

fn reached_at(graph: &Graph<'_>, node: usize) -> Origin {
    graph.reached[node]
        .map_or(Origin::None, |reach| graph.site.runs[reach.run].sections[reach.section].to_origin.clone())
}

fn loop_finding(graph: &Graph<'_>, members: &[usize], origin: Origin) -> Finding {
    let named =
        members.iter().take(MOST_MEMBERS_NAMED).map(|node| ElementId::from(clip(graph.id(*node).as_str())));
    Finding::new(codes::WIRING_LOOP, Severity::Error, origin).with("members", named.collect::<Vec<_>>())
}
