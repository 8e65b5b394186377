//! Devices and title blocks as blocks with attributes.

use super::entities::{Definition, Drawing, Target};
use super::layers;
use crate::palette::Ink;
use crate::{Attribute, Block, Dash, Layer, Node, Pen, Text};

/// Height of the lettering of attributes that are not shown.
const HIDDEN_MM: f64 = 2.5;

/// The lettering of an attribute that is not shown: attributes stand below one another.
fn hidden_text(block: &Block, row: usize) -> Text {
    let below = (block.at.0, block.at.1 + row as f64 * 1.5 * HIDDEN_MM * block.scale);
    Text::new(below, "", HIDDEN_MM * block.scale)
}

impl Drawing {
    /// A device or a title block: its symbol as a block with its attributes, everything else as it is drawn.
    pub(super) fn with_attributes(&mut self, nodes: &[Node], block: &Block) {
        let symbol = &nodes[block.nodes.clone()];
        // The lettering that says an attribute is that attribute: whoever changes it in CAD changes what is read.
        let shown = |attribute: &Attribute| match nodes.get(attribute.node?)? {
            Node::Text(text, layer) => Some((text, *layer)),
            _ => None,
        };
        let shown: Vec<Option<(&Text, Layer)>> = block.attributes.iter().map(shown).collect();
        self.define(block, symbol, &shown);
        for (index, node) in nodes.iter().enumerate() {
            let is_shown = block.attributes.iter().any(|attribute| attribute.node == Some(index));
            if index == block.nodes.start {
                self.insert(block, &shown);
            }
            if !is_shown && !block.nodes.contains(&index) {
                self.node(node);
            }
        }
    }

    fn define(&mut self, block: &Block, symbol: &[Node], shown: &[Option<(&Text, Layer)>]) {
        if self.blocks.contains_key(block.name) {
            return;
        }
        let [record, begin, end] = std::array::from_fn(|_| self.new_handle());
        let outer = (std::mem::take(&mut self.out), self.target);
        self.target = Target { owner: record, is_paper: false, origin: block.at, scale: block.scale };
        symbol.iter().for_each(|node| self.node(node));
        for (row, (attribute, shown)) in block.attributes.iter().zip(shown).enumerate() {
            let hidden = hidden_text(block, row);
            let (text, layer) = shown.unwrap_or((&hidden, Layer::Lettering));
            let layer = layers::of_fills(&mut self.layers, layer, text.ink);
            self.entity("ATTDEF", &layer, "AcDbText");
            self.lettering(text, "");
            self.out.pairs(&[
                (100, "AcDbAttributeDefinition"),
                (280, "0"),
                (3, attribute.tag),
                (2, attribute.tag),
                (70, if shown.is_some() { "0" } else { "1" }),
            ]);
        }
        let (out, target) = outer;
        let entities = std::mem::replace(&mut self.out, out).text;
        self.target = target;
        self.blocks.insert(block.name, Definition { record, begin, end, entities });
    }

    fn insert(&mut self, block: &Block, shown: &[Option<(&Text, Layer)>]) {
        let layer = layers::of_lines(&mut self.layers, Layer::Device, Ink::Text, Dash::Solid, Pen::Thin);
        let insert = self.entity("INSERT", &layer, "AcDbBlockReference");
        self.out.pair(66, "1");
        self.out.pair(2, block.name);
        let (x, y) = self.place(block.at);
        self.out.point(10, x, y);
        for code in 41..=43 {
            self.out.number(code, block.scale);
        }
        for (row, (attribute, shown)) in block.attributes.iter().zip(shown).enumerate() {
            let hidden = hidden_text(block, row);
            let (text, layer) = shown.unwrap_or((&hidden, Layer::Lettering));
            let layer = layers::of_fills(&mut self.layers, layer, text.ink);
            self.entity("ATTRIB", &layer, "AcDbText");
            self.lettering(text, &attribute.value);
            self.out.pairs(&[
                (100, "AcDbAttribute"),
                (280, "0"),
                (2, attribute.tag),
                (70, if shown.is_some() { "0" } else { "1" }),
            ]);
        }
        let end = self.new_handle();
        self.entity_of("SEQEND", &layer, "", end, insert);
    }
}
