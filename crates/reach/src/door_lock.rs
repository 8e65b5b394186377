//! The lock that a house asked of has at each of its doors.

use latchline_site::catalogue::{Catalogue, Feed, LoadValue, Lock, LockKind, PowerLoss};

/// Cable from every door station to its lock.
pub const LOCK_CABLE: &str = "flex-1.0";
/// Length of that cable in metres.
pub const LOCK_M: f64 = 5.0;

/// A lock that a door station feeds, held while its call stands.
#[derive(Debug, Clone, PartialEq)]
pub struct DoorLock {
    /// The lock.
    pub model: String,
    /// What the door station takes from the bus while it feeds it; `None` where its entry does not say.
    pub draws: Option<LoadValue>,
}

/// The lock that is usual at a door station: of those that it can feed and that stay shut without power, the one of the greatest current.
/// `None` where the door station has no output for one and releases by a dry contact, or the catalogue has none that fits.
pub fn usual_lock(catalogue: &Catalogue, door: &str) -> Option<DoorLock> {
    let station = catalogue.stations.get(door)?;
    let output_v = station.lock_output_voltage.as_ref()?.value.as_volts();
    let most_a = station.lock_output_current.as_ref().map_or(f64::INFINITY, |most| most.value.as_amps());
    let is_ac = station.lock_output_ac.value;
    let fits = |lock: &&Lock| {
        let feed = match lock.feed.value {
            Feed::Dc => !is_ac,
            Feed::Ac => is_ac,
            Feed::Either => true,
        };
        let (Some(voltage), Some(current)) = (&lock.voltage, &lock.current) else { return false };
        let ratio = output_v / voltage.value.as_volts() - 1.0;
        let in_range = (-lock.undervoltage_tolerance.value.as_fraction()
            ..=lock.overvoltage_tolerance.value.as_fraction())
            .contains(&ratio);
        let amperes = lock.inrush_current.as_ref().unwrap_or(current).value.as_amps();
        feed && in_range
            && amperes <= most_a
            && lock.kind.value == LockKind::Strike
            && lock.power_loss.value == PowerLoss::StaysShut
    };
    let amperes = |lock: &&Lock| lock.current.as_ref().map_or(0.0, |current| current.value.as_amps());
    let order =
        |a: &&Lock, b: &&Lock| amperes(a).total_cmp(&amperes(b)).then_with(|| b.head.name.cmp(&a.head.name));
    let lock = catalogue.locks.values().filter(fits).max_by(order)?;
    lock_at(catalogue, door, &lock.head.name)
}

/// This lock of the catalogue at this door station; `None` where it has power of its own and takes a dry contact.
pub fn lock_at(catalogue: &Catalogue, door: &str, lock: &str) -> Option<DoorLock> {
    if catalogue.locks.get(lock)?.kind.value.is_of_another_system() {
        return None;
    }
    let draws = catalogue.stations.get(door)?.releasing_extra.as_ref().map(|extra| extra.value);
    Some(DoorLock { model: lock.to_string(), draws })
}

/// What an entrance of a question's site file says of its lock, after its other keys. Who escapes through it is no matter of the question.
pub(crate) fn lock_keys(lock: Option<&DoorLock>) -> String {
    let Some(lock) = lock else { return String::new() };
    let model = toml::Value::String(lock.model.clone());
    format!(
        ", escape_route = false, escape_decided_by = \"question\", escape_decided_on = 2026-01-01, lock = {{ model = {model}, cable = \"{LOCK_CABLE}\", length = \"{LOCK_M} m\" }}"
    )
}
