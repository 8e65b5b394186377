//! Questions that come by telephone. Those that need no site file are put to a small house, which is then assessed as any site is.
//!
//! * [`cable_called`]: the cable that somebody means by an everyday name;
//! * [`stations_on`]: how many stations on one run of a given length, on mains and to the battery's end;
//! * [`lock_cable`], [`lock_cables`]: what is left at a lock over its cable, which cables do, and what else helps;
//! * [`battery_hours`]: how long a battery carries so many stations;
//! * [`stations_spread`]: the same with a stated distance from one to the next;
//! * [`mix_on`], [`mix_on_each`]: whether a mix of models works on one supply, on each of some;
//! * [`old_cable`]: whether the old cable of a site can stay;
//! * [`switches_for`]: the switches of a number;
//! * [`run_said`] and its like: what is said of an answer.

mod battery;
mod battery_said;
mod cable;
mod house;
mod lock;
mod mix;
mod old_cable;
mod said;
mod stations;
mod switches;

pub use battery::{BatteryAnswer, BatteryHours, NoHours, battery_hours};
pub use battery_said::{battery_said, lightest_battery_said};
pub use cable::{NoCable, cable_called};
pub use house::{Power, lightest, power_of, supplies_of, usual_family};
pub use lock::{Doubled, LockCable, LockWay, OwnSupply, lock_cable, lock_cables, takes_dry_contact};
pub use mix::{MixOn, mix_on, mix_on_each};
pub use old_cable::{OldCable, old_cable};
pub use said::power_word;
pub use said::{
    doors_at_words, dry_contact_said, lock_said, locks_said, locks_taken, mix_said, not_judged, run_said,
    spread_said,
};
pub use stations::{
    Carried, Lightest, OneRun, Spread, by_cable, by_spread, lightest_on, lightest_spread, stations_on,
    stations_spread,
};
pub use switches::{SwitchRow, number_of_station, switches_for};
