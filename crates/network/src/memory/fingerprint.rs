//! Everything that a result depends on, as a key of fixed size.

use latchline_circuit::startup::SupplyLimit;
use std::collections::hash_map::DefaultHasher;
use std::hash::Hasher;

/// 128 bits of everything that a result depends on. That two different cases share them is taken not to occur (one in 10^26 for a
/// million cases).
#[derive(Clone)]
pub struct Fingerprint([DefaultHasher; 2]);

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
        let mut both = [DefaultHasher::new(), DefaultHasher::new()];
        both[1].write_u64(0x9e37_79b9_7f4a_7c15);
        Fingerprint(both)
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
        for hasher in &mut self.0 {
            hasher.write(text.as_bytes());
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
        for hasher in &mut self.0 {
            hasher.write_u64(word);
        }
        self
    }

    /// The key.
    pub fn finish(&self) -> Key {
        [self.0[0].finish(), self.0[1].finish()]
    }
}
