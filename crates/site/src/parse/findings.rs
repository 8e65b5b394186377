//! A list of findings that cannot grow without bound.

use super::clip;
use crate::codes;
use crate::ranges;
use latchline_finding::{Argument, Code, Figure, FileId, Finding, Origin, Severity, Span, Unit};
use std::ops::Range;

/// Most findings that one pass keeps; what lies beyond is counted only.
pub const LARGEST_FINDING_COUNT: usize = 2000;

/// Most mistakes of TOML whose consequences are held back.
const MOST_BROKEN: usize = 50;
/// Most names given twice whose consequences are held back.
const MOST_TWICE: usize = 50;
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
    twice: Vec<Twice>,
    lacks_table: bool,
}

/// A name that two things have. What the second should have been called may be used elsewhere, and is defined nowhere.
#[derive(Debug, Clone)]
struct Twice {
    name: String,
    /// Its finding in the list.
    at: usize,
    /// The name that is used and defined nowhere.
    wanted: Option<String>,
}

/// Text that could not be read because of a mistake in its TOML. What is found missing or out of
/// place there follows from that mistake and would only bury it.
#[derive(Debug, Clone)]
struct Broken {
    file: FileId,
    range: Range<usize>,
    text: String,
    /// What it names: the name that lacks its quotes, the name of its row.
    names: Vec<String>,
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
        if code == codes::UNKNOWN_NAME {
            let is_own = |name: &str| {
                let mut rests = self.names.iter().filter_map(|own| name.strip_prefix(own.as_str()));
                rests.any(|rest| rest.is_empty() || rest.starts_with([':', '.']))
            };
            return inside || text_argument(finding, "name").is_some_and(is_own);
        }
        inside
            && [
                codes::UNKNOWN_KEY,
                codes::WRONG_TYPE,
                codes::BAD_NAME,
                codes::LENGTH_MISSING,
                codes::LENGTHS_DO_NOT_FIT,
                codes::NOT_A_QUANTITY,
                codes::UNIT_MISSING,
                codes::UNKNOWN_UNIT,
            ]
            .contains(&code)
    }
}

fn text_argument<'f>(finding: &'f Finding, name: &str) -> Option<&'f str> {
    match finding.argument(name)? {
        Argument::Text(text) => Some(text),
        Argument::Element(element) => Some(element.as_str()),
        _ => None,
    }
}

/// Whether a name with letters enough is another one with a slip of the finger: A-2 beside A-1 is none, since its number is another.
fn is_slip_of(name: &str, other: &str) -> bool {
    let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
    name.chars().filter(|sign| sign.is_alphabetic()).count() >= 3 && digits(name) == digits(other)
}

impl Findings {
    /// Whether a table of the file is under a head that is not known.
    pub fn lacks_table(&self) -> bool {
        self.lacks_table
    }

    /// An empty list.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds one, or counts it if the list is full.
    pub fn push(&mut self, finding: Finding) {
        self.errors |= finding.severity == Severity::Error;
        if self.list.len() < LARGEST_FINDING_COUNT {
            let named = match finding.code {
                code if code == codes::DUPLICATE_KEY => text_argument(&finding, "key"),
                code if code == codes::DUPLICATE_NAME => text_argument(&finding, "name"),
                _ => None,
            };
            if let Some(name) = named.filter(|_| self.twice.len() < MOST_TWICE) {
                self.twice.push(Twice { name: name.to_string(), at: self.list.len(), wanted: None });
            }
            self.last_origin = finding.origin.clone();
            self.list.push(finding);
        } else {
            self.beyond += 1;
        }
    }

    /// Notes that a table with names of the site is under a head that is not known.
    pub fn lack_table(&mut self) {
        self.lacks_table = true;
    }

    /// Whether it follows from a mistake told already that nothing has a name: a table under a wrong head, or a name given twice, of
    /// which the second may be the one that is meant. `near` are the names on site that are like it, `is_element` says whether something
    /// on site has a name. A slip in one of the names on site follows from nothing.
    pub fn explain_unknown(
        &mut self,
        name: &str,
        near: &[String],
        is_element: impl Fn(&str) -> bool,
    ) -> bool {
        let is_near = |other: &str| near.iter().any(|one| one == other);
        let is_twice = |other: &str| self.twice.iter().any(|twice| twice.name == other);
        if near.iter().any(|other| !is_twice(other) && is_slip_of(name, other)) {
            return false;
        }
        if self.lacks_table {
            return true;
        }
        let own = |twice: &Twice| {
            let rest = name.strip_prefix(twice.name.as_str());
            rest.is_some_and(|rest| rest.starts_with([':', '.'])) || twice.wanted.as_deref() == Some(name)
        };
        if self.twice.iter().any(own) {
            return true;
        }
        let is_free = |twice: &Twice| twice.wanted.is_none() && is_element(&twice.name);
        let near = self.twice.iter().position(|twice| is_free(twice) && is_near(&twice.name));
        let Some(at) = near.or_else(|| self.twice.iter().position(is_free)) else { return false };
        self.twice[at].wanted = Some(name.to_string());
        true
    }

    /// Counts one more name of a range that nothing has, where another one of it was told last; `false` where it was not.
    pub fn one_more_of_the_range(&mut self, origin: &Origin) -> bool {
        let is_it = |finding: &Finding| finding.code == codes::UNKNOWN_NAME && finding.origin == *origin;
        let Some(told) = self.list.last_mut().filter(|finding| is_it(finding)) else { return false };
        match told.arguments.iter_mut().find(|(name, _)| *name == "more") {
            Some((_, Argument::Figure(count))) => count.value += 1.0,
            _ => told.arguments.push(("more", Argument::Figure(Figure::new(1.0, Unit::Count)))),
        }
        true
    }

    /// Takes back a finding of a code about an element that another one says better.
    pub fn take_back(&mut self, code: Code, element: &str, key: &str) -> Option<Finding> {
        let is_it = |finding: &Finding| {
            finding.code == code
                && finding.element.as_ref().is_some_and(|own| own.as_str() == element)
                && text_argument(finding, "key") == Some(key)
        };
        let at = self.list.iter().rposition(is_it)?;
        let taken = self.list.remove(at);
        self.twice.iter_mut().filter(|twice| twice.at > at).for_each(|twice| twice.at -= 1);
        Some(taken)
    }

    /// Notes that the TOML of a row is broken, and what the row names.
    pub fn break_off<'n>(
        &mut self,
        file: FileId,
        range: Range<usize>,
        text: &str,
        names: impl Iterator<Item = &'n str>,
    ) {
        if self.broken.len() >= MOST_BROKEN {
            return;
        }
        let row = text.get(range.clone()).unwrap_or_default();
        let row = row.chars().take(LONGEST_BROKEN).collect();
        self.broken.push(Broken { file, range, text: row, names: names.map(str::to_string).collect() });
    }

    /// Notes a thing whose row is no table, so that it has a name and nothing else.
    pub fn lack_row(&mut self, span: Span, name: &str) {
        if self.broken.len() < MOST_BROKEN {
            // A range of dwellings stands for each of them.
            let names = match ranges::names(name) {
                Some(Ok(all)) => all,
                _ => vec![name.to_string()],
            };
            let (file, range) = (span.file, 0..0);
            self.broken.push(Broken { file, range, text: String::new(), names });
        }
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
        self.lacks_table |= other.lacks_table;
        self.broken.extend(other.broken.iter().cloned());
    }

    /// Whether any of them stands in the way of a site.
    pub fn has_errors(&self) -> bool {
        self.errors
    }

    /// The list, broken TOML first, then ordered by file and place, with a last entry that counts what was left out.
    pub fn finish(mut self) -> Vec<Finding> {
        for Twice { at, wanted, .. } in &self.twice {
            if let Some(wanted) = wanted {
                self.list[*at].arguments.push(("wanted", Argument::Text(clip(wanted))));
            }
        }
        let is_whole = self.broken.is_empty() && self.twice.is_empty() && !self.lacks_table;
        let follows = |finding: &Finding| {
            // What hangs on wiring that was not read only seems not to be wired.
            (!is_whole && finding.code == codes::NOT_WIRED)
                || (finding.code == codes::FED_TWICE
                    && self.twice.iter().any(|twice| text_argument(finding, "name") == Some(&twice.name)))
                || self.broken.iter().any(|broken| broken.explains(finding))
        };
        self.list.retain(|finding| !follows(finding));
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
