//! Results of one kind within a bound on their size, each worked out once however many ask.

use std::collections::BTreeMap;
use std::convert::Infallible;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

/// How much room a result takes.
pub(crate) trait Weighed {
    /// Bytes, roughly.
    fn bytes(&self) -> usize;
}

impl<T: Weighed> Weighed for Arc<T> {
    fn bytes(&self) -> usize {
        (**self).bytes()
    }
}

impl<T: Weighed> Weighed for Option<T> {
    fn bytes(&self) -> usize {
        self.as_ref().map_or(0, Weighed::bytes)
    }
}

impl Weighed for Vec<f64> {
    fn bytes(&self) -> usize {
        8 * self.len()
    }
}

impl Weighed for usize {
    fn bytes(&self) -> usize {
        0
    }
}

impl Weighed for f64 {
    fn bytes(&self) -> usize {
        0
    }
}

/// Bytes that one kind of result may take; on a site of 1,000 stations they take some MB a version.
const MOST_BYTES: usize = 64 << 20;
/// What an entry takes beside its result.
const ENTRY_BYTES: usize = 128;

enum Slot<V> {
    /// Somebody is at it.
    Busy,
    /// Known, when it was last asked for, and how much room it takes.
    Known { value: V, asked: u64, bytes: usize },
}

struct Slots<K, V> {
    slots: BTreeMap<K, Slot<V>>,
    /// Counts questions.
    clock: u64,
    bytes: usize,
    most_bytes: usize,
}

impl<K: Ord + Copy, V> Slots<K, V> {
    /// Drops what was not asked for longest until a quarter is free, so that this is rare.
    fn shrink(&mut self) {
        if self.bytes <= self.most_bytes {
            return;
        }
        let mut by_age: Vec<(u64, K, usize)> = self
            .slots
            .iter()
            .filter_map(|(key, slot)| match slot {
                Slot::Known { asked, bytes, .. } => Some((*asked, *key, *bytes)),
                Slot::Busy => None,
            })
            .collect();
        by_age.sort_unstable();
        for (_, key, bytes) in by_age {
            if self.bytes <= self.most_bytes / 4 * 3 {
                break;
            }
            self.slots.remove(&key);
            self.bytes -= bytes;
        }
    }
}

/// Results of one kind by their keys.
pub(crate) struct Store<K, V> {
    slots: Mutex<Slots<K, V>>,
    ready: Condvar,
    /// How many were worked out.
    worked_out: AtomicU64,
}

impl<K, V> Default for Store<K, V> {
    fn default() -> Self {
        Store::within(MOST_BYTES)
    }
}

impl<K, V> Store<K, V> {
    /// A store that keeps no more than so many bytes.
    fn within(most_bytes: usize) -> Self {
        let slots = Slots { slots: BTreeMap::new(), clock: 0, bytes: 0, most_bytes };
        Store { slots: Mutex::new(slots), ready: Condvar::new(), worked_out: AtomicU64::new(0) }
    }
}

/// Takes the mark of being busy away again if the work came to nothing.
struct Busy<'a, K: Ord + Copy, V> {
    store: &'a Store<K, V>,
    key: K,
}

impl<K: Ord + Copy, V> Drop for Busy<'_, K, V> {
    fn drop(&mut self) {
        let mut slots = self.store.lock();
        if matches!(slots.slots.get(&self.key), Some(Slot::Busy)) {
            slots.slots.remove(&self.key);
        }
        drop(slots);
        self.store.ready.notify_all();
    }
}

impl<K: Ord + Copy, V: Clone + Weighed> Store<K, V> {
    /// What is known by this key, else what `work` gives, which is kept.
    pub fn get(&self, key: K, work: impl FnOnce() -> V) -> V {
        match self.try_get(key, || Ok::<V, Infallible>(work())) {
            Ok(value) => value,
            Err(never) => match never {},
        }
    }

    /// As [`Store::get`], for work that may come to nothing, of which nothing is kept.
    pub fn try_get<E>(&self, key: K, work: impl FnOnce() -> Result<V, E>) -> Result<V, E> {
        if let Some(known) = self.known_or_mine(key) {
            return Ok(known);
        }
        let busy = Busy { store: self, key };
        let value = work()?;
        self.put(key, value.clone());
        drop(busy);
        Ok(value)
    }

    /// What is known, after waiting for whoever is at it; `None` if the key is now the caller's to work out.
    fn known_or_mine(&self, key: K) -> Option<V> {
        let mut slots = self.lock();
        loop {
            slots.clock += 1;
            let now = slots.clock;
            match slots.slots.get_mut(&key) {
                Some(Slot::Known { value, asked, .. }) => {
                    *asked = now;
                    return Some(value.clone());
                }
                Some(Slot::Busy) => {
                    slots = self.ready.wait(slots).unwrap_or_else(PoisonError::into_inner);
                }
                None => {
                    slots.slots.insert(key, Slot::Busy);
                    return None;
                }
            }
        }
    }

    /// What is known now.
    pub fn known(&self, key: K) -> Option<V> {
        match self.lock().slots.get(&key) {
            Some(Slot::Known { value, .. }) => Some(value.clone()),
            _ => None,
        }
    }

    fn put(&self, key: K, value: V) {
        self.worked_out.fetch_add(1, Ordering::Relaxed);
        let bytes = value.bytes() + ENTRY_BYTES;
        let mut slots = self.lock();
        let asked = slots.clock;
        slots.bytes += bytes;
        if let Some(Slot::Known { bytes, .. }) = slots.slots.insert(key, Slot::Known { value, asked, bytes })
        {
            slots.bytes -= bytes;
        }
        slots.shrink();
    }
}

impl<K, V> Store<K, V> {
    /// How many results were worked out so far, whether or not they are still kept.
    pub fn worked_out(&self) -> u64 {
        self.worked_out.load(Ordering::Relaxed)
    }

    fn lock(&self) -> MutexGuard<'_, Slots<K, V>> {
        // Nothing panics while it is held.
        self.slots.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl<K, V> std::fmt::Debug for Store<K, V> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let slots = self.lock();
        f.debug_struct("Store").field("entries", &slots.slots.len()).field("bytes", &slots.bytes).finish()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::AtomicUsize;

    #[test]
    fn what_is_kept_stays_within_its_bound_and_the_oldest_goes_first() {
        let store: Store<usize, Arc<Vec<f64>>> = Store::within(100 * (8 * 100 + ENTRY_BYTES));
        for key in 0..1000 {
            store.get(key, || Arc::new(vec![key as f64; 100]));
            // The first is asked for again and again.
            store.get(0, || Arc::new(vec![-1.0; 100]));
            assert!(store.lock().bytes <= 100 * (8 * 100 + ENTRY_BYTES));
        }
        assert_eq!(store.known(0).map(|found| found[0]), Some(0.0));
        assert_eq!(store.known(999).map(|found| found[0]), Some(999.0));
        assert_eq!(store.known(1), None);
        assert!(store.lock().slots.len() >= 75, "a quarter at most is dropped at once");
    }

    #[test]
    fn of_work_that_comes_to_nothing_nothing_is_kept() {
        let store: Store<usize, usize> = Store::default();
        assert_eq!(store.try_get(7, || Err("given up")), Err("given up"));
        assert_eq!(store.known(7), None);
        assert_eq!(store.try_get(7, || Ok::<_, &str>(42)), Ok(42));
        assert_eq!(store.try_get(7, || Err("not asked")), Ok(42));
    }

    #[test]
    fn a_key_is_worked_out_once_however_many_ask() {
        let store: Store<usize, usize> = Store::default();
        let worked = AtomicUsize::new(0);
        std::thread::scope(|scope| {
            for _ in 0..8 {
                scope.spawn(|| {
                    let found = store.get(7, || {
                        worked.fetch_add(1, Ordering::Relaxed);
                        std::thread::sleep(std::time::Duration::from_millis(20));
                        42
                    });
                    assert_eq!(found, 42);
                });
            }
        });
        assert_eq!(worked.load(Ordering::Relaxed), 1);
    }

    #[test]
    fn work_that_ends_in_a_panic_leaves_the_key_to_the_next() {
        let store: Store<usize, usize> = Store::default();
        let panicked =
            std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| store.get(1, || panic!("on purpose"))));
        assert!(panicked.is_err());
        assert_eq!(store.get(1, || 5), 5);
    }
}
