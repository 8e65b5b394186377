//! Devices as blocks with attributes.

use super::entities::{Definition, Drawing, Target};
use super::layers;
use crate::palette::Ink;
use crate::scene::{Attribute, Block, Dash, Layer, Node, Text};

/// Height of the lettering of attributes that are not shown.
const HIDDEN_MM: f64 = 2.5;

impl Drawing {
    /// A device: its symbol as a block with its attributes, everything else as it is drawn.
    pub(super) fn device(&mut self, nodes: &[Node], block: &Block) {
        let symbol = &nodes[block.nodes.clone()];
        self.define(block, symbol);
        // The lettering that says an attribute is that attribute: whoever changes it in CAD changes what is read.
        let shown = |attribute: &Attribute| {
            nodes.iter().enumerate().find_map(|(index, node)| match node {
                Node::Text(text, layer) if !text.text.is_empty() && text.text == attribute.value => {
                    Some((index, text, *layer))
                }
                _ => None,
            })
        };
        let shown: Vec<Option<(usize, &Text, Layer)>> = block.attributes.iter().map(shown).collect();
        for (index, node) in nodes.iter().enumerate() {
            let is_shown = shown.iter().flatten().any(|(text, ..)| *text == index);
            if index == block.nodes.start {
                self.insert(block, &shown);
            }
            if !is_shown && !block.nodes.contains(&index) {
                self.node(node);
            }
        }
    }

    fn define(&mut self, block: &Block, symbol: &[Node]) {
        if self.blocks.contains_key(block.name) {
            return;
        }
        let [record, begin, end] = std::array::from_fn(|_| self.new_handle());
        let outer = (std::mem::take(&mut self.out), self.target);
        self.target = Target { owner: record, is_paper: false, origin: block.at, scale: block.scale };
        symbol.iter().for_each(|node| self.node(node));
        for (row, attribute) in block.attributes.iter().enumerate() {
            let below = (block.at.0, block.at.1 + row as f64 * 1.5 * HIDDEN_MM * block.scale);
            let layer = layers::of_fills(&mut self.layers, Layer::Lettering, Ink::Text);
            self.entity("ATTDEF", &layer, "AcDbText");
            self.lettering(&Text::new(below, "", HIDDEN_MM * block.scale), "");
            self.out.pairs(&[
                (100, "AcDbAttributeDefinition"),
                (280, "0"),
                (3, attribute.tag),
                (2, attribute.tag),
                (70, if row == 0 { "0" } else { "1" }),
            ]);
        }
        let (out, target) = outer;
        let entities = std::mem::replace(&mut self.out, out).text;
        self.target = target;
        self.blocks.insert(block.name, Definition { record, begin, end, entities });
    }

    fn insert(&mut self, block: &Block, shown: &[Option<(usize, &Text, Layer)>]) {
        let layer = layers::of_lines(&mut self.layers, Layer::Device, Ink::Text, Dash::Solid, 0.25);
        let insert = self.entity("INSERT", &layer, "AcDbBlockReference");
        self.out.pair(66, "1");
        self.out.pair(2, block.name);
        let (x, y) = self.place(block.at);
        self.out.point(10, x, y);
        for code in 41..=43 {
            self.out.number(code, block.scale);
        }
        for (row, (attribute, shown)) in block.attributes.iter().zip(shown).enumerate() {
            let below = (block.at.0, block.at.1 + row as f64 * 1.5 * HIDDEN_MM * block.scale);
            let hidden = Text::new(below, "", HIDDEN_MM * block.scale);
            let (text, layer) = match shown {
                Some((_, text, layer)) => (*text, *layer),
                None => (&hidden, Layer::Lettering),
            };
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
