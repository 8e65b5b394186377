//! A scene as DXF of release 2010 (AC1024), as a drawing office takes it.
//!
//! * What is drawn lies in model space, at true scale in millimetres; frame, legend and title block lie on a layout in
//!   paper space, which shows the model through a viewport at 1 : 1. Both have the same origin, so a sheet looks alike
//!   in both.
//! * Every entity takes colour, line width and line type from its layer. A layer is named by what lies on it, its ink,
//!   and its pen in hundredths of a millimetre (`DEVICE_OUTLINE_35`): what a name means is the same in every file.
//! * A device's symbol is a block, placed with the device's designation, model and address as attributes; so is the title block,
//!   with what it says.
//!
//! y grows upward, so the picture is mirrored at the lower edge of the sheet. Handles are counted in the order of
//! writing, so the same scene gives the same bytes.

mod blocks;
mod entities;
mod layers;
mod pairs;
mod structure;
mod texts;

use crate::palette::Ink;
use crate::{Area, Dash, Group, Layer, Node, Pen, Role, Scene};
use entities::Drawing;

/// Kinds of groups that belong to the sheet rather than to what is drawn on it.
const OF_THE_SHEET: [&str; 3] = ["frame", "legend", "title-block"];

/// The scene as a complete DXF file.
pub fn dxf(scene: &Scene) -> String {
    let mut drawing = Drawing::new(scene.height_mm);
    let (of_the_sheet, drawn): (Vec<&Node>, Vec<&Node>) =
        scene.root.nodes.iter().partition(|node| is_of_the_sheet(node));
    drawn.into_iter().for_each(|node| draw(&mut drawing, node));
    drawing.go_on_paper();
    let edge = Area::new(0.0, 0.0, scene.width_mm, scene.height_mm);
    drawing.polyline(Layer::Sheet, &entities::corners(edge), true, Ink::Outline, Dash::Solid, Pen::Thin);
    of_the_sheet.into_iter().for_each(|node| draw(&mut drawing, node));
    structure::file(scene, drawing)
}

fn is_of_the_sheet(node: &Node) -> bool {
    matches!(node, Node::Group(group) if OF_THE_SHEET.contains(&group.role.kind))
}

/// Draws a node, devices as blocks.
fn draw(drawing: &mut Drawing, node: &Node) {
    match node {
        Node::Group(Group { role: Role { block: Some(block), .. }, nodes }) => {
            drawing.with_attributes(nodes, block)
        }
        Node::Group(group) => group.nodes.iter().for_each(|inner| draw(drawing, inner)),
        other => drawing.node(other),
    }
}
