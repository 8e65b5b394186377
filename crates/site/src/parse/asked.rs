//! Which keys the readers ask for, to hold readers written by hand against their tables.

use crate::keys::TableSpec;
use latchline_words::reading::Thing;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::collections::BTreeSet;

thread_local! {
    static ASKED: RefCell<BTreeMap<Thing, BTreeSet<String>>> = RefCell::default();
}

/// Notes that a key was asked for.
pub(super) fn note(spec: &'static TableSpec, key: &str) {
    ASKED.with_borrow_mut(|asked| asked.entry(spec.name).or_default().insert(key.to_string()));
}

/// The keys that were asked for on this thread, by table.
pub(crate) fn keys() -> BTreeMap<Thing, BTreeSet<String>> {
    ASKED.with_borrow(Clone::clone)
}
