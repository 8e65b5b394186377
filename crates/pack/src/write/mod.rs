//! Tables as files.

pub mod csv;
mod pages;
pub mod xlsx;
