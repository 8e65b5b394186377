//! Layers: what lies on them, in which ink, with which pen and line type.

use crate::palette::Ink;
use crate::{Dash, Layer, Pen};
use std::collections::BTreeMap;

/// How everything on a layer looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct LayerLook {
    pub(super) colour: u8,
    pub(super) pen: Pen,
    pub(super) line_type: &'static str,
}

/// The layers that a drawing uses, by name.
pub(super) type Layers = BTreeMap<String, LayerLook>;

/// The name of a line type.
pub(super) fn line_type(dash: Dash) -> &'static str {
    match dash {
        Dash::Solid => "Continuous",
        Dash::Dashed => "DASHED",
        Dash::Dotted => "DOTTED",
        Dash::DashDot => "DASHDOT",
    }
}

/// The layer of lines with this pen.
pub(super) fn of_lines(layers: &mut Layers, layer: Layer, ink: Ink, dash: Dash, pen: Pen) -> String {
    let ending = if dash == Dash::Solid { String::new() } else { format!("_{}", line_type(dash)) };
    let name = format!("{}_{}_{}{ending}", layer.name(), ink.name(), pen.hundredths()).to_ascii_uppercase();
    layers.insert(name.clone(), LayerLook { colour: ink.aci(), pen, line_type: line_type(dash) });
    name
}

/// The layer of lettering and of filled areas.
pub(super) fn of_fills(layers: &mut Layers, layer: Layer, ink: Ink) -> String {
    let name = format!("{}_{}", layer.name(), ink.name()).to_ascii_uppercase();
    layers.insert(name.clone(), LayerLook { colour: ink.aci(), pen: Pen::Thin, line_type: "Continuous" });
    name
}
