//! Measures of the picture of a lock.

use crate::language::Lettering;
use latchline_wiring::lock::WiringElement;

pub(super) const SLOT_MM: f64 = 26.5;
/// Room for words in a slot, clear of the box of the feed.
pub(super) const SLOT_WORDS_MM: f64 = SLOT_MM - 2.4;
pub(super) const FEED_MM: f64 = 22.0;
pub(super) const LEFT_MM: f64 = 3.0 + FEED_MM;
/// From a wire to the words above and below it.
pub(super) const ABOVE_WIRE_MM: f64 = 1.2;
/// From the upper rail to the branch above it, and to the lower rail.
const BRANCH_MM: f64 = 15.0;
const RAILS_MM: f64 = 29.5;

/// Where the rails of a picture lie, and how it is lettered.
#[derive(Clone, Copy)]
pub(super) struct LockPicture {
    pub(super) upper: f64,
    pub(super) lettering: Lettering,
}

impl LockPicture {
    pub(super) fn lower(self) -> f64 {
        self.upper + RAILS_MM
    }

    pub(super) fn branch(self) -> f64 {
        self.upper - BRANCH_MM
    }
}

/// Whether a contact is closed while the door is shut and nobody asks.
pub(super) fn is_closed_at_rest(element: WiringElement) -> bool {
    matches!(
        element,
        WiringElement::RelayNormallyClosed
            | WiringElement::ExitButtonNormallyClosed
            | WiringElement::EmergencyRelease
            | WiringElement::FireInterlock
    )
}
