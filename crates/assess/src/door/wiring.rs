//! How a lock is wired: what lies in series from one side of the feed through the lock to the other,
//! what lies across the relay's contact, and what across the lock.
//!
//! A lock that opens without power (fail-safe) hangs on the feed through contacts that are closed while
//! the door is shut: opening any of them, or losing power, releases it. A lock that stays shut without
//! power (fail-secure) hangs on a contact that closes to release; further releases lie across that
//! contact.

use super::LockAt;
use latchline_site::catalogue::PowerLoss;
use latchline_site::model::{LockFeed, RelayContact, Suppression};

/// A part of the lock's circuit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WiringElement {
    /// One side of the feed: plus for direct current.
    FeedOut,
    /// The other side of the feed.
    FeedReturn,
    /// The door station's relay: common to normally open.
    RelayNormallyOpen,
    /// The door station's relay: common to normally closed.
    RelayNormallyClosed,
    /// The make contact of a relay between station and lock. Its coil is energised through the station's relay:
    /// to release a lock that stays shut without power, and while the door is shut to hold one that opens
    /// without, so that a lost coil releases.
    RelayBetween,
    /// Exit button, normally open.
    ExitButtonNormallyOpen,
    /// Exit button, normally closed.
    ExitButtonNormallyClosed,
    /// Emergency release that breaks the circuit with its own hands: no electronics between.
    EmergencyRelease,
    /// Contact of the fire interlock, opened by the fire alarm.
    FireInterlock,
    /// The lock.
    Lock,
    /// The dry-contact input of a drive with power of its own.
    DriveInput,
}

/// The wiring of one lock.
#[derive(Debug, Clone, PartialEq)]
pub struct Wiring {
    /// From where it takes its power.
    pub feed: LockFeed,
    /// Whether that is alternating current.
    pub is_ac: bool,
    /// How the relay is wired by the plan.
    pub contact: RelayContact,
    /// How it must be for this kind of lock.
    pub required_contact: RelayContact,
    /// How the station's relay switches the coil of a relay in between; `None` without one.
    pub coil_contact: Option<RelayContact>,
    /// In series, from feed to feed.
    pub series: Vec<WiringElement>,
    /// Across the relay's contact.
    pub across_contact: Vec<WiringElement>,
    /// Across the lock's terminals.
    pub across_lock: Option<Suppression>,
    /// Its voltage in volts, where it has one and the plan states it.
    pub across_lock_v: Option<f64>,
}

/// How the relay must be wired for a lock.
pub fn required_contact(power_loss: PowerLoss) -> RelayContact {
    match power_loss {
        PowerLoss::Opens => RelayContact::NormallyClosed,
        PowerLoss::StaysShut => RelayContact::NormallyOpen,
    }
}

/// The wiring that the plan should have, with the contact that the lock needs.
pub fn wiring(at: &LockAt<'_>) -> Wiring {
    use WiringElement as W;
    let used = at.used;
    let required = required_contact(at.lock.power_loss.value);
    // A drive takes a contact at its own voltage and needs nothing in between.
    let between = used.relay_between.is_some() && !at.takes_dry_contact();
    let mut series = Vec::new();
    let mut across_contact = Vec::new();
    if at.takes_dry_contact() {
        series.extend([W::DriveInput, W::RelayNormallyOpen, W::DriveInput]);
        if used.exit_button.value {
            across_contact.push(W::ExitButtonNormallyOpen);
        }
    } else {
        series.push(W::FeedOut);
        match required {
            RelayContact::NormallyClosed => {
                series.push(if between { W::RelayBetween } else { W::RelayNormallyClosed });
                if used.exit_button.value {
                    series.push(W::ExitButtonNormallyClosed);
                }
                if at.has_emergency_release() {
                    series.push(W::EmergencyRelease);
                }
                if at.entrance.fire_interlock.value {
                    series.push(W::FireInterlock);
                }
            }
            RelayContact::NormallyOpen => {
                series.push(if between { W::RelayBetween } else { W::RelayNormallyOpen });
                if used.exit_button.value {
                    across_contact.push(W::ExitButtonNormallyOpen);
                }
            }
        }
        series.extend([W::Lock, W::FeedReturn]);
    }
    let fitted = used.suppression.as_ref().map(|stated| stated.value);
    let has_voltage = matches!(fitted, Some(Suppression::Clamp | Suppression::Varistor));
    Wiring {
        feed: used.feed.value,
        is_ac: match used.feed.value {
            LockFeed::Station => at.station.lock_output_ac.value,
            LockFeed::OwnSupply => used.supply_ac.value,
            LockFeed::Bus | LockFeed::DryContact => false,
        },
        contact: used.contact.value,
        required_contact: required,
        coil_contact: between.then_some(required),
        series,
        across_contact,
        across_lock_v: used.suppression_voltage.as_ref().map(|v| v.value.as_volts()).filter(|_| has_voltage),
        across_lock: fitted.filter(|fitted| *fitted != Suppression::None),
    }
}
