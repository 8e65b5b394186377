//! Ranking from a table alone.

use super::pattern::{PIECE_VARIANCE, change_of};
use super::quantities::name;
use super::solved::Entry;
use super::table::{Dictionary, Point, Row};
use crate::evidence::{Evidence, Measured};
use crate::gauss::{Errors, log_likelihood, log_sum};
use crate::kind::Kind;
use crate::plant::Plant;

/// Points between two sizes, interpolated.
const BETWEEN: usize = 6;
/// How far the derivatives of the site without a fault may be wrong for a faulted one, as a share of the change.
const DERIVATIVE_ERROR: f64 = 0.1;
/// Of a cause that is not in the list, the probability that a reading is anything (assumed).
const ANYTHING: f64 = 0.3;

/// A reading that a table knows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Read {
    /// Index into the readings of the table.
    pub reading: usize,
    /// The figure on the scale on which it is compared.
    pub scaled: f64,
    /// The deviation of the meter on that scale.
    pub deviation: f64,
    /// Density of a wrong reading there.
    pub outside: f64,
}

/// A cause with its probability.
#[derive(Debug, Clone, PartialEq)]
pub struct Share<'d> {
    /// What.
    pub kind: Kind,
    /// Where, as it is named.
    pub element: &'d str,
    /// Its probability.
    pub probability: f64,
    /// Its most probable size among those that are kept; `None` for a cause without.
    pub size: Option<f64>,
}

/// Those of the readings that the table knows, the others left out.
pub fn reads(dictionary: &Dictionary, plant: &Plant<'_>, evidence: &Evidence) -> Vec<Read> {
    let source_v = f64::from(dictionary.source_v);
    let read = |one: &Measured| {
        let named = name(plant, &one.quantity);
        let reading = dictionary.readings.iter().position(|entry| entry.name == named)?;
        Some(Read {
            reading,
            scaled: one.scaled(),
            deviation: one.deviation(),
            outside: one.outside(source_v),
        })
    };
    evidence.measured.iter().filter_map(read).collect()
}

/// What a cause predicts of the readings that were taken.
struct Said {
    values: Vec<f64>,
    own: Vec<f64>,
}

/// The readings, ready to be compared.
struct Taken<'t> {
    dictionary: &'t Dictionary,
    read: &'t [Read],
    entries: Vec<&'t Entry>,
    errors: Errors,
    /// Covariance by the tolerances.
    shared: Vec<f64>,
}

impl Dictionary {
    /// Every cause with its probability, the most probable first, and the probability of none of these, what was left out among them.
    pub fn rank(&self, read: &[Read]) -> (Vec<Share<'_>>, f64) {
        let read: Vec<Read> = read.iter().copied().filter(|one| one.reading < self.readings.len()).collect();
        let taken = Taken::new(self, &read);
        let mut logs: Vec<(f64, Option<f64>)> = Vec::with_capacity(self.causes.len());
        for row in &self.causes {
            let (log, size) = taken.log(row);
            logs.push((log + f64::from(row.prior).max(1e-30).ln(), size));
        }
        let log_none = taken.log_none() + f64::from(self.none_of_these + self.left_out_prior).max(1e-30).ln();
        let each: Vec<f64> = logs.iter().map(|(log, _)| *log).collect();
        let total = log_sum(&[log_sum(&each), log_none]);
        let share = |(row, (log, size)): (&Row, &(f64, Option<f64>))| Share {
            kind: row.kind,
            element: self.elements.get(row.element as usize).map_or("", String::as_str),
            probability: (log - total).exp(),
            size: *size,
        };
        let mut shares: Vec<Share<'_>> = self.causes.iter().zip(&logs).map(share).collect();
        shares.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        (shares, (log_none - total).exp())
    }
}

impl<'t> Taken<'t> {
    fn new(dictionary: &'t Dictionary, read: &'t [Read]) -> Self {
        let entries: Vec<&Entry> = read.iter().map(|one| &dictionary.readings[one.reading]).collect();
        let size = read.len();
        let mut shared = vec![0.0; size * size];
        for row in 0..size {
            for column in 0..size {
                shared[row * size + column] = entries[row].shared(entries[column]);
                // The same reading twice shares all of it.
                if read[row].reading == read[column].reading {
                    shared[row * size + column] += f64::from(entries[row].own_variance);
                }
            }
        }
        let meter: Vec<f64> = read.iter().map(|one| one.deviation.powi(2)).collect();
        let outside: Vec<f64> = read.iter().map(|one| one.outside).collect();
        let (wrong, careless) = (f64::from(dictionary.wrong_reading), f64::from(dictionary.careless_reading));
        Taken { dictionary, read, entries, errors: Errors::new(&meter, &outside, wrong, careless), shared }
    }

    /// Logarithm of the likelihood of a cause over its sizes, and the likeliest of these.
    fn log(&self, row: &Row) -> (f64, Option<f64>) {
        let said: Vec<Said> = row.points.iter().map(|point| self.said(Some(point))).collect();
        match (&said[..], &row.points[..]) {
            ([], _) => (self.compare(&self.said(None)), None),
            ([only], _) => (self.compare(only), None),
            (_, points) => {
                let mut logs = Vec::with_capacity(said.len() * BETWEEN);
                let mut best = (f64::NEG_INFINITY, f64::from(points[0].size));
                for (place, pair) in said.windows(2).enumerate() {
                    let (near, far) = (&points[place], &points[place + 1]);
                    for step in 0..BETWEEN {
                        let share = (step as f64 + 0.5) / BETWEEN as f64;
                        let log = if near.regime == far.regime {
                            self.compare(&between(&pair[0], &pair[1], share))
                        } else {
                            self.compare(&pair[usize::from(share > 0.5)])
                        };
                        let (low, high) = (f64::from(near.size), f64::from(far.size));
                        if log > best.0 {
                            let size = if low > 0.0 { low * (high / low).powf(share) } else { low };
                            best = (log, size);
                        }
                        logs.push(log);
                    }
                }
                (log_sum(&logs) - (logs.len() as f64).ln(), Some(best.1))
            }
        }
    }

    fn said(&self, point: Option<&Point>) -> Said {
        let of = |(read, entry): (&Read, &&Entry)| {
            let Some(point) = point else { return (f64::from(entry.sound), 0.0) };
            let (steps, own_steps) =
                change_of(&self.dictionary.patterns[point.pattern as usize], read.reading);
            if steps == 0.0 && own_steps == 0.0 {
                return (f64::from(entry.sound), 0.0);
            }
            (entry.value(steps), own_steps * f64::from(entry.step))
        };
        let (values, own) = self.read.iter().zip(&self.entries).map(of).unzip();
        Said { values, own }
    }

    fn compare(&self, said: &Said) -> f64 {
        let size = self.read.len();
        let mut covariance = self.shared.clone();
        for place in 0..size {
            if said.values[place] == 0.0 {
                // What is cut off depends on nothing.
                for other in 0..size {
                    covariance[place * size + other] = 0.0;
                    covariance[other * size + place] = 0.0;
                }
            }
        }
        for place in 0..size {
            let step = f64::from(self.entries[place].step);
            let change = said.values[place] - f64::from(self.entries[place].sound);
            covariance[place * size + place] += self.read[place].deviation.powi(2)
                + said.own[place].powi(2)
                + (DERIVATIVE_ERROR * change).powi(2)
                + if change == 0.0 { 0.0 } else { PIECE_VARIANCE * step * step };
        }
        let residual: Vec<f64> =
            self.read.iter().zip(&said.values).map(|(read, said)| read.scaled - said).collect();
        log_likelihood(&residual, &covariance, &self.errors)
    }

    /// Each reading is either as if nothing were wrong, or anything.
    fn log_none(&self) -> f64 {
        let size = self.read.len();
        let by_reading = self.read.iter().enumerate().map(|(place, read)| {
            let variance = self.shared[place * size + place] + read.deviation.powi(2);
            let error = read.scaled - f64::from(self.entries[place].sound);
            let fits =
                (-0.5 * error * error / variance).exp() / (2.0 * std::f64::consts::PI * variance).sqrt();
            ((1.0 - ANYTHING) * fits + ANYTHING * read.outside).ln()
        });
        by_reading.sum()
    }
}

fn between(near: &Said, far: &Said, share: f64) -> Said {
    let mix = |(a, b): (&f64, &f64)| a + share * (b - a);
    Said {
        values: near.values.iter().zip(&far.values).map(mix).collect(),
        own: near.own.iter().zip(&far.own).map(mix).collect(),
    }
}
