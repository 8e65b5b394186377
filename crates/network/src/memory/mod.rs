//! What was worked out once for a part of a site, kept for every other site with the same part.
//!
//! Most of a site stays as it is when one thing changes. Results are kept by everything that they depend on
//! ([`Fingerprint`]), so what is found again is what would be worked out again, and taking a change back finds what was known
//! before it. Each kind is kept within a bound on its size; what was not asked for longest goes first.
//!
//! **One computation a key.** Who asks for what is being worked out waits for it. What is worked out must not
//! itself ask for anything remembered or hand work to other threads, so that nobody waits in a circle.

mod fingerprint;
mod store;

pub use fingerprint::{Fingerprint, Key};
pub(crate) use store::Weighed;

use crate::effort::Effort;
use crate::nominal_figures::StageNominal;
use crate::short_circuit::StageShorts;
use crate::signal_tree::survey::call_survey::CallSurvey;
use crate::stage_search::StageFound;
use crate::wanted::{GivenUp, Wanted};
use latchline_circuit::startup::StartUp;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use store::Store;

/// A first limit: the factor, and the place of what is limited among what was looked at.
#[derive(Debug, Clone, Copy)]
struct FirstFound((f64, usize));

impl Weighed for FirstFound {
    fn bytes(&self) -> usize {
        0
    }
}

/// What is kept, kind by kind.
#[derive(Debug, Default)]
struct Stores {
    /// The worst of everything on a stage in a state.
    states: Store<Key, Arc<StageFound>>,
    /// Nominal figures of a stage.
    nominal: Store<Key, Arc<StageNominal>>,
    /// Loading margins.
    loading_margins: Store<Key, Option<f64>>,
    /// First limits: the factor, and whose it is.
    first_limits: Store<Key, Option<FirstFound>>,
    /// Shorts on a stage.
    shorts: Store<Key, Arc<StageShorts>>,
    /// One caller in one band; `None` where it is not for this caller.
    signals: Store<(Key, Effort), Option<Arc<CallSurvey>>>,
    /// Power return; `None` where the simulator refuses the case.
    start_ups: Store<(Key, Effort), Option<Arc<StartUp>>>,
    /// Changes that were tried.
    trials: AtomicU64,
}

/// What was worked out, not found again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct WorkDone {
    /// Supplies with what hangs below them, each in one state.
    pub states: u64,
    /// Shorts of supplies and boxes.
    pub shorts: u64,
    /// Callers, each in one band at one length of the cables.
    pub signals: u64,
    /// Starts of supplies and boxes.
    pub start_ups: u64,
    /// Changes of the site that were tried.
    pub trials: u64,
}

/// Results of parts of sites, by all that they depend on. Shared between threads; a clone has the same results.
#[derive(Debug, Clone, Default)]
pub struct Memory {
    stores: Arc<Stores>,
    wanted: Wanted,
}

impl Memory {
    /// The same results, for work that may be given up.
    #[must_use]
    pub fn wanted(&self, wanted: Wanted) -> Memory {
        Memory { stores: Arc::clone(&self.stores), wanted }
    }

    /// The same results, for work of which the parts become one answer (see [`Wanted::for_one_answer`]).
    #[must_use]
    pub fn for_one_answer(&self) -> Memory {
        self.wanted(self.wanted.for_one_answer())
    }

    /// Whether the work is still wanted, to be asked.
    pub fn is_wanted(&self) -> &Wanted {
        &self.wanted
    }

    /// Goes on, or gives up.
    ///
    /// # Errors
    /// [`GivenUp`] if the work is no longer wanted.
    pub fn check(&self) -> Result<(), GivenUp> {
        self.wanted.check()
    }

    /// A change is tried on the site.
    pub fn count_trial(&self) {
        self.stores.trials.fetch_add(1, Ordering::Relaxed);
    }

    /// What was worked out so far, in all work that shares these results.
    pub fn work_done(&self) -> WorkDone {
        WorkDone {
            states: self.stores.states.worked_out(),
            shorts: self.stores.shorts.worked_out(),
            signals: self.stores.signals.worked_out(),
            start_ups: self.stores.start_ups.worked_out(),
            trials: self.stores.trials.load(Ordering::Relaxed),
        }
    }

    pub(crate) fn states(&self, key: Key, work: impl FnOnce() -> StageFound) -> Arc<StageFound> {
        self.stores.states.get(key, || Arc::new(work()))
    }

    pub(crate) fn nominal(&self, key: Key, work: impl FnOnce() -> StageNominal) -> Arc<StageNominal> {
        self.stores.nominal.get(key, || Arc::new(work()))
    }

    pub(crate) fn loading_margin(&self, key: Key, work: impl FnOnce() -> Option<f64>) -> Option<f64> {
        self.stores.loading_margins.get(key, work)
    }

    pub(crate) fn first_limit(
        &self,
        key: Key,
        work: impl FnOnce() -> Option<(f64, usize)>,
    ) -> Option<(f64, usize)> {
        self.stores.first_limits.get(key, || work().map(FirstFound)).map(|found| found.0)
    }

    pub(crate) fn shorts(&self, key: Key, work: impl FnOnce() -> StageShorts) -> Arc<StageShorts> {
        self.stores.shorts.get(key, || Arc::new(work()))
    }

    /// A call, where more effort than asked for serves as well.
    pub(crate) fn signal(
        &self,
        key: Key,
        effort: Effort,
        work: impl FnOnce() -> Option<CallSurvey>,
    ) -> Option<Arc<CallSurvey>> {
        let known = more_known(&self.stores.signals, key, effort);
        known.unwrap_or_else(|| self.stores.signals.get((key, effort), || work().map(Arc::new)))
    }

    /// A start-up, where more effort than asked for serves as well.
    pub(crate) fn start_up(
        &self,
        key: Key,
        effort: Effort,
        work: impl FnOnce() -> Result<Option<StartUp>, GivenUp>,
    ) -> Result<Option<Arc<StartUp>>, GivenUp> {
        let known = more_known(&self.stores.start_ups, key, effort);
        let anew = || self.stores.start_ups.try_get((key, effort), || Ok(work()?.map(Arc::new)));
        known.map_or_else(anew, Ok)
    }
}

/// What is known of a case by more effort than is asked for.
fn more_known<V: Clone + Weighed>(store: &Store<(Key, Effort), V>, key: Key, effort: Effort) -> Option<V> {
    match effort {
        Effort::Hurried => store.known((key, Effort::Whole)),
        Effort::Whole => None,
    }
}
