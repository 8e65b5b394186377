//! What is handed over with a site: schedules, cut list, commissioning steps, the order of work and who does what where, as values.
//!
//! It comes from the site, its wiring, its assessment, its predicted readings, its cut list and its table of faults
//! ([`PackInput`]); nothing is solved here. It is put once into [`Table`]s with typed cells; whoever writes a file, in whatever format, starts from
//! these and from no other renderer:
//!
//! * [`table`]: tables, rows and cells;
//! * [`tables`]: what each table holds; [`tab`]: what a workbook calls it;
//! * [`language`]: every word and sentence, one module per language; [`locale`]: numbers, units, dates;
//! * [`commissioning`]: the two commissioning sheets step by step;
//! * [`job_cards`]: which device and which step is on which card; [`device_code`]: what its code leads to;
//! * [`built`]: what of that is otherwise than planned, as edits of the site file;
//! * [`filled`]: what was written into the workbook of an earlier pack, carried over;
//! * [`Pack`]: all of it with its drawings, as the file formats take it.

pub mod built;
pub mod commissioning;
pub mod device_code;
pub mod filled;
pub mod glossary;
pub mod job_cards;
pub mod language;
pub mod locale;
pub mod options;
mod pack;
pub mod stamp;
mod step;
pub mod subject;
pub mod tab;
pub mod table;
pub mod tables;

pub use options::{Audience, Options, Paper, Part};
pub use pack::{Drawing, Pack, PackFile};
pub use stamp::Stamp;
pub use subject::{PackInput, Subject};
pub use table::{Cell, Choice, Column, Entry, Role, Row, Table};
