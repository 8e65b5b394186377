//! Numbers of devices, the switch positions that encode them, and what the system found.
//!
//! * [`assign`]: a number for every building, entrance, dwelling and station;
//! * [`settings`] and [`number_of`]: from a number to switch positions and back;
//! * [`reconcile()`]: the list of devices that the system itself found, held against the plan;
//! * [`absences`]: what did not answer, by what explains it;
//! * [`freeze`]: the edit that writes the numbers into the site file.

mod absent;
mod assign;
mod buses;
mod found;
mod freeze;
mod plan;
mod pool;
mod reconcile;
mod settings;
mod told;

pub use absent::{Absence, AbsenceCause, absences};
pub use assign::assign;
pub use found::{FoundDevice, FoundList, Unread, UnreadLine, class_words, read_found_list};
pub use freeze::freeze;
pub use plan::{AddressPlan, ChosenNumber, DeviceClass, StationAddress, fields_of};
pub use pool::number_in_name;
pub use reconcile::{Cause, Duplicate, Explanation, Reconciliation, Unexpected, reconcile};
pub use settings::{SwitchSetting, highest_number, number_of, settings};
