//! Pictures of a site: elevations, voltage profiles, signal and power return, switch settings, wiring of locks and charts.
//!
//! Every picture is a [`scene::Scene`] in millimetres on a sheet, which [`svg`](mod@svg) and
//! [`dxf`](mod@dxf) turn into files. Nothing here computes an engineering quantity: figures come
//! from the assessment or from the arrays that the caller hands over.

pub mod bus_charts;
mod chart;
pub mod dxf;
pub mod elevation;
mod figure;
pub mod font;
mod font_widths;
mod frame;
pub mod job_card;
pub mod labels;
mod language;
pub mod overview;
pub mod palette;
pub mod profile;
pub mod reach;
pub mod scene;
pub mod sheet;
pub mod svg;
pub mod switches;
mod symbols;
pub mod ticks;
pub mod wiring;

pub use bus_charts::{signal_sheets, start_up_sheets};
pub use elevation::elevation;
pub use job_card::job_card_sheets;
pub use overview::overview;
pub use palette::Palette;
pub use profile::profiles;
pub use reach::{ReachChart, ReachCurve, reach_chart};
pub use sheet::{BadSheetSize, SheetOptions, SheetSize};
pub use switches::{switch_picture, switch_sheets};
pub use wiring::wiring_sheets;
