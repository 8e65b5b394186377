//! Pictures of a site: elevations, voltage profiles, signal and power return, switch settings, wiring of locks and charts.
//!
//! Every picture is a [`Scene`](latchline_scene::Scene) in millimetres on a sheet; that crate makes SVG and DXF of it.
//! Nothing here computes an engineering quantity: figures come from the assessment or from the arrays that the caller
//! hands over.

pub mod bus_charts;
mod chart;
pub mod elevation;
pub mod fault_charts;
mod figure;
mod frame;
pub mod job_card;
pub mod labels;
mod language;
pub mod overview;
mod panels;
pub mod profile;
pub mod reach;
pub mod sheet;
pub mod switches;
mod symbols;
pub mod ticks;
pub mod wiring;

pub use bus_charts::{signal_sheets, start_up_sheets};
pub use elevation::{Suspect, SuspectPlace, elevation, elevation_with_suspects};
pub use fault_charts::{CourseChart, CoursePoint, ShareChart, ShareLine, course_sheets, share_sheets};
pub use job_card::job_card_sheets;
pub use overview::overview;
pub use profile::profiles;
pub use reach::{ReachChart, ReachCurve, reach_chart};
pub use sheet::{BadSheetSize, SheetOptions, SheetSize};
pub use switches::{switch_picture, switch_sheets};
pub use wiring::wiring_sheets;
