//! Whether what is being worked out is still wanted.

use latchline_finding::Language;
use latchline_words::refusals::SystemRefusal;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

/// What was asked for was given up, since it is no longer wanted. Nothing of it was kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GivenUp;

impl std::fmt::Display for GivenUp {
    /// In English, for tests and for other programs.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&SystemRefusal::GivenUp.say(Language::English))
    }
}

impl std::error::Error for GivenUp {}

/// Tells whoever works something out whether it is still wanted: as long as its revision is the newest.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    newest: Option<(Arc<AtomicU64>, u64)>,
    /// How often it may yet be asked for.
    checks_left: Option<Arc<AtomicU64>>,
    /// How often it may yet be asked for before it is refused once.
    refused_once_after: Option<Arc<AtomicU64>>,
    /// Set once it was no longer wanted, of work that has one answer.
    refused: Option<Arc<AtomicBool>>,
}

impl Wanted {
    /// Wanted whatever happens.
    pub fn always() -> Self {
        Wanted::default()
    }

    /// Wanted while `newest` holds `revision`.
    pub fn while_newest(newest: Arc<AtomicU64>, revision: u64) -> Self {
        Wanted { newest: Some((newest, revision)), ..Wanted::default() }
    }

    /// Wanted the first so many times that somebody asks, and no longer: gives work up at any place at which it can be given up.
    pub fn for_checks(checks: u64) -> Self {
        Wanted { checks_left: Some(Arc::new(AtomicU64::new(checks))), ..Wanted::default() }
    }

    /// Wanted but for one time that somebody asks, after so many others: as where a change is made and taken back meanwhile.
    pub fn but_for_check(before: u64) -> Self {
        Wanted { refused_once_after: Some(Arc::new(AtomicU64::new(before))), ..Wanted::default() }
    }

    /// For work of which the parts become one answer: once a part was given up the whole is, though its revision be the newest again since (a
    /// change made and taken back). So an answer is never made of parts of which some were given up.
    #[must_use]
    pub fn for_one_answer(&self) -> Self {
        Wanted { refused: Some(Arc::default()), ..self.clone() }
    }

    /// Goes on, or gives up.
    ///
    /// # Errors
    /// [`GivenUp`] if it is no longer wanted.
    pub fn check(&self) -> Result<(), GivenUp> {
        if self.refused.as_ref().is_some_and(|refused| refused.load(Ordering::Acquire)) {
            return Err(GivenUp);
        }
        let asked = self.asked();
        if let (Err(GivenUp), Some(refused)) = (asked, &self.refused) {
            refused.store(true, Ordering::Release);
        }
        asked
    }

    fn asked(&self) -> Result<(), GivenUp> {
        if let Some(left) = &self.checks_left {
            let one_less = |left: u64| left.checked_sub(1);
            left.fetch_update(Ordering::AcqRel, Ordering::Acquire, one_less).map_err(|_| GivenUp)?;
        }
        if let Some(before) = &self.refused_once_after {
            // Counted down once beyond nought, where it wraps and is not reached again.
            if before.fetch_sub(1, Ordering::AcqRel) == 0 {
                return Err(GivenUp);
            }
        }
        match &self.newest {
            Some((newest, revision)) if newest.load(Ordering::Acquire) != *revision => Err(GivenUp),
            _ => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_given_up_once_stays_so_for_one_answer() {
        let newest = Arc::new(AtomicU64::new(3));
        let wanted = Wanted::while_newest(Arc::clone(&newest), 3);
        let (answer, other) = (wanted.for_one_answer(), wanted.for_one_answer());
        assert_eq!(answer.check(), Ok(()));
        newest.store(4, Ordering::Release);
        assert_eq!(answer.check(), Err(GivenUp));
        newest.store(3, Ordering::Release);
        assert_eq!(answer.check(), Err(GivenUp), "a part of it was given up");
        assert_eq!(other.check(), Ok(()), "of this one none was");
        assert_eq!(wanted.for_one_answer().check(), Ok(()));
    }
}
