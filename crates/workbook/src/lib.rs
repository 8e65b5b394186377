//! The tables that are handed over as files: one workbook (XLSX) with all of them, or each as CSV.

pub mod csv;
mod pages;
mod widths;
pub mod xlsx;
