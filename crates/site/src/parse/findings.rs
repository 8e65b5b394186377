//! A list of findings that cannot grow without bound.

use crate::codes;
use latchline_finding::{Argument, FileId, Finding, Origin, Severity, Span};
use std::ops::Range;

/// Most findings that one pass keeps; what lies beyond is counted only.
pub const LARGEST_FINDING_COUNT: usize = 2000;

/// Most mistakes of TOML whose consequences are held back.
const MOST_BROKEN: usize = 50;
/// Signs of a broken line that are searched for keys.
const LONGEST_BROKEN: usize = 400;

/// Findings of one pass, in the order they were made.
#[derive(Debug, Clone, Default)]
pub struct Findings {
    list: Vec<Finding>,
    beyond: usize,
    errors: bool,
    last_origin: Origin,
    broken: Vec<Broken>,
}

/// Text that could not be read because of a mistake in its TOML. What is found missing or out of
/// place there follows from that mistake and would only bury it.
#[derive(Debug, Clone)]
struct Broken {
    file: FileId,
    range: Range<usize>,
    text: String,
}

impl Broken {
    /// Whether a finding follows from the mistake.
    fn explains(&self, finding: &Finding) -> bool {
        let inside = matches!(&finding.origin, Origin::Text(span)
            if span.file == self.file && self.range.contains(&span.range().start));
        let code = finding.code;
        if code == codes::MISSING_KEY {
            let named = finding.arguments.iter().any(|(name, value)| {
                *name == "key" && matches!(value, Argument::Text(key) if self.text.contains(key.as_str()))
            });
            return inside || named;
        }
        inside && (code == codes::UNKNOWN_KEY || code == codes::WRONG_TYPE)
    }
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

    /// Notes that the TOML is broken at `span`: to the end of its line, or in a header to the next.
    pub fn break_off(&mut self, span: Span, text: &str) {
        if self.broken.len() >= MOST_BROKEN {
            return;
        }
        let at = span.range().start.min(text.len());
        let start = text.get(..at).and_then(|before| before.rfind('\n')).map_or(0, |end| end + 1);
        let line_end = |from: usize| text[from..].find('\n').map_or(text.len(), |length| from + length + 1);
        let mut end = line_end(start);
        if text[start..].trim_start().starts_with('[') {
            while end < text.len() && !text[end..].trim_start().starts_with('[') {
                end = line_end(end);
            }
        }
        let text = text[start..end].chars().take(LONGEST_BROKEN).collect();
        self.broken.push(Broken { file: span.file, range: start..end, text });
    }

    /// Whether further findings are only counted: then their arguments need not be worked out.
    pub fn is_full(&self) -> bool {
        self.list.len() >= LARGEST_FINDING_COUNT
    }

    /// How many there are, those beyond the bound among them.
    pub fn count(&self) -> usize {
        self.list.len() + self.beyond
    }

    /// Adds those of another pass.
    pub fn append(&mut self, other: &Findings) {
        for finding in &other.list {
            self.push(finding.clone());
        }
        self.beyond += other.beyond;
        self.errors |= other.errors;
        self.broken.extend(other.broken.iter().cloned());
    }

    /// Whether any of them stands in the way of a site.
    pub fn has_errors(&self) -> bool {
        self.errors
    }

    /// The list, broken TOML first, then ordered by file and place, with a last entry that counts what was left out.
    pub fn finish(mut self) -> Vec<Finding> {
        self.list.retain(|finding| !self.broken.iter().any(|broken| broken.explains(finding)));
        // Stable: findings at one place keep the order in which they were made.
        let syntax = codes::TOML_SYNTAX;
        self.list.sort_by(|a, b| (a.code != syntax, &a.origin).cmp(&(b.code != syntax, &b.origin)));
        if self.beyond > 0 {
            self.list.push(
                Finding::new(codes::TOO_MANY_FINDINGS, Severity::Error, self.last_origin)
                    .with("count", self.beyond),
            );
        }
        self.list
    }
}
