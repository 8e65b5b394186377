//! Findings and verdicts as text, JSON and SARIF: one file per format.
//!
//! A renderer words and lays out what an [`Assessment`](latchline_assess::Assessment) says; it
//! computes no engineering quantity. All formats start from one [`Report`].
//!
//! * [`text`]: for a person, verdict first;
//! * [`short`]: one line per finding, for editors and `grep`;
//! * [`json`]: for programs, with a published schema;
//! * [`sarif`]: for code review tools (OASIS SARIF 2.1.0);
//! * [`wording`]: remedies, verdicts and gaps in words (the words themselves are in `latchline_words`);
//! * [`sheet`]: the sheet of one door or one supply;
//! * [`catalogue`]: the list of parts;
//! * [`compare`]: two versions of a site;
//! * [`addresses`]: the table of addresses and switch settings.

pub mod addresses;
mod caret;
pub mod catalogue;
pub mod compare;
pub mod explain;
pub mod figures;
pub mod job_change;
pub mod jobs_text;
pub mod json;
pub mod json_edits;
mod json_findings;
mod json_jobs;
mod json_physics;
pub mod json_sheets;
mod json_values;
mod paint;
mod physics_text;
mod place;
mod report;
pub mod sarif;
pub mod sheet;
pub mod short;
pub mod table;
pub mod text;
pub mod wording;
mod wrap;

pub use latchline_words::template;
pub use paint::Look;
pub use report::{Report, STANDARD_INPUT};
pub use text::Detail;
