//! Tags (ISO 32000-1, 14.7 and 14.8): the tree of elements, and for each page which element its content is of.

use super::file::{File, Reference, string};
use std::fmt::Write as _;

/// A tag with its attributes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Tag<'t> {
    /// Standard structure type: "Sect", "P", "TD".
    pub(crate) kind: &'static str,
    /// Further entries of its dictionary: attributes.
    pub(crate) entries: &'static str,
    /// Columns that a cell spans, if not one.
    pub(crate) columns: Option<u32>,
    /// Title, for headings.
    pub(crate) title: Option<&'t str>,
    /// Description, for figures.
    pub(crate) description: Option<&'t str>,
}

impl Tag<'_> {
    /// One without anything else.
    pub(crate) fn new(kind: &'static str) -> Self {
        Tag { kind, entries: "", columns: None, title: None, description: None }
    }
}

/// What an element consists of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Kid {
    /// Another element.
    Element(Reference),
    /// Marked content: its page, and its number there.
    Content(usize, usize),
    /// An annotation: its page and number in the list of all.
    Annotation(usize, usize),
}

/// The tags of a file.
pub(crate) struct Structure {
    root: Reference,
    pages: Vec<Reference>,
    /// By page: the element of each piece of marked content.
    of_content: Vec<Vec<Option<Reference>>>,
    annotations: Vec<Reference>,
    of_annotation: Vec<Option<Reference>>,
}

impl Structure {
    /// For these pages with so many pieces of marked content each, and these annotations.
    pub(crate) fn new(
        file: &mut File,
        pages: Vec<Reference>,
        content: &[usize],
        annotations: Vec<Reference>,
    ) -> Self {
        Structure {
            root: file.reserve(),
            pages,
            of_content: content.iter().map(|count| vec![None; *count]).collect(),
            of_annotation: vec![None; annotations.len()],
            annotations,
        }
    }

    /// Writes an element whose number was reserved.
    pub(crate) fn element(
        &mut self,
        file: &mut File,
        reference: Reference,
        parent: Option<Reference>,
        tag: &Tag<'_>,
        kids: &[Kid],
    ) {
        let mut body = String::with_capacity(64);
        let _ = write!(body, "<</S/{}/P {}{}", tag.kind, parent.unwrap_or(self.root), tag.entries);
        if let Some(columns) = tag.columns {
            let _ = write!(body, "/A<</O/Table/Scope/Row/ColSpan {columns}>>");
        }
        if let Some(title) = tag.title {
            let _ = write!(body, "/T{}", string(title));
        }
        if let Some(description) = tag.description {
            let _ = write!(body, "/Alt{}", string(description));
        }
        let own_page = kids.iter().find_map(|kid| match kid {
            Kid::Content(page, _) => Some(*page),
            _ => None,
        });
        if let Some(page) = own_page {
            let _ = write!(body, "/Pg {}", self.pages[page]);
        }
        let mut list = String::new();
        for kid in kids {
            match *kid {
                Kid::Element(kid) => {
                    let _ = write!(list, "{kid} ");
                }
                Kid::Content(page, number) => {
                    self.of_content[page][number] = Some(reference);
                    let _ = if Some(page) == own_page {
                        write!(list, "{number} ")
                    } else {
                        write!(list, "<</Type/MCR/Pg {}/MCID {number}>>", self.pages[page])
                    };
                }
                Kid::Annotation(page, number) => {
                    self.of_annotation[number] = Some(reference);
                    let object = self.annotations[number];
                    let _ = write!(list, "<</Type/OBJR/Pg {}/Obj {object}>>", self.pages[page]);
                }
            }
        }
        let list = list.trim_end();
        let _ = match kids.len() {
            0 => write!(body, ">>"),
            1 => write!(body, "/K {list}>>"),
            _ => write!(body, "/K[{list}]>>"),
        };
        file.put(reference, &body);
    }

    /// Writes the root above `document`, and which element everything marked belongs to; gives the root. Keys are
    /// the pages by number, then the annotations.
    pub(crate) fn finish(self, file: &mut File, document: Reference) -> Reference {
        let mut rows = String::new();
        for (page, elements) in self.of_content.iter().enumerate() {
            let list: Vec<String> = elements
                .iter()
                .map(|element| element.map_or_else(|| String::from("null"), |element| element.to_string()))
                .collect();
            let array = file.add(&format!("[{}]", list.join(" ")));
            let _ = write!(rows, "{page} {array} ");
        }
        for (number, element) in self.of_annotation.iter().enumerate() {
            if let Some(element) = element {
                let _ = write!(rows, "{} {element} ", self.of_content.len() + number);
            }
        }
        let next = self.of_content.len() + self.of_annotation.len();
        let tree = file.add(&format!("<</Nums[{}]>>", rows.trim_end()));
        let body =
            format!("<</Type/StructTreeRoot/K {document}/ParentTree {tree}/ParentTreeNextKey {next}>>");
        file.put(self.root, &body);
        self.root
    }
}
