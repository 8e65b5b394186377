//! Tables as files.

pub mod csv;
mod pages;
mod widths;
pub mod xlsx;
