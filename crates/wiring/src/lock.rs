//! How a lock is wired: what lies in series from one side of the feed through the lock to the other,
//! what lies across the relay's contact, and what across the lock.
//!
//! A lock that opens without power (fail-safe) hangs on the feed through contacts that are closed while
//! the door is shut: opening any of them, or losing power, releases it. A lock that stays shut without
//! power (fail-secure) hangs on a contact that closes to release; further releases lie across that
//! contact.

use latchline_site::catalogue::PowerLoss;
use latchline_site::model::{
    Entrance, LockFeed, LockPart, LockRelay, LockUse, RelayContact, Site, Suppression,
};

/// A part of the lock's circuit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WiringElement {
    /// One side of the feed: plus for direct current.
    FeedOut,
    /// The other side of the feed.
    FeedReturn,
    /// The relay that the door station commands, its own or one on the secure side: common to normally open.
    RelayNormallyOpen,
    /// The same relay: common to normally closed.
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
pub struct LockWiring {
    /// From where it takes its power.
    pub feed: LockFeed,
    /// Whether that is alternating current.
    pub is_ac: bool,
    /// Which relay's contact releases the lock.
    pub relay: LockRelay,
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

impl LockWiring {
    /// Whether a part lies in the lock's circuit. An emergency release or a fire contact can break that of a lock only that
    /// opens without power.
    pub fn has(&self, part: LockPart) -> bool {
        use WiringElement as W;
        let is_of = |element: &W| match part {
            LockPart::ExitButton => {
                matches!(element, W::ExitButtonNormallyOpen | W::ExitButtonNormallyClosed)
            }
            LockPart::EmergencyRelease => *element == W::EmergencyRelease,
            LockPart::FireContact => *element == W::FireInterlock,
            LockPart::Relay | LockPart::DoorContact | LockPart::Supply => false,
        };
        (part == LockPart::Supply && self.feed == LockFeed::OwnSupply)
            || (part == LockPart::Relay && self.relay != LockRelay::InStation)
            || self.series.iter().chain(&self.across_contact).any(is_of)
    }

    /// Parts over whose cables the lock's current flows, there and back.
    pub fn parts_in_its_path(&self) -> impl Iterator<Item = LockPart> {
        let with_power = matches!(self.feed, LockFeed::Station | LockFeed::Bus);
        LockPart::ALL
            .into_iter()
            .filter(move |part| self.has(*part) && (*part != LockPart::Relay || with_power))
    }
}

/// How the relay must be wired for a lock.
pub fn required_contact(power_loss: PowerLoss) -> RelayContact {
    match power_loss {
        PowerLoss::Opens => RelayContact::NormallyClosed,
        PowerLoss::StaysShut => RelayContact::NormallyOpen,
    }
}

/// The wiring that the plan should have, with the contact that the lock needs.
pub fn lock_wiring(site: &Site, entrance: &Entrance, used: &LockUse) -> LockWiring {
    use WiringElement as W;
    let required = required_contact(site.lock(used).power_loss.value);
    let has = |part| entrance.has_part(used, part);
    let relay = used.relay();
    let between = relay == LockRelay::Between;
    let mut series = Vec::new();
    let mut across_contact = Vec::new();
    if used.feed.value == LockFeed::DryContact {
        series.extend([W::DriveInput, W::RelayNormallyOpen, W::DriveInput]);
        if has(LockPart::ExitButton) {
            across_contact.push(W::ExitButtonNormallyOpen);
        }
    } else {
        series.push(W::FeedOut);
        match required {
            RelayContact::NormallyClosed => {
                series.push(if between { W::RelayBetween } else { W::RelayNormallyClosed });
                if has(LockPart::ExitButton) {
                    series.push(W::ExitButtonNormallyClosed);
                }
                if has(LockPart::EmergencyRelease) {
                    series.push(W::EmergencyRelease);
                }
                if has(LockPart::FireContact) {
                    series.push(W::FireInterlock);
                }
            }
            RelayContact::NormallyOpen => {
                series.push(if between { W::RelayBetween } else { W::RelayNormallyOpen });
                if has(LockPart::ExitButton) {
                    across_contact.push(W::ExitButtonNormallyOpen);
                }
            }
        }
        series.extend([W::Lock, W::FeedReturn]);
    }
    let fitted = used.suppression.as_ref().map(|stated| stated.value);
    let has_voltage = matches!(fitted, Some(Suppression::Clamp | Suppression::Varistor));
    LockWiring {
        feed: used.feed.value,
        relay,
        is_ac: match used.feed.value {
            LockFeed::Station => site.station_model(&site.stations[entrance.station]).lock_output_ac.value,
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
