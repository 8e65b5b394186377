//! A building surveyed for door entry: from a workbook to places, routes, dwellings and entrances.
//!
//! * [`workbook`]: sheets from XLSX bytes; [`table`]: what a sheet is, and sheets from CSV bytes;
//! * [`read()`]: from sheets to a [`model::Survey`], columns found whatever their order and spelling, with
//!   every mistake as a [`Problem`] that names sheet, row and column, and gives a finding like those of site files;
//! * [`unknown_parts`]: parts that it names and no catalogue has;
//! * [`routes`]: the route graph, which gives every length; `scope`: whom doors and desks call, and whether a route leads there;
//! * [`locked`]: what is decided already;
//! * [`template`]: the workbook to fill in.

pub mod codes;
pub mod fields;
pub mod locked;
pub mod model;
mod parts;
pub mod problem;
pub mod read;
pub mod routes;
mod scope;
mod sheet_mistake;
pub mod sheets;
pub mod table;
pub mod template;
pub mod workbook;

pub use fields::site_name;
pub use locked::{Decision, Locked, Who};
pub use model::Survey;
pub use parts::unknown_parts;
pub use problem::{Problem, ProblemKind};
pub use read::{Read, read};
