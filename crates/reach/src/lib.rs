//! How many stations can hang on one port, how far apart, behind what length of feeder.
//!
//! How much a bare family and cable carry ([`table`]), how much more a site carries ([`headroom()`]), and the questions that come by
//! [`telephone`].
//!
//! The first is the question that comes by telephone. It is answered by solving, not by a rule of thumb: a bare site is
//! made of one supply, one distributor, as many door stations as calls may stand at once, each with a lock that is held while its call
//! stands, and one chain of equal stations; for each spacing and feeder length the largest chain is searched for which every device keeps its
//! limit in the worst state, at the adverse corner of the tolerances, and no current limit or datasheet
//! count is exceeded; then every rule of the check, signal and start-up included, looks at every chain up to that, and the longest in
//! which none finds an error is the answer, with the shorter ones in which one does. The feed to the distributor and the way to the doors are as long as [`FEED_M`] and [`DOOR_M`] say.
//!
//! **Claim.** For what is solved an interval is halved, which finds the largest chain because adding a station
//! to the far end of a chain never helps: loads whose current does not rise with the voltage give voltages that fall when
//! load is added, and counts only grow. With resistive stations this is not shown: they are replaced by constant
//! currents above theirs (see `latchline_network::phase`), which depend on the chain; there the answer is a chain
//! that was solved and works, next to one that was solved and does not. Signals and start-up know no such order (a signal may pass with two
//! stations and not with one), so nothing is halved for them.

mod bare_site;
mod door_lock;
mod headroom;
mod judge;
mod more_here;
mod question;
mod solve;
pub mod telephone;

pub use bare_site::{BareSite, BareSiteError, DoorsAt, doors_at};
pub use bare_site::{DOOR_CABLE, DOOR_M, FEED_CABLE, FEED_M};
pub use door_lock::{DoorLock, LOCK_CABLE, LOCK_M, lock_at, usual_lock};
pub use headroom::{Headroom, MOST_METRES, MOST_MORE, More, MoreMetres, NewRun, headroom, headroom_while};
pub use more_here::{MoreHere, more_here};
pub use question::{MOST_STATIONS, Question, default_question};
pub use solve::{Cell, ReachLimit, largest_chain, not_judged, table, tables};
