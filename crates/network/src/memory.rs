//! What was worked out once for a stage, kept for other sites with the same stage.
//!
//! A change that is only tried leaves most of a site as it is. Results are kept by everything that they depend on, so
//! what is found again is what would be worked out again.

use crate::stage_search::StageFound;
use std::collections::BTreeMap;
use std::collections::hash_map::DefaultHasher;
use std::hash::Hasher;
use std::sync::{Arc, Mutex};

/// 128 bits of everything that a result depends on. That two different cases share them is taken not to occur (one in 10^26 for a
/// million cases).
pub(crate) struct Fingerprint([DefaultHasher; 2]);

impl Fingerprint {
    pub fn new() -> Self {
        let mut both = [DefaultHasher::new(), DefaultHasher::new()];
        both[1].write_u64(0x9e37_79b9_7f4a_7c15);
        Fingerprint(both)
    }

    pub fn number(&mut self, value: f64) {
        self.word(value.to_bits());
    }

    pub fn numbers(&mut self, values: &[f64]) {
        self.count(values.len());
        for value in values {
            self.number(*value);
        }
    }

    pub fn count(&mut self, value: usize) {
        self.word(value as u64);
    }

    fn word(&mut self, word: u64) {
        for hasher in &mut self.0 {
            hasher.write_u64(word);
        }
    }

    pub fn finish(self) -> [u64; 2] {
        self.0.map(|hasher| hasher.finish())
    }
}

/// Results of stages, by all that they depend on. Shared between threads.
#[derive(Debug, Default)]
pub struct Memory {
    states: Mutex<BTreeMap<[u64; 2], Arc<StageFound>>>,
}

impl Memory {
    /// What is known by this key, else what `work` gives, which is kept.
    pub(crate) fn states(&self, key: [u64; 2], work: impl FnOnce() -> StageFound) -> Arc<StageFound> {
        let known = self.states.lock().ok().and_then(|states| states.get(&key).cloned());
        known.unwrap_or_else(|| {
            let found = Arc::new(work());
            if let Ok(mut states) = self.states.lock() {
                states.insert(key, Arc::clone(&found));
            }
            found
        })
    }
}
