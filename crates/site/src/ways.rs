//! On which runs power comes to a thing.

use crate::model::{RunStop, Site};
use latchline_finding::ElementId;
use std::collections::BTreeMap;

/// The runs of a site by what they lead to.
#[derive(Debug)]
pub struct Ways<'a> {
    site: &'a Site,
    /// The run that leads to a stop.
    to: BTreeMap<RunStop, usize>,
    /// The runs on the way to each run, the first from the supply, itself last.
    ways: Vec<Vec<usize>>,
}

impl<'a> Ways<'a> {
    /// Walks the runs of a site.
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
        self.to(self.site.runs[run].from.reached_at()?)
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

    /// The run that leads to a stop.
    pub fn to(&self, stop: RunStop) -> Option<usize> {
        self.to.get(&stop).copied()
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

    /// Stations on a run and on everything beyond, as indices into [`Site::stations`].
    pub fn stations_beyond(&self, run: usize) -> Vec<usize> {
        let beyond = (0..self.site.runs.len()).filter(|other| self.ways[*other].contains(&run));
        let sections = beyond.flat_map(|other| &self.site.runs[other].sections);
        sections
            .filter_map(|section| match section.to {
                RunStop::Station(station) => Some(station),
                RunStop::BoxInput(_) | RunStop::BoxLink(_) => None,
            })
            .collect()
    }

    /// Names of runs.
    pub fn names(&self, runs: &[usize]) -> Vec<ElementId> {
        runs.iter().map(|run| self.site.runs[*run].id.clone()).collect()
    }
}
