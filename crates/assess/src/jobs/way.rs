//! On which runs power comes to a thing.

use latchline_finding::ElementId;
use latchline_site::model::{RunStart, RunStop, Site};
use std::collections::BTreeMap;

/// The runs of a site by what they lead to.
pub(super) struct Ways<'a> {
    site: &'a Site,
    /// The run that leads to a stop.
    to: BTreeMap<RunStop, usize>,
    /// The runs on the way to each run, the first from the supply, itself last.
    ways: Vec<Vec<usize>>,
}

impl<'a> Ways<'a> {
    pub fn new(site: &'a Site) -> Self {
        let mut to = BTreeMap::new();
        for (index, run) in site.runs.iter().enumerate() {
            for section in &run.sections {
                to.entry(section.to).or_insert(index);
            }
        }
        let mut ways = Ways { site, to, ways: Vec::new() };
        ways.ways = (0..site.runs.len()).map(|run| ways.walked(run)).collect();
        ways
    }

    fn before(&self, run: usize) -> Option<usize> {
        match self.site.runs[run].from {
            RunStart::Supply(_) => None,
            RunStart::Port { box_index, .. } => self.to.get(&RunStop::BoxInput(box_index)).copied(),
            RunStart::Station(station) => self.to.get(&RunStop::Station(station)).copied(),
        }
    }

    fn walked(&self, run: usize) -> Vec<usize> {
        let mut way = vec![run];
        while let Some(before) = way.last().and_then(|last| self.before(*last))
            && !way.contains(&before)
        {
            way.push(before);
        }
        way.reverse();
        way
    }

    /// Runs on the way to a run, itself last.
    pub fn to_run(&self, run: usize) -> &[usize] {
        &self.ways[run]
    }

    /// The run with this name.
    pub fn run(&self, id: &ElementId) -> Option<usize> {
        self.site.runs.iter().position(|run| run.id == *id)
    }

    /// Whether something hangs on a run that is no stop of its own.
    pub fn feeds_others(&self, run: usize) -> bool {
        self.ways.iter().any(|way| way.len() > 1 && way[..way.len() - 1].contains(&run))
    }

    /// Names of runs.
    pub fn names(&self, runs: &[usize]) -> Vec<ElementId> {
        runs.iter().map(|run| self.site.runs[*run].id.clone()).collect()
    }
}
