//! What an answer of fault location says, for every place that shows it: a terminal, a dialogue, a page.
//!
//! * [`whole()`], [`brief()`], [`short()`]: the answer, what a person on a ladder reads of it, what is said on the telephone;
//! * [`AsDrawnOf`]: whether the site as drawn is the reason itself, where something is told of a place;
//! * [`whole_question()`]: what can be asked before anybody takes a meter;
//! * [`Pictures`]: where to look, the voltage along the way, how the probabilities moved;
//! * [`Reader`]: causes, places, readings and figures in words.
//!
//! What is said comes as [pieces](Said): who shows it breaks them into lines or makes paragraphs and lists of them.

mod again;
mod as_drawn;
mod drawn_reason;
mod next;
mod pictures;
mod plainest;
mod question;
mod reader;
mod said;
mod set_below;
mod whole;

pub use again::{Again, Asked};
pub use as_drawn::{AsDrawnOf, design_errors};
pub use pictures::Pictures;
pub use plainest::Plain;
pub use question::{asked, whole_question};
pub use reader::{Reader, in_whole_percent, rounded};
pub use said::{Piece, Said};
pub use whole::{brief, short, whole};
