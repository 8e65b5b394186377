//! Whether so many more stations of one model work on a site, and where.

use crate::headroom::{End, counted, ends, extended, feeding_supply, in_turn};
use crate::judge::Judge;
use latchline_assess::{Assessment, Depth, Memory, Verdict};
use latchline_finding::ElementId;
use latchline_network::Layout;
use latchline_site::model::Site;
use std::collections::BTreeSet;

/// So many more stations, added to a copy of the site and judged by every rule.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MoreHere {
    /// Their model.
    pub model: String,
    /// How many were asked for.
    pub wanted: usize,
    /// Where they were added: runs and free ports, each with how many; fewer than wanted where no more work.
    pub added: Vec<(ElementId, usize)>,
    /// The supplies that feed those places.
    pub supplies: Vec<ElementId>,
    /// The error that one more would bring, where fewer work than wanted.
    pub limit: Option<&'static str>,
    /// Warnings that are not there today.
    pub warnings: Vec<&'static str>,
}

impl MoreHere {
    /// How many work.
    pub fn count(&self) -> usize {
        self.added.iter().map(|(_, count)| count).sum()
    }

    /// Whether as many as were asked for bring no error that is not there today.
    pub fn works(&self) -> bool {
        self.count() >= self.wanted
    }
}

/// Adds so many dwellings with a station of this model: all at one end, where one bears them, else one after the other, each at the next end
/// that bears it. What comes out was judged with all of them in. To a site that fails as it is nothing is added.
/// What is kept in the memory is not worked out again.
pub fn more_here(
    site: &Site,
    assessment: &Assessment,
    memory: &Memory,
    model: &str,
    wanted: usize,
) -> MoreHere {
    if assessment.verdict == Verdict::Fails {
        return MoreHere { model: model.to_string(), wanted, ..MoreHere::default() };
    }
    let judge = Judge::new(assessment, memory.clone());
    let ends = ends(site);
    let with = |order: &[End]| extended(site, order.iter(), model);
    let alone =
        ends.iter().map(|end| vec![*end; wanted]).find(|order| judge.holds(&with(order), Depth::Everything));
    let order = alone.unwrap_or_else(|| in_turn(site, &judge, &ends, model, wanted, Depth::Everything));
    let layout = Layout::new(site);
    let feeding: BTreeSet<usize> =
        order.iter().filter_map(|end| feeding_supply(&layout, end.like_run())).collect();
    let limit = match (order.len() < wanted, ends.first()) {
        (true, Some(first)) => judge.first_new(&with(&[order.as_slice(), &[*first]].concat())),
        _ => None,
    };
    MoreHere {
        model: model.to_string(),
        wanted,
        added: counted(site, order.iter()),
        supplies: feeding.into_iter().map(|supply| site.supplies[supply].id.clone()).collect(),
        limit,
        warnings: judge.new_warnings(&with(&order)),
    }
}
