//! Everything that a result depends on, as a key of fixed size.

use latchline_circuit::startup::SupplyLimit;

/// 128 bits of everything that a result depends on. That two different cases share them is taken not to occur (one in 10^26 for a
/// million cases).
#[derive(Clone)]
pub struct Fingerprint([u64; 2]);

/// Odd constants with bits all over; those of xxHash (Collet, from memory), whose rounds these are like.
const PRIMES: [u64; 4] =
    [0x9e37_79b1_85eb_ca87, 0xc2b2_ae3d_27d4_eb4f, 0x1656_67b1_9e37_79f9, 0x85eb_ca77_c2b2_ae63];

/// A finished fingerprint.
pub type Key = [u64; 2];

impl Default for Fingerprint {
    fn default() -> Self {
        Fingerprint::new()
    }
}

impl Fingerprint {
    /// Of nothing yet.
    pub fn new() -> Self {
        Fingerprint([PRIMES[2], PRIMES[3]])
    }

    /// Adds a number, by its bits.
    pub fn number(&mut self, value: f64) -> &mut Self {
        self.word(value.to_bits())
    }

    /// Adds numbers and how many there are.
    pub fn numbers(&mut self, values: &[f64]) -> &mut Self {
        self.count(values.len());
        for value in values {
            self.number(*value);
        }
        self
    }

    /// Adds a number that may be missing.
    pub fn optional(&mut self, value: Option<f64>) -> &mut Self {
        self.count(usize::from(value.is_some())).number(value.unwrap_or(0.0))
    }

    /// Adds a count or an index.
    pub fn count(&mut self, value: usize) -> &mut Self {
        self.word(value as u64)
    }

    /// Adds counts and how many there are.
    pub fn counts(&mut self, values: impl ExactSizeIterator<Item = usize>) -> &mut Self {
        self.count(values.len());
        for value in values {
            self.count(value);
        }
        self
    }

    /// Adds a text and its length.
    pub fn text(&mut self, text: &str) -> &mut Self {
        self.count(text.len());
        for eight in text.as_bytes().chunks(8) {
            let mut word = [0; 8];
            word[..eight.len()].copy_from_slice(eight);
            self.word(u64::from_le_bytes(word));
        }
        self
    }

    /// Adds what a supply does at its limit.
    pub fn limit(&mut self, limit: SupplyLimit) -> &mut Self {
        match limit {
            SupplyLimit::None => self.count(0),
            SupplyLimit::ConstantCurrent { current_a } => self.count(1).number(current_a),
            SupplyLimit::Foldback { max_current_a, knee_voltage_v, short_current_a } => {
                self.count(2).number(max_current_a).number(knee_voltage_v).number(short_current_a)
            }
            SupplyLimit::Hiccup { current_a, trip_time_s, off_time_s } => {
                self.count(3).number(current_a).number(trip_time_s).number(off_time_s)
            }
        }
    }

    /// Adds another key.
    pub fn key(&mut self, key: Key) -> &mut Self {
        self.word(key[0]).word(key[1])
    }

    fn word(&mut self, word: u64) -> &mut Self {
        // Both steps can be undone, so that cases that differ in one word alone never meet.
        let [one, two] = &mut self.0;
        *one = one.wrapping_add(word.wrapping_mul(PRIMES[1])).rotate_left(31).wrapping_mul(PRIMES[0]);
        *two = (*two ^ word.wrapping_mul(PRIMES[2]).rotate_left(29).wrapping_mul(PRIMES[1]))
            .rotate_left(27)
            .wrapping_mul(PRIMES[0])
            .wrapping_add(PRIMES[3]);
        self
    }

    /// The key.
    pub fn finish(&self) -> Key {
        // Every bit of each half touches every bit of its half of the key (the last step of MurmurHash3, Appleby, from memory).
        self.0.map(|half| {
            let half = (half ^ (half >> 33)).wrapping_mul(0xff51_afd7_ed55_8ccd);
            let half = (half ^ (half >> 33)).wrapping_mul(0xc4ce_b9fe_1a85_ec53);
            half ^ (half >> 33)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// Of a million random halves of keys two would be the same once in 37 million times (birthday bound), and each bit is set in
    /// half of them to within 5 standard deviations.
    #[test]
    fn keys_of_like_cases_are_spread_out() {
        let count = 1_000_000_u64;
        let mut halves: [BTreeSet<u64>; 2] = Default::default();
        let mut set = [[0_u64; 64]; 2];
        for case in 0..count {
            let mut key = Fingerprint::new();
            // Small counts and round numbers, as sites have.
            key.count((case % 100) as usize).number((case / 100 % 100) as f64 * 0.5).number(0.0);
            key.count((case / 10_000) as usize).number(1.0);
            for (half, word) in key.finish().into_iter().enumerate() {
                halves[half].insert(word);
                for (bit, set) in set[half].iter_mut().enumerate() {
                    *set += word >> bit & 1;
                }
            }
        }
        assert!(halves.iter().all(|half| half.len() as u64 == count));
        let five_deviations = 5.0 * 0.5 * (count as f64).sqrt();
        let off = set.iter().flatten().map(|set| (*set as f64 - 0.5 * count as f64).abs());
        assert!(off.fold(0.0, f64::max) < five_deviations);
    }
}
