//! Tables as files.

pub mod csv;
pub mod xlsx;
