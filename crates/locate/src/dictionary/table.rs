//! The faults of a site as a table: what every cause makes of every reading, small enough to be carried along.
//!
//! A cause is solved at a few of its sizes, and kept as its differences from the site without a fault, in steps of the deviation of a good meter, as
//! straight pieces along the runs (`pattern`). What readings share by the tolerances is kept as a few columns of their covariance by its pivoted
//! Cholesky factor (Higham, Accuracy and Stability of Numerical Algorithms, chapter 10, number from memory), and what these leave as a variance of each
//! reading's own. Readings are then ranked from the table alone (`rank`), without a network to solve. It knows no symptoms, and of readings those in
//! standby by day and of runs alone.

use super::pattern::Pattern;
use super::solved::{AtSize, Entry, Solved};
use crate::hypothesis::Hypothesis;
use crate::kind::Kind;
use crate::plant::Plant;
use crate::rates::{Age, Rates};
use std::collections::{BTreeMap, BTreeSet};

/// The faults of a site as a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Dictionary {
    pub(super) readings: Vec<Entry>,
    pub(super) elements: Vec<String>,
    /// What causes change, each once.
    pub(super) patterns: Vec<Pattern>,
    pub(super) causes: Vec<Row>,
    pub(super) none_of_these: f32,
    pub(super) wrong_reading: f32,
    pub(super) careless_reading: f32,
    /// The highest voltage of a source, in volts.
    pub(super) source_v: f32,
    /// How many causes were left out so that it is small enough.
    pub(super) left_out: u32,
    /// Their prior probability together.
    pub(super) left_out_prior: f32,
}

/// A cause.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    pub kind: Kind,
    /// Index into the elements.
    pub element: u32,
    /// Prior probability.
    pub prior: f32,
    /// At every size that is kept; empty for one that no reading shows.
    pub points: Vec<Point>,
}

/// A cause at one of its sizes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Point {
    /// The size in its unit; 0 for a cause without.
    pub size: f32,
    /// Nothing is interpolated between points of different regimes.
    pub regime: u8,
    /// Index into the patterns.
    pub pattern: u32,
}

impl Dictionary {
    /// Of a site, with how often each cause is met.
    pub fn new(plant: &Plant<'_>, rates: &Rates, age: Age) -> Self {
        Dictionary::of_solved(plant, rates, &Solved::new(plant, rates, age))
    }

    /// Of a site that was solved with every cause.
    pub(super) fn of_solved(plant: &Plant<'_>, rates: &Rates, solved: &Solved) -> Self {
        let named = |cause: &Hypothesis, is_shown: bool| match is_shown {
            true => cause.cause.element.name(plant.site),
            false => String::new(),
        };
        let causes = || solved.causes.iter().zip(&solved.at_sizes);
        let elements: BTreeSet<String> =
            causes().map(|(cause, at_sizes)| named(cause, !at_sizes.is_empty())).collect();
        let elements: Vec<String> = elements.into_iter().collect();
        let mut numbers: BTreeMap<Pattern, u32> = BTreeMap::new();
        let mut rows: Vec<Row> = Vec::new();
        // What no reading shows is told apart by nothing: of each kind one row stands for all its places.
        let mut unseen: BTreeMap<Kind, usize> = BTreeMap::new();
        for (cause, at_sizes) in causes() {
            let (kind, prior) = (cause.cause.kind, cause.prior as f32);
            if at_sizes.is_empty()
                && let Some(known) = unseen.get(&kind)
            {
                rows[*known].prior += prior;
                continue;
            }
            if at_sizes.is_empty() {
                unseen.insert(kind, rows.len());
            }
            let mut regimes: Vec<u64> = Vec::new();
            let mut point = |at: &AtSize| {
                let regime = regimes.iter().position(|known| *known == at.regime).unwrap_or_else(|| {
                    regimes.push(at.regime);
                    regimes.len() - 1
                });
                let count = numbers.len() as u32;
                let pattern = *numbers.entry(at.pattern.clone()).or_insert(count);
                Point { size: at.size as f32, regime: regime as u8, pattern }
            };
            let points = at_sizes.iter().map(&mut point).collect();
            let element = elements.binary_search(&named(cause, !at_sizes.is_empty())).unwrap_or(0) as u32;
            rows.push(Row { kind, element, prior, points });
        }
        let mut patterns: Vec<(Pattern, u32)> = numbers.into_iter().collect();
        patterns.sort_by_key(|(_, number)| *number);
        let source_v = plant.layout.stages.iter().map(|stage| stage.voltage_v[0]).fold(1.0, f64::max);
        Dictionary {
            readings: solved.entries.clone(),
            elements,
            patterns: patterns.into_iter().map(|(pattern, _)| pattern).collect(),
            causes: rows,
            none_of_these: rates.none_of_these as f32,
            wrong_reading: rates.wrong_reading as f32,
            careless_reading: rates.careless_reading as f32,
            source_v: source_v as f32,
            left_out: 0,
            left_out_prior: 0.0,
        }
    }

    /// The same in this many bytes at most: the least probable causes are left out until it is, and told.
    #[must_use]
    pub fn within(self, most_bytes: usize) -> Self {
        if self.to_bytes().len() <= most_bytes {
            return self;
        }
        let mut order: Vec<usize> = (0..self.causes.len()).collect();
        order.sort_by(|a, b| self.causes[*b].prior.total_cmp(&self.causes[*a].prior).then(a.cmp(b)));
        let (mut fits, mut too_many) = (0, order.len());
        while too_many - fits > 1 {
            let middle = (fits + too_many) / 2;
            let is_small = self.of_causes(&order[..middle]).to_bytes().len() <= most_bytes;
            if is_small { fits = middle } else { too_many = middle }
        }
        self.of_causes(&order[..fits])
    }

    /// With these causes alone.
    fn of_causes(&self, kept: &[usize]) -> Self {
        let kept: BTreeSet<usize> = kept.iter().copied().collect();
        let rows = || kept.iter().map(|place| &self.causes[*place]);
        let elements: BTreeSet<u32> = rows().map(|row| row.element).collect();
        let points = || rows().flat_map(|row| &row.points);
        let patterns: BTreeSet<u32> = points().map(|point| point.pattern).collect();
        let renumbered =
            |all: &BTreeSet<u32>| -> BTreeMap<u32, u32> { all.iter().copied().zip(0..).collect() };
        let (of_element, of_pattern) = (renumbered(&elements), renumbered(&patterns));
        let point = |point: &Point| Point { pattern: of_pattern[&point.pattern], ..point.clone() };
        let row = |row: &Row| Row {
            element: of_element[&row.element],
            points: row.points.iter().map(point).collect(),
            ..row.clone()
        };
        let left = (0..self.causes.len()).filter(|place| !kept.contains(place));
        let left_prior: f32 = left.map(|place| self.causes[place].prior).sum();
        Dictionary {
            elements: elements.iter().map(|place| self.elements[*place as usize].clone()).collect(),
            patterns: patterns.iter().map(|place| self.patterns[*place as usize].clone()).collect(),
            causes: rows().map(row).collect(),
            left_out: self.left_out + (self.causes.len() - kept.len()) as u32,
            left_out_prior: self.left_out_prior + left_prior,
            ..self.clone()
        }
    }

    /// The number of a reading by its name: `A-12` for a voltage in standby by day, `current:A-R1`, `loop:A-R1`, `insulation:A-R1`.
    pub fn number_of(&self, name: &str) -> Option<usize> {
        self.readings.iter().position(|entry| entry.name == name)
    }

    /// The kinds of its causes.
    pub fn kinds(&self) -> BTreeSet<Kind> {
        self.causes.iter().map(|row| row.kind).collect()
    }

    /// How many readings it knows.
    pub fn readings(&self) -> usize {
        self.readings.len()
    }

    /// How many causes it knows; what no reading shows counts once a kind.
    pub fn causes(&self) -> usize {
        self.causes.len()
    }

    /// How many causes were left out so that it is small enough, and their probability together before anything is read.
    pub fn left_out(&self) -> (usize, f64) {
        (self.left_out as usize, f64::from(self.left_out_prior))
    }
}
