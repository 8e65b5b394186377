//! A table as bytes, and back.
//!
//! `LLFD`, the version, then everything in the order of the fields: counts, indices and steps as variable-length numbers of seven bits a byte (those with a
//! sign folded so that small ones stay short), figures as IEEE 754 single precision, little endian, texts behind their length. The indices of what a
//! cause changes are kept as their differences. What several causes change alike, such as all that goes out with a supply, is kept once.

use super::table::{Change, Dictionary, Entry, Point, Row};
use crate::kind::Kind;
use std::collections::{BTreeMap, BTreeSet};

const MAGIC: &[u8; 5] = b"LLFD\x01";

/// What is no table, or not whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Damaged;

impl std::fmt::Display for Damaged {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        to.write_str("no fault dictionary, or not whole")
    }
}

impl std::error::Error for Damaged {}

impl Dictionary {
    /// As bytes.
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut to = Written(MAGIC.to_vec());
        to.figures([self.none_of_these, self.wrong_reading, self.careless_reading]);
        let mut kinds: Vec<String> = self.causes.iter().map(|row| row.kind.name()).collect();
        kinds.sort_unstable();
        kinds.dedup();
        to.number(kinds.len() as u64);
        kinds.iter().for_each(|kind| to.text(kind));
        to.number(self.elements.len() as u64);
        self.elements.iter().for_each(|element| to.text(element));
        to.number(self.readings.len() as u64);
        for entry in &self.readings {
            to.text(&entry.name);
            to.figures([entry.sound, entry.step, entry.own_variance]);
            to.number(entry.columns.len() as u64);
            entry.columns.iter().for_each(|value| to.figure(*value));
        }
        let points = || self.causes.iter().flat_map(|row| &row.points);
        let patterns: BTreeSet<&[Change]> = points().map(|point| &point.changes[..]).collect();
        let number: BTreeMap<&[Change], u64> = patterns.iter().copied().zip(0..).collect();
        to.number(patterns.len() as u64);
        patterns.iter().for_each(|pattern| to.pattern(pattern));
        to.number(self.causes.len() as u64);
        for row in &self.causes {
            to.number(kinds.binary_search(&row.kind.name()).unwrap_or(0) as u64);
            to.number(u64::from(row.element));
            to.figure(row.prior);
            to.number(row.points.len() as u64);
            for point in &row.points {
                to.figure(point.size);
                to.0.push(point.regime);
                to.number(number.get(&point.changes[..]).copied().unwrap_or(0));
            }
        }
        to.0
    }

    /// From bytes.
    ///
    /// # Errors
    /// If they are no table, or not whole.
    pub fn of_bytes(bytes: &[u8]) -> Result<Self, Damaged> {
        let mut from = Reading(bytes.strip_prefix(MAGIC).ok_or(Damaged)?);
        let [none_of_these, wrong_reading, careless_reading] =
            [from.figure()?, from.figure()?, from.figure()?];
        let kinds = from.list(|from| Kind::of_name(&from.text()?).ok_or(Damaged))?;
        let elements = from.list(Reading::text)?;
        let readings = from.list(|from| {
            Ok(Entry {
                name: from.text()?,
                sound: from.figure()?,
                step: from.figure()?,
                own_variance: from.figure()?,
                columns: from.list(Reading::figure)?,
            })
        })?;
        let patterns = from.list(|from| from.pattern(readings.len()))?;
        let causes = from.list(|from| {
            let kind = *kinds.get(from.count()?).ok_or(Damaged)?;
            let element = from.count()?;
            if element >= elements.len() {
                return Err(Damaged);
            }
            let prior = from.figure()?;
            let points = from.list(|from| {
                let (size, regime) = (from.figure()?, from.byte()?);
                let changes = patterns.get(from.count()?).ok_or(Damaged)?.clone();
                Ok(Point { size, regime, changes })
            })?;
            Ok(Row { kind, element: element as u32, prior, points })
        })?;
        if !from.0.is_empty() {
            return Err(Damaged);
        }
        Ok(Dictionary { readings, elements, causes, none_of_these, wrong_reading, careless_reading })
    }
}

struct Written(Vec<u8>);

impl Written {
    fn number(&mut self, mut value: u64) {
        while value >= 0x80 {
            self.0.push(value as u8 | 0x80);
            value >>= 7;
        }
        self.0.push(value as u8);
    }

    fn figures(&mut self, values: [f32; 3]) {
        values.into_iter().for_each(|value| self.figure(value));
    }

    fn pattern(&mut self, changes: &[Change]) {
        self.number(changes.len() as u64);
        let mut before = 0;
        for change in changes {
            self.number(u64::from(change.reading - before));
            before = change.reading;
            // The lowest bit says whether a deviation of its own follows.
            let folded = ((i64::from(change.steps) << 1) ^ (i64::from(change.steps) >> 63)) as u64;
            self.number((folded << 1) | u64::from(change.own_steps > 0));
            if change.own_steps > 0 {
                self.number(u64::from(change.own_steps));
            }
        }
    }

    fn figure(&mut self, value: f32) {
        self.0.extend_from_slice(&value.to_le_bytes());
    }

    fn text(&mut self, text: &str) {
        self.number(text.len() as u64);
        self.0.extend_from_slice(text.as_bytes());
    }
}

struct Reading<'b>(&'b [u8]);

impl Reading<'_> {
    fn byte(&mut self) -> Result<u8, Damaged> {
        let (first, rest) = self.0.split_first().ok_or(Damaged)?;
        self.0 = rest;
        Ok(*first)
    }

    fn number(&mut self) -> Result<u64, Damaged> {
        let mut value = 0_u64;
        for shift in (0..=56).step_by(7) {
            let byte = self.byte()?;
            value |= u64::from(byte & 0x7f) << shift;
            if byte < 0x80 {
                return Ok(value);
            }
        }
        Err(Damaged)
    }

    fn count(&mut self) -> Result<usize, Damaged> {
        usize::try_from(self.number()?).map_err(|_| Damaged)
    }

    fn figure(&mut self) -> Result<f32, Damaged> {
        let (first, rest) = self.0.split_first_chunk::<4>().ok_or(Damaged)?;
        self.0 = rest;
        let value = f32::from_le_bytes(*first);
        if value.is_finite() { Ok(value) } else { Err(Damaged) }
    }

    fn text(&mut self) -> Result<String, Damaged> {
        let length = self.count()?;
        let (first, rest) = self.0.split_at_checked(length).ok_or(Damaged)?;
        self.0 = rest;
        String::from_utf8(first.to_vec()).map_err(|_| Damaged)
    }

    /// Every entry of a list takes a byte at least, so that a count beyond what is left is told before room is made for it.
    fn list<T>(&mut self, mut of: impl FnMut(&mut Self) -> Result<T, Damaged>) -> Result<Vec<T>, Damaged> {
        let count = self.count()?;
        if count > self.0.len() {
            return Err(Damaged);
        }
        (0..count).map(|_| of(self)).collect()
    }

    fn pattern(&mut self, readings: usize) -> Result<Vec<Change>, Damaged> {
        let mut before = 0_usize;
        self.list(|from| {
            before = before.checked_add(from.count()?).ok_or(Damaged)?;
            let number = from.number()?;
            let own_steps = if number & 1 == 1 { from.number()? } else { 0 };
            let folded = number >> 1;
            let steps = (folded >> 1) as i64 ^ -((folded & 1) as i64);
            if before >= readings {
                return Err(Damaged);
            }
            Ok(Change {
                reading: before as u32,
                steps: i32::try_from(steps).map_err(|_| Damaged)?,
                own_steps: u32::try_from(own_steps).map_err(|_| Damaged)?,
            })
        })
    }
}
