//! A table as bytes, and back.
//!
//! `LLFD`, the version, then everything in the order of the fields: counts, indices and steps as variable-length numbers of seven bits a byte (those with a
//! sign folded so that small ones stay short), figures as IEEE 754 single precision, little endian, texts behind their length. Of a piece the readings since
//! the end of the one before, its count, its first change and, of more than one, how much further its last is. What several causes change alike, such as
//! all that goes out with a supply, is kept once; so are priors and the sizes of a cause. Its patterns are kept as their distances from the one before,
//! and the regimes of its sizes as the digits of one number to the base of eight, the first lowest.

use super::pattern::{Pattern, Piece};
use super::solved::Entry;
use super::table::{Dictionary, Point, Row};
use crate::kind::Kind;
use std::collections::{BTreeMap, BTreeSet};

const MAGIC: &[u8; 5] = b"LLFD\x02";

/// Regimes of one cause are told apart up to so many; it has no more sizes.
const MOST_REGIMES: u64 = 8;

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
        to.figures([self.source_v, self.left_out_prior]);
        to.number(u64::from(self.left_out));
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
            entry.columns.iter().for_each(|value| to.signed(*value));
        }
        to.number(self.patterns.len() as u64);
        self.patterns.iter().for_each(|pattern| to.pattern(pattern));
        // Figures that many causes have in common stand once.
        let priors: BTreeSet<u32> = self.causes.iter().map(|row| row.prior.to_bits()).collect();
        let grid = |row: &Row| -> Vec<u32> { row.points.iter().map(|point| point.size.to_bits()).collect() };
        let grids: BTreeSet<Vec<u32>> = self.causes.iter().map(grid).collect();
        to.number(priors.len() as u64);
        priors.iter().for_each(|prior| to.figure(f32::from_bits(*prior)));
        to.number(grids.len() as u64);
        for grid in &grids {
            to.number(grid.len() as u64);
            grid.iter().for_each(|size| to.figure(f32::from_bits(*size)));
        }
        let of_prior: BTreeMap<u32, u64> = priors.into_iter().zip(0..).collect();
        let of_grid: BTreeMap<Vec<u32>, u64> = grids.into_iter().zip(0..).collect();
        let mut before = 0;
        to.number(self.causes.len() as u64);
        for row in &self.causes {
            to.number(kinds.binary_search(&row.kind.name()).unwrap_or(0) as u64);
            to.number(u64::from(row.element));
            to.number(of_prior[&row.prior.to_bits()]);
            to.number(of_grid[&grid(row)]);
            for point in &row.points {
                to.number(folded(i64::from(point.pattern) - i64::from(before)));
                before = point.pattern;
            }
            let regimes = row.points.iter().rev();
            to.number(regimes.fold(0, |all, point| all * MOST_REGIMES + u64::from(point.regime)));
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
        let (source_v, left_out_prior) = (from.figure()?, from.figure()?);
        let left_out = u32::try_from(from.number()?).map_err(|_| Damaged)?;
        let kinds = from.list(|from| Kind::of_name(&from.text()?).ok_or(Damaged))?;
        let elements = from.list(Reading::text)?;
        let readings = from.list(|from| {
            Ok(Entry {
                name: from.text()?,
                sound: from.figure()?,
                step: from.figure()?,
                own_variance: from.figure()?,
                columns: from.list(Reading::signed)?,
            })
        })?;
        let patterns = from.list(|from| from.pattern(readings.len()))?;
        let priors = from.list(Reading::figure)?;
        let grids: Vec<Vec<f32>> = from.list(|from| from.list(Reading::figure))?;
        let mut before = 0_i64;
        let causes = from.list(|from| {
            let kind = *kinds.get(from.count()?).ok_or(Damaged)?;
            let element = from.count()?;
            if element >= elements.len() {
                return Err(Damaged);
            }
            let prior = *priors.get(from.count()?).ok_or(Damaged)?;
            let grid = grids.get(from.count()?).ok_or(Damaged)?;
            let mut points = Vec::with_capacity(grid.len());
            for size in grid {
                let pattern = before.checked_add(from.unfolded()?).ok_or(Damaged)?;
                before = pattern;
                let pattern = usize::try_from(pattern).map_err(|_| Damaged)?;
                if pattern >= patterns.len() {
                    return Err(Damaged);
                }
                points.push(Point { size: *size, regime: 0, pattern: pattern as u32 });
            }
            let mut regimes = from.number()?;
            for point in &mut points {
                point.regime = (regimes % MOST_REGIMES) as u8;
                regimes /= MOST_REGIMES;
            }
            Ok(Row { kind, element: element as u32, prior, points })
        })?;
        if !from.0.is_empty() {
            return Err(Damaged);
        }
        Ok(Dictionary {
            readings,
            elements,
            patterns,
            causes,
            none_of_these,
            wrong_reading,
            careless_reading,
            source_v,
            left_out,
            left_out_prior,
        })
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

    fn figures<const COUNT: usize>(&mut self, values: [f32; COUNT]) {
        values.into_iter().for_each(|value| self.figure(value));
    }

    fn signed(&mut self, value: i32) {
        self.number(folded(i64::from(value)));
    }

    fn pattern(&mut self, pattern: &[Piece]) {
        self.number(pattern.len() as u64);
        let mut after = 0;
        for piece in pattern {
            self.number(u64::from(piece.first - after));
            after = piece.first + piece.count;
            // The lowest bit says whether a deviation of its own follows.
            self.number((u64::from(piece.count) << 1) | u64::from(piece.own_steps > 0));
            self.signed(piece.from_steps);
            if piece.count > 1 {
                self.number(folded(i64::from(piece.to_steps) - i64::from(piece.from_steps)));
            }
            if piece.own_steps > 0 {
                self.number(u64::from(piece.own_steps));
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

    fn own(&mut self) -> Result<u32, Damaged> {
        u32::try_from(self.number()?).map_err(|_| Damaged)
    }

    fn unfolded(&mut self) -> Result<i64, Damaged> {
        let folded = self.number()?;
        Ok((folded >> 1) as i64 ^ -((folded & 1) as i64))
    }

    fn signed(&mut self) -> Result<i32, Damaged> {
        i32::try_from(self.unfolded()?).map_err(|_| Damaged)
    }

    fn pattern(&mut self, readings: usize) -> Result<Pattern, Damaged> {
        let mut after = 0_usize;
        self.list(|from| {
            let first = after.checked_add(from.count()?).ok_or(Damaged)?;
            let number = from.number()?;
            let count = usize::try_from(number >> 1).map_err(|_| Damaged)?;
            after = first.checked_add(count).ok_or(Damaged)?;
            if count == 0 || after > readings {
                return Err(Damaged);
            }
            let from_steps = from.signed()?;
            let further = if count > 1 { from.unfolded()? } else { 0 };
            let to_steps = i64::from(from_steps).checked_add(further).ok_or(Damaged)?;
            let to_steps = i32::try_from(to_steps).map_err(|_| Damaged)?;
            let own_steps = if number & 1 == 1 { from.own()? } else { 0 };
            Ok(Piece { first: first as u32, count: count as u32, from_steps, to_steps, own_steps })
        })
    }
}

/// With its sign in the lowest bit.
fn folded(value: i64) -> u64 {
    ((value << 1) ^ (value >> 63)) as u64
}
