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
    /// Whether that was on the site read from the changed text.
    pub is_by_text: bool,
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

/// A site after a change, not yet assessed.
pub(super) struct Sketch {
    pub site: Site,
    /// Whether it was read from the changed text.
    pub is_by_text: bool,
    /// Whether it takes no time to make it again.
    pub is_quick: bool,
}
