//! Everything that a pack shows, before it is written in any format, and a file of it once it is.

use crate::options::Part;
use crate::subject::Subject;
use crate::table::Table;
use latchline_scene::Scene;

/// Everything that a pack shows, before it is written in any format.
pub struct Pack<'a> {
    /// What it is made from.
    pub subject: Subject<'a>,
    /// Every table that is wanted, in the order of the pack.
    pub tables: Vec<Table>,
    /// Every drawing that is wanted, in the order of the pack.
    pub drawings: Vec<Drawing>,
    /// The label sheets, if wanted.
    pub labels: Vec<Drawing>,
}

/// One drawing with all its sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Which part of the pack it is.
    pub part: Part,
    /// Name of its files, without the number of the sheet.
    pub name: &'static str,
    /// Its sheets, in order.
    pub sheets: Vec<Scene>,
}

/// One file of a pack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PackFile {
    /// Its name, with folders separated by `/`.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}
