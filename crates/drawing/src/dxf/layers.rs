//! Layers: what lies on them, in which ink, with which pen and line type.

use crate::palette::Ink;
use crate::scene::{Dash, Layer};
use std::collections::BTreeMap;

/// Line widths of ISO 128-2 that are drawn, in hundredths of a millimetre, and up to which width of a scene each is taken.
const PENS: [(u8, f64); 4] = [(25, 0.30), (35, 0.42), (50, 0.60), (70, f64::INFINITY)];

/// How everything on a layer looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct LayerLook {
    pub(super) colour: u8,
    /// In hundredths of a millimetre.
    pub(super) pen: u8,
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

/// The layer of lines of this width.
pub(super) fn of_lines(layers: &mut Layers, layer: Layer, ink: Ink, dash: Dash, width_mm: f64) -> String {
    let (pen, _) = PENS.into_iter().find(|(_, most)| width_mm <= *most).unwrap_or(PENS[3]);
    let ending = if dash == Dash::Solid { String::new() } else { format!("_{}", line_type(dash)) };
    let name = format!("{}_{}_{pen}{ending}", layer.name(), ink.name()).to_ascii_uppercase();
    layers.insert(name.clone(), LayerLook { colour: ink.aci(), pen, line_type: line_type(dash) });
    name
}

/// The layer of lettering and of filled areas.
pub(super) fn of_fills(layers: &mut Layers, layer: Layer, ink: Ink) -> String {
    let name = format!("{}_{}", layer.name(), ink.name()).to_ascii_uppercase();
    layers.insert(name.clone(), LayerLook { colour: ink.aci(), pen: PENS[0].0, line_type: "Continuous" });
    name
}
