//! Quantities, element names, origins and findings: the words every other crate shares.
//!
//! This is the bottom of the workspace. It holds data only: no files, no prose, no arithmetic
//! beyond what keeps units honest.
//!
//! * [`quantity`]: voltages, lengths, ... as types, built and read by the name of their unit;
//! * [`Money`]: amounts of money, exact;
//! * [`ElementId`]: the user's own designation of a thing on site;
//! * [`Origin`]: where a value was written down;
//! * [`Sourced`]: a value with its origin and its [`Provenance`];
//! * [`Finding`]: one thing that is wrong or worth knowing, as typed data;
//! * [`Instrument`]: what a reading was taken with, and how far it is right;
//! * [`Locale`]: how the reader of printed sheets is used to words, numbers and units;
//! * [`shown`]: text from outside as it may reach a terminal;
//! * [`Edit`]: a change to the text of a site file, the only thing that ever flows back.

mod code;
mod code_doc;
mod edit;
mod element;
mod figure;
mod finding;
mod instrument;
mod locale;
mod mains_lost;
mod money;
mod origin;
pub mod quantity;
mod rounded;
pub mod shown;
mod sourced;
mod state;

pub use code::{Code, Severity};
pub use code_doc::CodeDoc;
pub use edit::{Brought, Change, Edit, EditStep, LoopMeasurement, Remedy};
pub use element::ElementId;
pub use figure::{Figure, Unit};
pub use finding::{Acceptance, Argument, DataGrade, Finding, Related};
pub use instrument::{Accuracy, Instrument};
pub use locale::{Both, Language, Locale, METRES_PER_FOOT, Rounding, Units};
pub use mains_lost::{MainsLost, WithoutMains};
pub use money::Money;
pub use origin::{FileId, Origin, SourceFile, Sources, Span};
pub use rounded::Rounded;
pub use sourced::{Provenance, Sourced};
pub use state::{CallMoment, CallRef, OperatingState, StateKind};
