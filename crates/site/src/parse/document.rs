//! Text to a TOML tree with recovery.

use super::mistake::{not_closed, toml_mistake};
use super::pieces::{self, is_depth, is_duplicate};
use super::{Findings, Rows, clip};
use crate::codes;
use latchline_finding::{FileId, Finding, Origin, Severity, SourceFile, Span};
use latchline_words::reading::TomlMistake;
use std::collections::BTreeMap;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Largest file that is read.
pub const LARGEST_FILE_BYTES: usize = 8 * 1024 * 1024;
/// Deepest nesting of arrays and tables that the TOML library follows.
const DEEPEST_NESTING: usize = 80;
/// Most lines that begin with a bracket, which every table header does. The TOML library moves a
/// whole table for some headers, so their number decides whether reading stays quick.
const MOST_HEADERS: usize = 10_000;
/// Most duplicates whose first place is looked up.
const MOST_DUPLICATES_TRACED: usize = 200;

/// A parsed file.
#[derive(Debug)]
pub struct Document<'t> {
    /// Which file.
    pub file: FileId,
    /// Its tree, as far as it could be read.
    pub root: DeTable<'t>,
}

/// Parses a file; what is wrong with its TOML goes to `findings`.
///
/// `None` if the file is too large to read or nested too deeply.
pub fn parse<'t>(file: FileId, source: &'t SourceFile, findings: &mut Findings) -> Option<Document<'t>> {
    parse_with(file, source, None, findings)
}

/// The same, with rows that were read before: what they say is not read again.
pub fn parse_with<'t>(
    file: FileId,
    source: &'t SourceFile,
    rows: Option<&'t mut Rows>,
    findings: &mut Findings,
) -> Option<Document<'t>> {
    let text = &*source.text;
    if text.len() > LARGEST_FILE_BYTES {
        findings.push(
            Finding::new(codes::FILE_TOO_LARGE, Severity::Error, Span::new(file, 0..0))
                .with("bytes", text.len())
                .with("limit", LARGEST_FILE_BYTES),
        );
        return None;
    }
    let headers = text.lines().filter(|line| line.trim_start().starts_with('[')).count();
    if headers > MOST_HEADERS {
        findings.push(
            Finding::new(codes::TOO_MANY_TABLES, Severity::Error, Span::new(file, 0..0))
                .with("count", headers)
                .with("limit", MOST_HEADERS),
        );
        return None;
    }
    if let Some(root) = rows.and_then(|rows| rows.read(text)) {
        return Some(Document { file, root });
    }
    let (root, mut slips) = pieces::read(text);
    // What is inside a text is told last by the library; the first in the file is what the others follow from.
    slips.sort_by_key(|slip| slip.at.start);
    let mut keys: Option<KeyIndex> = None;
    let mut traced = 0;
    let mut too_deep = false;
    // Lines with a mistake: where each begins and ends, and whether a list is left open there.
    let mut broken_off: BTreeMap<usize, (usize, bool)> = BTreeMap::new();
    for slip in &slips {
        let span = Span::new(file, slip.at.clone());
        let message = &*slip.message;
        if slip.loses_table {
            findings.lack_table();
        }
        if is_depth(message) {
            // One finding says it: the errors that follow from it would only bury it.
            if !too_deep {
                findings.push(
                    Finding::new(codes::NESTED_TOO_DEEPLY, Severity::Error, span)
                        .with("limit", DEEPEST_NESTING),
                );
            }
            too_deep = true;
        } else if is_duplicate(message) {
            let written = text.get(span.range()).unwrap_or_default();
            let key = written.trim_matches(['"', '\'']);
            let mut finding =
                Finding::new(codes::DUPLICATE_KEY, Severity::Error, span).with("key", clip(key));
            if traced < MOST_DUPLICATES_TRACED {
                traced += 1;
                let index = keys.get_or_insert_with(|| KeyIndex::new(&root));
                if let Some(first) = index.first_place(key, span.range().start) {
                    finding = finding.also_at("first-defined-here", Span::new(file, first));
                }
            }
            findings.push(finding);
        } else if !findings.is_full() {
            let line = line_at(text, span.range().start);
            let is_open = opens_list(&text[line.clone()]);
            // One mistake a line, and none on the lines after a list or a text that is left open: the rest follows from the first.
            let before = broken_off.range(..=line.start).next_back();
            let follows = before.is_some_and(|(start, (end, was_open))| {
                *start == line.start || (*was_open && *end == line.start)
            });
            let was_open = follows && before.is_some_and(|(_, (_, was_open))| *was_open);
            let lacking = name_to_quote(text, span.range()).filter(|_| !is_open);
            let (row, row_name) = match &slip.row {
                Some((row, name)) => (row.clone(), name.as_deref()),
                None => (line.clone(), None),
            };
            let names = lacking.iter().map(|(_, name)| name.as_str()).chain(row_name);
            findings.break_off(file, row, text, names);
            let is_text_open = not_closed(message).is_some_and(|sign| sign != "]");
            broken_off.insert(line.start, (line.end, is_open || is_text_open || was_open));
            if follows {
                continue;
            }
            let (span, detail) = match &lacking {
                Some((at, _)) => (Span::new(file, at.clone()), TomlMistake::NoQuotes.both()),
                None if is_open => (Span::new(file, line), TomlMistake::ListOpen.both()),
                None => (span, toml_mistake(message)),
            };
            let mut finding =
                Finding::new(codes::TOML_SYNTAX, Severity::Error, Origin::Text(span)).with("detail", detail);
            if let Some(closing) = not_closed(message) {
                finding = finding.with("closing", closing);
            }
            if let Some((_, name)) = lacking {
                finding = finding.with("quoted", format!("\"{}\"", clip(&name)));
            }
            findings.push(finding);
        }
    }
    if too_deep { None } else { Some(Document { file, root }) }
}

/// The line around a place, with its end.
fn line_at(text: &str, offset: usize) -> Range<usize> {
    let mut offset = offset.min(text.len());
    while !text.is_char_boundary(offset) {
        offset -= 1;
    }
    let start = text[..offset].rfind('\n').map_or(0, |at| at + 1);
    let end = text[start..].find('\n').map_or(text.len(), |length| start + length + 1);
    start..end
}

/// Whether a line `name = ...` opens more lists than it closes, with something else after them: a `]` is missing.
fn opens_list(line: &str) -> bool {
    let (mut open, mut quote, mut holds_key) = (0_i32, None, false);
    for sign in line.chars() {
        match (quote, sign) {
            (Some(own), sign) if own == sign => quote = None,
            (Some(_), _) => {}
            (None, '"' | '\'') => quote = Some(sign),
            (None, '#') => break,
            (None, '[') => open += 1,
            (None, ']') => open -= 1,
            (None, '=') => holds_key |= open > 0,
            (None, _) => {}
        }
    }
    !line.trim_start().starts_with('[') && open > 0 && holds_key
}

/// What is not read because it lacks its quotes, and where it stands: a text after `=` or in a list, or a name with a space or
/// another sign.
fn name_to_quote(text: &str, at: Range<usize>) -> Option<(Range<usize>, String)> {
    let place = |part: &str| {
        let start = part.as_ptr() as usize - text.as_ptr() as usize;
        start..start + part.len()
    };
    // A text that begins with a letter, or a number with a unit, in the place of a value.
    if let Some(value) = text.get(at.clone()) {
        let bare = value.trim().trim_matches(['\u{201c}', '\u{201d}', '\u{201e}', '\u{2018}', '\u{2019}']);
        let before = text[..at.start].trim_end_matches([' ', '\t']);
        let is_value = before.ends_with(['=', ',', '[']);
        if is_value
            && bare.starts_with(char::is_alphanumeric)
            && !bare.contains(['"', '\'', '=', '{', '[', '#', '\n'])
        {
            return Some((place(value.trim()), bare.to_string()));
        }
    }
    let line = text[line_at(text, at.start)].trim();
    // The name of a line `name = value`, or the last one of a head `[table.name]`.
    let name = match line.strip_prefix('[') {
        Some(head) => head.trim_matches(['[', ']']).rsplit('.').next()?,
        None => line.split_once('=')?.0,
    };
    let name = name.trim();
    let bare = |sign: char| sign.is_ascii_alphanumeric() || sign == '-' || sign == '_';
    let takes_quotes =
        !name.is_empty() && !name.contains(['"', '\'', '{', '[', '#', '.']) && !name.chars().all(bare);
    takes_quotes.then(|| (place(name), name.to_string()))
}

/// Every key of a tree by its text, to find where a duplicate was first defined.
struct KeyIndex<'k> {
    /// Key text to (number of its table, place).
    places: BTreeMap<&'k str, Vec<(usize, Range<usize>)>>,
    /// Starts of the keys of each table, ascending.
    starts: Vec<Vec<usize>>,
}

impl<'k> KeyIndex<'k> {
    fn new(root: &'k DeTable<'_>) -> Self {
        let mut index = Self { places: BTreeMap::new(), starts: Vec::new() };
        index.add(root);
        for starts in &mut index.starts {
            starts.sort_unstable();
        }
        index
    }

    // The TOML library limits the depth of the tree to 80, so recursion is safe.
    fn add(&mut self, table: &'k DeTable<'_>) {
        let number = self.starts.len();
        self.starts.push(table.keys().map(|key| key.span().start).collect());
        for (key, value) in table {
            self.places.entry(key.get_ref()).or_default().push((number, key.span()));
            self.add_value(value);
        }
    }

    fn add_value(&mut self, value: &'k Spanned<DeValue<'_>>) {
        match value.get_ref() {
            DeValue::Table(table) => self.add(table),
            DeValue::Array(items) => items.iter().for_each(|item| self.add_value(item)),
            _ => {}
        }
    }

    /// Where `key` was first defined, given the place of its duplicate: of the tables that have
    /// such a key, the one whose keys come closest before the duplicate.
    fn first_place(&self, key: &str, duplicate: usize) -> Option<Range<usize>> {
        self.places
            .get(key)?
            .iter()
            .filter(|(_, place)| place.start < duplicate)
            .max_by_key(|(table, _)| {
                let starts = &self.starts[*table];
                starts[..starts.partition_point(|start| *start < duplicate)].last().copied()
            })
            .map(|(_, place)| place.clone())
    }
}
