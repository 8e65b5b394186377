//! What was worked out once for a stage, kept for other sites with the same stage.
//!
//! A change that is only tried leaves most of a site as it is. Results are kept by everything that they depend on, so
//! what is found again is what would be worked out again.

use crate::signal_tree::SignalSurvey;
use crate::stage_search::StageFound;
use crate::start_up::{Effort, Simulated};
use std::collections::BTreeMap;
use std::collections::hash_map::DefaultHasher;
use std::hash::Hasher;
use std::sync::{Arc, Mutex};

/// 128 bits of everything that a result depends on. That two different cases share them is taken not to occur (one in 10^26 for a
/// million cases).
pub(crate) struct Fingerprint([DefaultHasher; 2]);

impl std::fmt::Write for Fingerprint {
    fn write_str(&mut self, text: &str) -> std::fmt::Result {
        for hasher in &mut self.0 {
            hasher.write(text.as_bytes());
        }
        Ok(())
    }
}

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

/// `None` where the simulator refuses the case.
type StartUps = BTreeMap<([u64; 2], Effort), Option<Arc<Simulated>>>;

/// Results of stages, by all that they depend on. Shared between threads.
#[derive(Debug, Default)]
pub struct Memory {
    states: Mutex<BTreeMap<[u64; 2], Arc<StageFound>>>,
    start_ups: Mutex<StartUps>,
    signals: Mutex<BTreeMap<[u64; 2], Arc<SignalSurvey>>>,
}

impl Memory {
    /// What is known of a stage's states by this key, else what `work` gives, which is kept.
    pub(crate) fn states(&self, key: [u64; 2], work: impl FnOnce() -> StageFound) -> Arc<StageFound> {
        remembered(&self.states, key, || Arc::new(work()))
    }

    /// The same for a start-up, where more effort than asked for serves as well.
    pub(crate) fn start_up(
        &self,
        key: [u64; 2],
        effort: Effort,
        work: impl FnOnce() -> Option<Simulated>,
    ) -> Option<Arc<Simulated>> {
        let known = self.start_ups.lock().ok().and_then(|known| {
            known.range((key, effort)..=(key, Effort::WithMending)).next().map(|(_, found)| found.clone())
        });
        known.unwrap_or_else(|| remembered(&self.start_ups, (key, effort), || work().map(Arc::new)))
    }

    /// The same for the signals of a site.
    pub(crate) fn signal(&self, key: [u64; 2], work: impl FnOnce() -> SignalSurvey) -> Arc<SignalSurvey> {
        remembered(&self.signals, key, || Arc::new(work()))
    }
}

fn remembered<K: Ord, V: Clone>(map: &Mutex<BTreeMap<K, V>>, key: K, work: impl FnOnce() -> V) -> V {
    let known = map.lock().ok().and_then(|map| map.get(&key).cloned());
    known.unwrap_or_else(|| {
        let found = work();
        if let Ok(mut map) = map.lock() {
            map.insert(key, found.clone());
        }
        found
    })
}
