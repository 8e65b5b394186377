//! Pages as they are laid out, before anything is written: marks in blocks, and the tree that says what they are.

use crate::font::Fonts;
use latchline_scene::{Node, Scene};
use std::collections::BTreeSet;

/// A mark on a page; millimetres from its left upper corner.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Mark {
    /// A line of text.
    Text {
        /// Left end of the baseline.
        at: (f64, f64),
        /// What it says.
        text: String,
        /// Font size.
        size_mm: f64,
        /// Bold weight.
        bold: bool,
        /// White on black instead of black on white.
        is_white: bool,
    },
    /// A straight line.
    Line {
        /// One end.
        from: (f64, f64),
        /// The other.
        to: (f64, f64),
        /// Width.
        width_mm: f64,
    },
    /// A rectangle.
    Rectangle {
        /// Left, top, width, height.
        area: (f64, f64, f64, f64),
        /// Lightness of its inside, 0 black to 255 white.
        fill: Option<u8>,
        /// Width of its outline.
        outline_mm: Option<f64>,
    },
}

/// Marks that belong together.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Block {
    /// Whether it is content with its place in the tree; otherwise an artifact: rules, repeated heads.
    pub(crate) is_content: bool,
    /// The marks, drawn in order.
    pub(crate) marks: Vec<Mark>,
}

/// A place that leads to another page.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Link {
    /// Left, top, width, height.
    pub(crate) area: (f64, f64, f64, f64),
    /// Page of the document, from 0.
    pub(crate) to_page: usize,
    /// Where it leads, in words.
    pub(crate) words: String,
}

/// One page.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Page<'a> {
    /// Width and height in millimetres.
    pub(crate) size: (f64, f64),
    /// A drawing that fills it; it is the page's only content.
    pub(crate) scene: Option<&'a Scene>,
    /// Whether it is label stock, on which nothing but labels may be printed.
    pub(crate) is_stock: bool,
    /// Everything else, in reading order.
    pub(crate) blocks: Vec<Block>,
    /// Links.
    pub(crate) links: Vec<Link>,
}

impl Page<'_> {
    /// An empty page.
    pub(crate) fn new(size: (f64, f64)) -> Self {
        Page { size, scene: None, is_stock: false, blocks: Vec::new(), links: Vec::new() }
    }

    /// Adds an artifact.
    pub(crate) fn artifact(&mut self, marks: Vec<Mark>) {
        self.blocks.push(Block { is_content: false, marks });
    }

    /// Adds content; gives its number on this page.
    pub(crate) fn content(&mut self, marks: Vec<Mark>) -> usize {
        self.blocks.push(Block { is_content: true, marks });
        self.blocks.len() - 1
    }
}

/// What a part of the tree is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// A part of the document.
    Section,
    /// A heading of this level, from 1.
    Heading(u16),
    /// A paragraph.
    Paragraph,
    /// A table.
    Table,
    /// Its head.
    TableHead,
    /// Its rows.
    TableBody,
    /// One row.
    Row,
    /// The heading of a column.
    ColumnHeader,
    /// A heading over so many columns.
    GroupHeader(u32),
    /// The heading of a row.
    RowHeader,
    /// A cell.
    Cell,
    /// A drawing, described by the element's words.
    Figure,
    /// A list of what is where.
    Contents,
    /// An entry of it.
    ContentsItem,
    /// A link.
    Link,
}

/// A part of the tree.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Element {
    /// What it is.
    pub(crate) kind: Kind,
    /// The words of a heading, or the description of a figure.
    pub(crate) words: Option<String>,
    /// What it consists of.
    pub(crate) children: Vec<Child>,
}

/// What an element consists of.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Child {
    /// Another.
    Element(Element),
    /// A block of a page of the section.
    Block {
        /// Page of the section, from 0.
        page: usize,
        /// Number on that page.
        block: usize,
    },
    /// The drawing of a page of the section.
    Scene {
        /// Page of the section, from 0.
        page: usize,
    },
    /// A link on a page of the section.
    Link {
        /// Page of the section, from 0.
        page: usize,
        /// Number on that page.
        link: usize,
    },
}

impl Element {
    /// An empty one.
    pub(crate) fn new(kind: Kind) -> Element {
        Element { kind, words: None, children: Vec::new() }
    }

    /// One that consists of these blocks of one page.
    pub(crate) fn of_block(kind: Kind, page: usize, block: usize) -> Element {
        Element { kind, words: None, children: vec![Child::Block { page, block }] }
    }

    /// With these words.
    #[must_use]
    pub(crate) fn words(mut self, words: &str) -> Element {
        self.words = Some(words.to_string());
        self
    }

    /// Adds an element.
    pub(crate) fn push(&mut self, element: Element) {
        self.children.push(Child::Element(element));
    }
}

/// An entry of the bookmarks.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Bookmark {
    /// Its words.
    pub(crate) title: String,
    /// Page of the section, from 0.
    pub(crate) page: usize,
    /// Distance from the top of the page.
    pub(crate) y: f64,
}

/// A part of a document, laid out.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Section<'a> {
    /// Title.
    pub(crate) title: String,
    /// Its pages.
    pub(crate) pages: Vec<Page<'a>>,
    /// What is on them.
    pub(crate) tree: Element,
    /// What is within it.
    pub(crate) bookmarks: Vec<Bookmark>,
    /// Characters without a glyph that occur in it.
    pub(crate) missing: BTreeSet<char>,
}

impl<'a> Section<'a> {
    /// A section; what has no glyph is found in its texts.
    pub(crate) fn new(
        fonts: &Fonts,
        title: String,
        pages: Vec<Page<'a>>,
        tree: Element,
        bookmarks: Vec<Bookmark>,
    ) -> Section<'a> {
        let mut missing = BTreeSet::new();
        let mut look = |text: &str| missing.extend(text.chars().filter(|sign| !fonts.has(*sign)));
        for page in &pages {
            for mark in page.blocks.iter().flat_map(|block| &block.marks) {
                if let Mark::Text { text, .. } = mark {
                    look(text);
                }
            }
            if let Some(scene) = page.scene {
                scene.root.visit(&mut |node| {
                    if let Node::Text(text, _) = node {
                        look(&text.text);
                    }
                });
            }
        }
        Section { title, pages, tree, bookmarks, missing }
    }
}
