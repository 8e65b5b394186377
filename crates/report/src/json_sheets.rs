//! The sheet of one door and of one supply, for programs.
//!
//! The structs are apart from the model, as those of the check document: numbers in base units, what is
//! not finite or not stated left out.

mod door;
mod fittings;
mod line;
mod lock;
mod said;
mod supply;

pub use door::DoorDocument;
pub use supply::SupplyDocument;

use crate::json::schema_of;
use crate::report::Report;
use door::door_document;
use serde::Serialize;
use supply::supply_document;

/// The sheet of the entrance with this name as a JSON text; `None` if there is none.
///
/// # Errors
/// If it cannot be written as JSON, which the types here rule out.
pub fn door(report: &Report<'_>, name: &str) -> Result<Option<String>, serde_json::Error> {
    let found = report.assessment.and_then(|a| a.doors.iter().find(|sheet| sheet.entrance.as_str() == name));
    found.map(|sheet| text(&door_document(report, sheet))).transpose()
}

/// The sheet of the supply with this name as a JSON text; `None` if there is none.
///
/// # Errors
/// If it cannot be written as JSON, which the types here rule out.
pub fn supply(report: &Report<'_>, name: &str) -> Result<Option<String>, serde_json::Error> {
    let sheets = report.assessment.map(|assessment| &assessment.supply_sheets);
    let found = sheets.and_then(|sheets| sheets.iter().find(|sheet| sheet.supply.as_str() == name));
    found.map(|sheet| text(&supply_document(report, sheet))).transpose()
}

/// JSON Schema (draft 2020-12) of a door's sheet.
pub fn door_schema() -> serde_json::Value {
    schema_of::<DoorDocument>("Latchline door sheet")
}

/// JSON Schema (draft 2020-12) of a supply's sheet.
pub fn supply_schema() -> serde_json::Value {
    schema_of::<SupplyDocument>("Latchline supply sheet")
}

fn text(document: &impl Serialize) -> Result<String, serde_json::Error> {
    crate::json::text(document)
}
