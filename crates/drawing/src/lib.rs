//! Pictures of a site: elevations, voltage profiles, switch settings and charts.
//!
//! Every picture is a [`scene::Scene`] in millimetres on a sheet, which [`svg`] and [`dxf`] turn
//! into files. Nothing here computes an engineering quantity: figures come from the assessment or
//! from the arrays that the caller hands over.

pub mod dxf;
pub mod elevation;
mod figure;
pub mod font;
mod font_widths;
pub mod labels;
pub mod palette;
pub mod scene;
pub mod sheet;
pub mod svg;
mod symbols;

pub use elevation::{ElevationOptions, elevation};
pub use palette::Palette;
pub use sheet::{SheetSize, TitleBlock};
