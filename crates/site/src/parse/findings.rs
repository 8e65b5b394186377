//! A list of findings that cannot grow without bound.

use crate::codes;
use latchline_finding::{Finding, Origin, Severity};

/// Most findings that one pass keeps; what lies beyond is counted only.
pub const LARGEST_FINDING_COUNT: usize = 2000;

/// Findings of one pass, in the order they were made.
#[derive(Debug, Clone, Default)]
pub struct Findings {
    list: Vec<Finding>,
    beyond: usize,
    errors: bool,
    last_origin: Origin,
}

impl Findings {
    /// An empty list.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds one, or counts it if the list is full.
    pub fn push(&mut self, finding: Finding) {
        self.errors |= finding.severity == Severity::Error;
        if self.list.len() < LARGEST_FINDING_COUNT {
            self.last_origin = finding.origin.clone();
            self.list.push(finding);
        } else {
            self.beyond += 1;
        }
    }

    /// Whether further findings are only counted: then their arguments need not be worked out.
    pub fn is_full(&self) -> bool {
        self.list.len() >= LARGEST_FINDING_COUNT
    }

    /// Whether any of them stands in the way of a site.
    pub fn has_errors(&self) -> bool {
        self.errors
    }

    /// The list, ordered by file and place, with a last entry that counts what was left out.
    pub fn finish(mut self) -> Vec<Finding> {
        // Stable: findings at one place keep the order in which they were made.
        self.list.sort_by(|a, b| a.origin.cmp(&b.origin));
        if self.beyond > 0 {
            self.list.push(
                Finding::new(codes::TOO_MANY_FINDINGS, Severity::Error, self.last_origin)
                    .with("count", self.beyond),
            );
        }
        self.list
    }
}
