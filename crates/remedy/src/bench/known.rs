//! What is known of a change, and what is wanted of it.

use super::price::Price;
use crate::outcome::{Key, Outcome, key};
use latchline_finding::Finding;
use latchline_site::model::Site;
use std::collections::BTreeSet;
use std::sync::Arc;

/// What is known of a change.
#[derive(Default)]
pub(super) struct Known {
    /// Extra material and labour; `None` where the change cannot be made.
    pub price: Option<Price>,
    /// Whether it brings a finding that it may not bring.
    pub spoils: bool,
    /// Findings that it leaves.
    pub leaves: BTreeSet<Key>,
    /// Those of them that it was seen to leave in a lesser form.
    pub lessens: BTreeSet<Key>,
    /// What came of it, if it was assessed to the end.
    pub outcome: Option<Arc<Outcome>>,
    /// On what that was.
    pub made: Made,
}

/// What a look at a change shows.
#[derive(Default)]
pub(super) struct Shown {
    pub spoils: bool,
    pub leaves: BTreeSet<Key>,
    pub lessens: BTreeSet<Key>,
    pub outcome: Option<Arc<Outcome>>,
}

/// What a change is wanted to do to a finding.
#[derive(Clone, Copy)]
pub(super) struct Wanted<'f> {
    pub finding: &'f Finding,
    /// Whether a lesser form of it may stay.
    pub may_lessen: bool,
}

impl Wanted<'_> {
    pub fn key(&self) -> Key {
        key(self.finding)
    }
}

/// How a change was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Made {
    /// On the site itself, which takes no time.
    InPlace,
    /// On the tree that was read.
    OnTree,
    /// On the text, which was then read.
    #[default]
    Written,
}

/// A site after a change, not yet assessed.
pub(super) struct Sketch {
    pub site: Site,
    pub made: Made,
}
