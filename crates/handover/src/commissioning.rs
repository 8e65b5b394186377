//! The commissioning sheets as steps: what the tables print, and what a phone asks for one by one.

pub use crate::step::{Expected, Sheet, Span, Spot, Stage, Step, Taken};

use crate::subject::Subject;
use crate::tables::{before_power_sheet, live_sheet};

/// Both sheets: before power, then with power.
pub fn sheets(subject: &Subject<'_>) -> [Sheet; 2] {
    [before_power_sheet(subject), live_sheet(subject)]
}
