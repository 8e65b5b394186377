//! Where every value of a text stands, so that an edit that only sets values need not read the text again.

use super::document::read_value;
use super::error::EditError;
use latchline_finding::{Change, Edit, EditStep};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// The places of all keys and values of one text, in the order of its tree.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Places {
    nodes: Vec<Node>,
}

#[derive(Debug, Clone, PartialEq, Eq)]
struct Node {
    /// Of the key; empty for the rows of an array.
    key: Range<u32>,
    value: Range<u32>,
    kind: Kind,
    /// One past the last node within it.
    end: u32,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Plain,
    Array,
    Table,
}

impl Places {
    /// Of a text that was read without a mistake.
    pub(crate) fn new(root: &DeTable<'_>) -> Self {
        let mut places = Places::default();
        places.table(root);
        places
    }

    // The TOML library limits the depth of the tree to 80, so recursion is safe.
    fn table(&mut self, table: &DeTable<'_>) {
        for (key, value) in table {
            self.value(key.span(), value);
        }
    }

    fn value(&mut self, key: Range<usize>, value: &Spanned<DeValue<'_>>) {
        let narrow = |range: Range<usize>| range.start as u32..range.end as u32;
        let at = self.nodes.len();
        let kind = match value.get_ref() {
            DeValue::Table(_) => Kind::Table,
            DeValue::Array(_) => Kind::Array,
            _ => Kind::Plain,
        };
        self.nodes.push(Node { key: narrow(key), value: narrow(value.span()), kind, end: 0 });
        match value.get_ref() {
            DeValue::Table(table) => self.table(table),
            DeValue::Array(rows) => rows.iter().for_each(|row| self.value(0..0, row)),
            _ => {}
        }
        self.nodes[at].end = self.nodes.len() as u32;
    }

    /// Where the plain value at a path stands; `None` where none is, or a key is written in a way that must be read to be known.
    fn plain_value(&self, text: &str, path: &[EditStep]) -> Option<Range<usize>> {
        let (mut first, mut last, mut kind) = (0, self.nodes.len(), Kind::Table);
        let mut found = None;
        for step in path {
            let mut rows = 0;
            let mut at = first;
            loop {
                if at >= last {
                    return None;
                }
                let node = &self.nodes[at];
                let is_it = match (step, kind) {
                    (EditStep::Key(key), Kind::Table) => {
                        let written = text.get(node.key.start as usize..node.key.end as usize)?;
                        if written.contains('\\') {
                            return None;
                        }
                        written.trim_matches(['"', '\'']) == key
                    }
                    (EditStep::Index(index), Kind::Array) => rows == *index,
                    _ => return None,
                };
                if is_it {
                    (first, last, kind) = (at + 1, node.end as usize, node.kind);
                    found = Some(node);
                    break;
                }
                rows += 1;
                at = node.end as usize;
            }
        }
        let node = found.filter(|node| node.kind == Kind::Plain)?;
        Some(node.value.start as usize..node.value.end as usize)
    }
}

/// As [`apply`](super::apply), with the places of the text; where the edit only gives other values to keys that have one, nothing is read
/// again. The result is the same.
///
/// # Errors
/// As [`apply`](super::apply).
pub fn apply_at(text: &str, places: &Places, edit: &Edit) -> Result<String, EditError> {
    match spliced(text, places, edit) {
        Some(text) => Ok(text),
        None => super::apply(text, edit),
    }
}

fn spliced(text: &str, places: &Places, edit: &Edit) -> Option<String> {
    let mut splices: Vec<(Range<usize>, String)> = Vec::with_capacity(edit.changes.len());
    for (path, change) in &edit.changes {
        let Change::Set(value) = change else { return None };
        let value = read_value(value).ok()?.to_string();
        // Lines within a value would have to end as those of the text do.
        if value.contains('\n') {
            return None;
        }
        splices.push((places.plain_value(text, path)?, value));
    }
    splices.sort_by_key(|(range, _)| range.start);
    if splices.is_empty() || splices.windows(2).any(|pair| pair[0].0.end > pair[1].0.start) {
        return None;
    }
    let mut edited = String::with_capacity(text.len() + 64);
    let mut at = 0;
    for (range, value) in splices {
        edited.push_str(text.get(at..range.start)?);
        edited.push_str(&value);
        at = range.end;
    }
    edited.push_str(text.get(at..)?);
    Some(edited)
}
