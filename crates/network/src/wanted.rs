//! Whether what is being worked out is still wanted.

use latchline_finding::Language;
use latchline_words::refusals::SystemRefusal;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

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
}

impl Wanted {
    /// Wanted whatever happens.
    pub fn always() -> Self {
        Wanted::default()
    }

    /// Wanted while `newest` holds `revision`.
    pub fn while_newest(newest: Arc<AtomicU64>, revision: u64) -> Self {
        Wanted { newest: Some((newest, revision)), checks_left: None }
    }

    /// Wanted the first so many times that somebody asks, and no longer: gives work up at any place at which it can be given up.
    pub fn for_checks(checks: u64) -> Self {
        Wanted { newest: None, checks_left: Some(Arc::new(AtomicU64::new(checks))) }
    }

    /// Goes on, or gives up.
    ///
    /// # Errors
    /// [`GivenUp`] if it is no longer wanted.
    pub fn check(&self) -> Result<(), GivenUp> {
        if let Some(left) = &self.checks_left {
            let one_less = |left: u64| left.checked_sub(1);
            left.fetch_update(Ordering::AcqRel, Ordering::Acquire, one_less).map_err(|_| GivenUp)?;
        }
        match &self.newest {
            Some((newest, revision)) if newest.load(Ordering::Acquire) != *revision => Err(GivenUp),
            _ => Ok(()),
        }
    }
}
